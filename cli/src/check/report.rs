//! What `check --format json` prints.

use super::apart::{Apart, Shared};
use super::Outcome;
use crate::judged::{objects, FlightVerdict};
use crate::render::{Object, Position};
use finwright_checks::{Analysis, Level, Reason, Verdict};
use schemars::JsonSchema;
use serde::Serialize;

/// The version of what is printed: it counts up when a name changes its meaning or goes.
pub const VERSION: u32 = 1;

/// All of it.
#[derive(Serialize, JsonSchema)]
pub struct Report<'r> {
    version: u32,
    /// Every file that was looked at.
    files: Vec<&'r FileReport>,
    /// Every finding of every file.
    findings: Vec<&'r Object>,
    /// What stands in a used file or in `finwright.toml`, once, with the designs that it touches.
    shared: &'r [Shared],
    /// What couldn't be used.
    unusable: Vec<&'r Unusable>,
}

/// One file.
#[derive(Serialize, JsonSchema)]
pub struct FileReport {
    /// Its path, as it was found.
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
    made: Vec<String>,
    /// What its author allows.
    allowed: Vec<AllowedFinding>,
    /// The rules that `finwright.toml` makes light of, each with its level there.
    made_light_of: Vec<MadeLightOf>,
    /// Whether it is a rocket without flights, which is a library where another file uses it.
    #[serde(skip)]
    pub may_be_library: bool,
}

/// How many findings a file has.
#[derive(Clone, Copy, Default, Serialize, JsonSchema)]
pub struct Counts {
    pub errors: usize,
    pub warnings: usize,
    pub notes: usize,
    pub allowed: usize,
}

/// A finding that its author allows.
#[derive(Serialize, JsonSchema)]
struct AllowedFinding {
    rule: &'static str,
    level: Level,
    message: String,
    at: Position,
    /// The author's reason.
    reason: String,
}

/// A rule that matters less than usual here.
#[derive(Serialize, JsonSchema)]
struct MadeLightOf {
    rule: &'static str,
    /// Its level; null where it's off.
    level: Option<Level>,
}

/// What couldn't be used, and why.
#[derive(Serialize, JsonSchema)]
pub struct Unusable {
    pub path: String,
    pub reason: String,
}

impl<'r> Report<'r> {
    pub fn of(outcomes: &'r [Outcome], apart: &'r Apart) -> Report<'r> {
        let read = || outcomes.iter().filter(|outcome| outcome.unusable.is_none());
        Report {
            version: VERSION,
            files: read().map(|outcome| &outcome.report).collect(),
            findings: read().flat_map(|outcome| &outcome.found).chain(apart.objects()).collect(),
            shared: apart.shared(),
            unusable: outcomes.iter().filter_map(|outcome| outcome.unusable.as_ref()).collect(),
        }
    }
}

impl FileReport {
    pub fn of(shown: &str, analysis: &Analysis) -> FileReport {
        let [errors, warnings, notes] = [Level::Error, Level::Warning, Level::Note].map(|level| analysis.count(level));
        let place = crate::render::Places::of(shown, analysis);
        let allowed = analysis.allowed.iter().map(|allowed| AllowedFinding {
            rule: allowed.finding.rule,
            level: allowed.finding.level,
            message: allowed.finding.message.clone(),
            at: place.position(allowed.finding.place),
            reason: allowed.reason.clone(),
        });
        let light = finwright_checks::rules::made_light_of(&analysis.settings).into_iter();
        FileReport {
            path: shown.to_string(),
            verdict: analysis.verdict,
            reason: analysis.reason.clone(),
            counts: Counts { errors, warnings, notes, allowed: analysis.allowed.len() },
            flights: objects(analysis),
            made: analysis.made().into_iter().map(str::to_string).collect(),
            allowed: allowed.collect(),
            made_light_of: light.map(|(rule, level)| MadeLightOf { rule, level }).collect(),
            may_be_library: analysis.design.flights.is_empty() && analysis.verdict == Verdict::NotChecked,
        }
    }

    pub fn unusable(shown: &str) -> FileReport {
        FileReport {
            path: shown.to_string(),
            verdict: Verdict::NotChecked,
            reason: None,
            counts: Counts::default(),
            flights: Vec::new(),
            made: Vec::new(),
            allowed: Vec::new(),
            made_light_of: Vec::new(),
            may_be_library: false,
        }
    }

    pub fn take_as_library(&mut self) {
        self.verdict = Verdict::Library;
        self.reason = None;
        self.counts.notes = 0;
    }
}
