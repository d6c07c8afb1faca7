//! What is known of one file besides its findings.

use super::made::Made;
use crate::judged::{objects, FlightVerdict, Reason};
use crate::object::{Places, Position};
use finwright_checks::{Analysis, Level, Verdict};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// One file.
#[derive(Serialize, Deserialize, JsonSchema)]
pub struct FileReport {
    /// Its path, from the folder that the command was started in.
    pub path: String,
    /// The verdict on it.
    pub verdict: Verdict,
    /// The worst that speaks against it.
    pub reason: Option<Reason>,
    /// How many findings it has.
    pub counts: Counts,
    /// Its flights' verdicts.
    flights: Vec<FlightVerdict>,
    /// The rules that were applied to it.
    #[schemars(with = "Vec<String>")]
    made: Made,
    /// What its author allows.
    allowed: Vec<AllowedFinding>,
    /// The rules that `finwright.toml` makes light of, each with its level there.
    made_light_of: Vec<MadeLightOf>,
}

/// How many findings a file has.
#[derive(Clone, Copy, Default, Serialize, Deserialize, JsonSchema)]
pub struct Counts {
    pub errors: usize,
    pub warnings: usize,
    pub notes: usize,
    pub allowed: usize,
}

impl Counts {
    /// One of a level less.
    pub fn less(&mut self, level: Level) {
        let count = match level {
            Level::Error => &mut self.errors,
            Level::Warning => &mut self.warnings,
            Level::Note => &mut self.notes,
        };
        *count = count.saturating_sub(1);
    }
}

/// A finding that its author allows.
#[derive(Serialize, Deserialize, JsonSchema)]
struct AllowedFinding {
    rule: Cow<'static, str>,
    level: Level,
    message: String,
    at: Position,
    /// The author's reason.
    reason: String,
}

/// A rule that matters less than usual here.
#[derive(Serialize, Deserialize, JsonSchema)]
struct MadeLightOf {
    rule: Cow<'static, str>,
    /// Its level; null where it's off.
    level: Option<Level>,
}

impl FileReport {
    /// How likely its flights meet their floors is worked out only for programs: nobody else is told.
    pub fn of(shown: &str, analysis: &Analysis, place: &Places, for_programs: bool) -> FileReport {
        let [errors, warnings, notes] = [Level::Error, Level::Warning, Level::Note].map(|level| analysis.count(level));
        let allowed = analysis.allowed.iter().map(|allowed| AllowedFinding {
            rule: Cow::Borrowed(allowed.finding.rule),
            level: allowed.finding.level,
            message: allowed.finding.message.clone(),
            at: place.position(allowed.finding.place),
            reason: allowed.reason.clone(),
        });
        let light = finwright_checks::rules::made_light_of(&analysis.settings).into_iter();
        FileReport {
            path: shown.to_string(),
            verdict: analysis.verdict,
            reason: analysis.reason.as_ref().map(Reason::of),
            counts: Counts { errors, warnings, notes, allowed: analysis.allowed.len() },
            flights: objects(analysis, for_programs),
            made: Made::of(analysis.made().into_iter().map(Cow::Borrowed).collect()),
            allowed: allowed.collect(),
            made_light_of: light.map(|(rule, level)| MadeLightOf { rule: Cow::Borrowed(rule), level }).collect(),
        }
    }

    pub fn unusable(shown: &str) -> FileReport {
        FileReport {
            path: shown.to_string(),
            verdict: Verdict::NotChecked,
            reason: None,
            counts: Counts::default(),
            flights: Vec::new(),
            made: Made::of(Vec::new()),
            allowed: Vec::new(),
            made_light_of: Vec::new(),
        }
    }
}
