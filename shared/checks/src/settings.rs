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
use crate::threshold::{Profile, Threshold};
use finwright_assess::field_rules::Jurisdiction;
use finwright_units::Units;

pub use find::{settings_for, FILE_NAME};
pub use read::read;

/// Levels and thresholds for the rules, and how their findings are told.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Settings {
    /// For whom thresholds are set that nothing else sets.
    pub profile: Profile,
    /// The code that the field follows, where one is chosen.
    pub code: Option<Jurisdiction>,
    /// What comments in a design may allow.
    pub allowing: Allowing,
    /// Whose units come first in what is said.
    pub units: Units,
    /// What `finwright.toml` says and can't be understood.
    pub problems: Vec<Trouble>,
    thresholds: Vec<(&'static str, f64)>,
    levels: Vec<(&'static str, Option<Level>)>,
}

/// What comments in a design may allow.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Allowing {
    /// Anything that is read.
    #[default]
    All,
    /// What is found at warning level or below.
    Warnings,
    /// Nothing.
    None,
}

/// What may be allowed, by the name that `finwright.toml` gives it.
pub const ALLOWING: [(&str, Allowing); 3] =
    [("all", Allowing::All), ("warnings", Allowing::Warnings), ("none", Allowing::None)];

impl Allowing {
    /// The gravest level that may be allowed; `None` where nothing may.
    pub fn least_level(self) -> Option<Level> {
        match self {
            Allowing::All => Some(Level::Error),
            Allowing::Warnings => Some(Level::Warning),
            Allowing::None => None,
        }
    }
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

    /// The same at a field that follows this code.
    pub fn under(self, code: Jurisdiction) -> Settings {
        Settings { code: Some(code), ..self }
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

    /// The rules that are set to a level, with it; `None` for off.
    pub fn levels(&self) -> &[(&'static str, Option<Level>)] {
        &self.levels
    }
}
