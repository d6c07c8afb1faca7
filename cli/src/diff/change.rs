//! What a change comes to, as plain data.

use finwright_checks::{Level, Verdict};
use schemars::JsonSchema;
use serde::Serialize;

/// What became of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// It wasn't there before.
    Added,
    /// It isn't there now.
    Removed,
    /// It goes by another name; it may have changed too.
    Renamed,
    /// It's there before and now.
    Changed,
}

/// What became of a design.
#[derive(Serialize, JsonSchema)]
pub struct DesignChange {
    /// Its path now; of one that is gone, its path before.
    pub path: String,
    /// Its path before, where that was another one.
    pub was: Option<String>,
    pub change: Kind,
    /// The verdict on the file before.
    pub old_verdict: Option<Verdict>,
    /// The verdict on it now.
    pub new_verdict: Option<Verdict>,
    /// Whether a flight's verdict or the file's is worse than before; of a new design, whether it may not fly as it is.
    pub worse: bool,
    pub flights: Vec<FlightChange>,
    /// What was found before and isn't now.
    pub findings_gone: Vec<Found>,
    /// What is found now and wasn't before.
    pub findings_new: Vec<Found>,
    /// What is found before and now, and says something else now.
    pub findings_changed: Vec<Found>,
    /// What the files say otherwise than before, block by block.
    pub parts: Vec<PartChange>,
}

/// What became of a flight.
#[derive(Serialize, JsonSchema)]
pub struct FlightChange {
    pub flight: String,
    pub change: Kind,
    pub old_verdict: Option<Verdict>,
    pub new_verdict: Option<Verdict>,
    /// The rule behind the verdict before.
    pub old_rule: Option<String>,
    /// The rule behind the verdict now.
    pub new_rule: Option<String>,
    pub worse: bool,
    pub numbers: Vec<NumberChange>,
}

/// A number before and now, SI; null where it isn't known.
#[derive(Serialize, JsonSchema)]
pub struct NumberChange {
    /// Its stable name, which ends in its unit.
    pub name: &'static str,
    pub old: Option<f64>,
    pub new: Option<f64>,
    /// One standard deviation before, where it has one.
    pub old_sd: Option<f64>,
    /// One standard deviation now.
    pub new_sd: Option<f64>,
    /// Whether it differs in the digits that are shown.
    pub differs: bool,
    /// What it's called in a table, and its words there before and now.
    #[serde(skip)]
    pub shown: (&'static str, String, String),
}

/// A finding.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Found {
    pub rule: &'static str,
    pub level: Level,
    /// The flight that it's about, where it's about a single one.
    pub flight: Option<String>,
    pub message: String,
    /// What it said before, where it says something else now.
    pub was: Option<String>,
}

/// What became of a block of the text.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PartChange {
    /// What it's called: "tube body", "shoulder in nose".
    pub part: String,
    /// What it was called, where that was something else.
    pub was: Option<String>,
    pub change: Kind,
    pub fields: Vec<FieldChange>,
}

/// A field before and now; null where it isn't said.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FieldChange {
    pub field: String,
    pub old: Option<String>,
    pub new: Option<String>,
}

impl FlightChange {
    /// Whether nothing that is shown of it is another.
    pub fn is_as_before(&self) -> bool {
        let same = (self.old_verdict, &self.old_rule) == (self.new_verdict, &self.new_rule);
        self.change == Kind::Changed && same && !self.numbers.iter().any(|number| number.differs)
    }
}

impl DesignChange {
    /// Whether there is something to tell.
    pub fn is_told(&self) -> bool {
        let found = [&self.findings_gone, &self.findings_new, &self.findings_changed];
        self.change != Kind::Changed
            || self.old_verdict != self.new_verdict
            || self.flights.iter().any(|flight| !flight.is_as_before())
            || found.iter().any(|found| !found.is_empty())
            || !self.parts.is_empty()
    }
}
