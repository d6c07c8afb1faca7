//! What a club or a teacher sets in `finwright.toml`: a profile, rules' levels and thresholds, the field's code, the
//! reader's units.
//!
//! * [`find`]: the nearest `finwright.toml`, upward from a design. Editor and command line both ask it.
//! * [`read`](mod@read): its text understood, and what in it can't be.
//! * [`schema`]: what it may hold, for an editor of it.

pub mod find;
mod read;
pub mod schema;

use crate::finding::Level;
use crate::rules::RULES;
use crate::threshold::{Profile, Threshold};
use finwright_assess::field_rules::Jurisdiction;
use finwright_units::Units;

pub use find::{settings_for, FILE_NAME};
pub use read::read;

/// Levels and thresholds for the rules, and how their findings are told.
#[derive(Clone, Debug, Default)]
pub struct Settings {
    /// For whom thresholds are set that nothing else sets.
    pub profile: Profile,
    /// The code that the field follows, where one is chosen.
    pub code: Option<Jurisdiction>,
    /// Whose units come first in what is said.
    pub units: Units,
    /// What `finwright.toml` says and can't be understood.
    pub problems: Vec<Trouble>,
    thresholds: Vec<(&'static str, f64)>,
    levels: Vec<(&'static str, Option<Level>)>,
}

/// Something in a `finwright.toml` that can't be understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// The file, as seen from the design.
    pub file: String,
    /// The line, from 1.
    pub line: usize,
    /// What is wrong.
    pub message: String,
    /// What to do about it.
    pub help: String,
}

impl Settings {
    /// A profile as it is.
    pub fn of(profile: Profile) -> Settings {
        Settings { profile, ..Settings::default() }
    }

    /// The same for a reader of these units.
    pub fn in_units(self, units: Units) -> Settings {
        Settings { units, ..self }
    }

    /// A threshold's value in SI.
    pub fn limit(&self, threshold: &Threshold) -> f64 {
        let set = self.thresholds.iter().find(|(name, _)| *name == threshold.name);
        set.map_or(threshold.value(self.profile), |(_, value)| *value)
    }

    /// The level that a rule is set to: `None` where nothing sets it, `Some(None)` where it's off.
    pub fn level(&self, rule: &str) -> Option<Option<Level>> {
        self.levels.iter().find(|(name, _)| *name == rule).map(|(_, level)| *level)
    }

    /// Whether a rule is switched off.
    pub fn is_off(&self, rule: &str) -> bool {
        self.level(rule) == Some(None)
    }
}

/// Every threshold of every rule, each once.
pub fn thresholds() -> Vec<&'static Threshold> {
    let mut found: Vec<&'static Threshold> = Vec::new();
    for threshold in RULES.iter().flat_map(|rule| rule.thresholds) {
        if !found.iter().any(|known| known.name == threshold.name) {
            found.push(threshold);
        }
    }
    found
}

/// Whether a rule's level may be set: what can't be read isn't checked, and no setting changes that.
pub fn may_be_set(rule: &str) -> bool {
    !rule.starts_with("syntax/") && !rule.starts_with("settings/")
}
