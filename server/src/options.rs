//! What the user has chosen in the editor's own settings, under `finwright`. Levels and thresholds aren't among them:
//! those stand in `finwright.toml`, where the command line reads them too.

use serde_json::Value;

/// The choices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Options {
    /// Which files diagnostics are told of.
    pub diagnostics: Scope,
    /// Where parts sit, between the words.
    pub stations: bool,
    /// What parts weigh, between the words.
    pub masses: bool,
    /// What expressions come to, between the words.
    pub values: bool,
    /// A line above each flight.
    pub lenses: bool,
}

/// Which files diagnostics are told of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// None.
    Off,
    /// Those that are open.
    Open,
    /// All of the workspace's.
    Workspace,
}

impl Default for Options {
    fn default() -> Options {
        Options { diagnostics: Scope::Open, stations: true, masses: true, values: true, lenses: true }
    }
}

impl Options {
    /// The same with what a client sends: the settings themselves, or these under `finwright`. What can't be
    /// understood leaves things as they are.
    pub fn with(self, sent: &Value) -> Options {
        let own = sent.get("finwright").unwrap_or(sent);
        let switch = |path: &str, now: bool| own.pointer(path).and_then(Value::as_bool).unwrap_or(now);
        Options {
            diagnostics: match own.pointer("/diagnostics").and_then(Value::as_str) {
                Some("off") => Scope::Off,
                Some("open") => Scope::Open,
                Some("workspace") => Scope::Workspace,
                _ => self.diagnostics,
            },
            stations: switch("/hints/stations", self.stations),
            masses: switch("/hints/masses", self.masses),
            values: switch("/hints/values", self.values),
            lenses: switch("/lenses", self.lenses),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_is_not_understood_leaves_things_as_they_are() {
        let usual = Options::default();
        assert_eq!(usual.with(&json!({"diagnostics": "everything", "hints": 3, "lenses": "no"})), usual);
        let chosen = usual.with(&json!({"finwright": {"diagnostics": "workspace", "hints": {"masses": false}}}));
        assert_eq!(chosen, Options { diagnostics: Scope::Workspace, masses: false, ..usual });
    }
}
