//! A verdict as it's told: in a sentence, and as an object.

use finwright_assess::Likelihood;
use finwright_checks::lacking::{joined, needed_in_words};
use finwright_checks::rules;
use finwright_checks::{Allowed, Analysis, Level, Verdict};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A flight's verdict for a program.
#[derive(Serialize, Deserialize, JsonSchema)]
pub struct FlightVerdict {
    /// The flight's name.
    name: String,
    #[serde(flatten)]
    verdict: Told,
}

/// A verdict with what it rests on.
#[derive(Serialize, Deserialize, JsonSchema)]
pub struct Told {
    /// Whether to fly.
    verdict: Verdict,
    /// The worst that speaks against it.
    reason: Option<Reason>,
    /// How likely it meets its floors; null where that can't be told.
    likely: Option<Likelihood>,
    /// Whether it's judged in still air, for want of a site.
    in_still_air: bool,
    /// Whether mass or balance point are those of the bench.
    as_weighed: bool,
    /// The numbers that a verdict needs and that aren't known.
    not_checked: Vec<String>,
    /// What else wasn't computed, with what it needs; no verdict hangs on it.
    not_made: Vec<String>,
    /// The rules whose findings its author allows.
    allowed: Vec<String>,
}

/// What speaks against a flight or a file, for a program.
#[derive(Serialize, Deserialize, JsonSchema)]
pub struct Reason {
    /// The rule.
    pub rule: Cow<'static, str>,
    /// How much it matters.
    level: Level,
    /// What it says.
    message: String,
    /// What would mend it; empty where nothing can be said.
    help: String,
    /// The author's reason for allowing it, where the author does.
    allowed: Option<String>,
}

impl Reason {
    /// The reason as an object.
    pub fn of(reason: &finwright_checks::Reason) -> Reason {
        Reason {
            rule: Cow::Borrowed(reason.rule),
            level: reason.level,
            message: reason.message.clone(),
            help: reason.help.clone(),
            allowed: reason.allowed.clone(),
        }
    }
}

/// The verdict on each flight under its name; how likely it is only where that's `wanted`.
pub fn objects(analysis: &Analysis, wanted: bool) -> Vec<FlightVerdict> {
    let names = analysis.design.flights.iter().map(|flight| flight.name.value.clone());
    names.zip(each(analysis, wanted)).map(|(name, verdict)| FlightVerdict { name, verdict }).collect()
}

/// The verdict on each flight; how likely it is only where that's `wanted`.
pub fn each(analysis: &Analysis, wanted: bool) -> impl Iterator<Item = Told> + '_ {
    (0..analysis.flights.len()).filter_map(move |number| told(analysis, number, wanted))
}

/// The same on one flight: no other's is worked out.
pub fn told(analysis: &Analysis, number: usize, wanted: bool) -> Option<Told> {
    let judgement = analysis.flights.get(number)?;
    Some(Told {
        verdict: judgement.verdict,
        reason: judgement.reason.as_ref().map(Reason::of),
        likely: wanted.then(|| analysis.likely(number)).flatten(),
        in_still_air: judgement.in_still_air,
        as_weighed: judgement.basis.is_weighed(),
        not_checked: judgement.unknown.iter().map(|needed| needed_in_words(*needed).to_string()).collect(),
        not_made: judgement.not_made.clone(),
        allowed: judgement.allowed.iter().map(|rule| rule.to_string()).collect(),
    })
}

/// What else belongs to a file's verdict, a line each: what isn't known, what wasn't made, what its author allows, and
/// what `finwright.toml` makes light of.
pub fn beside(analysis: &Analysis) -> Vec<String> {
    let mut lines = Vec::new();
    for (flight, judgement) in analysis.design.flights.iter().zip(&analysis.flights) {
        let name = &flight.name.value;
        if !judgement.unknown.is_empty() {
            let words: Vec<&str> = judgement.unknown.iter().map(|needed| needed_in_words(*needed)).collect();
            lines.push(format!("{name}, not checked: {}", joined(&words, "and")));
        }
        lines.extend(judgement.not_made.iter().map(|what| format!("not made: {what}")));
    }
    lines.extend(analysis.allowed.iter().map(allowed_in_words));
    lines.extend(made_light_of(analysis));
    lines
}

/// "its author allows stability/unstable (trust me): …".
fn allowed_in_words(allowed: &Allowed) -> String {
    format!("its author allows {} ({}): {}", allowed.finding.rule, allowed.reason, allowed.finding.message)
}

fn made_light_of(analysis: &Analysis) -> Option<String> {
    let said = |(rule, level): (&str, Option<Level>)| match level {
        Some(level) => format!("{rule} ({})", level.word()),
        None => format!("{rule} (off)"),
    };
    let all: Vec<String> = rules::made_light_of(&analysis.settings).into_iter().map(said).collect();
    (!all.is_empty()).then(|| format!("finwright.toml makes light of {}", joined(&all, "and")))
}
