//! A verdict as it's told: in a sentence, and as an object.

use finwright_assess::Likelihood;
use finwright_checks::lacking::{joined, needed_in_words};
use finwright_checks::{Allowed, Analysis, Judgement, Level, Reason, Verdict};
use serde::Serialize;

/// A flight's verdict for a program.
#[derive(Serialize)]
pub struct FlightVerdict<'a> {
    /// The flight's name.
    name: &'a str,
    #[serde(flatten)]
    verdict: Told<'a>,
}

/// A verdict with what it rests on.
#[derive(Serialize)]
pub struct Told<'a> {
    verdict: Verdict,
    reason: Option<&'a Reason>,
    likely: Option<Likelihood>,
    in_still_air: bool,
    as_weighed: bool,
    not_checked: Vec<&'static str>,
    not_made: &'a [String],
    allowed: &'a [&'static str],
}

/// The verdict on each flight, as objects.
pub fn objects(analysis: &Analysis) -> Vec<FlightVerdict<'_>> {
    let names = analysis.design.flights.iter().map(|flight| flight.name.value.as_str());
    names.zip(&analysis.flights).map(|(name, judgement)| FlightVerdict { name, verdict: told(judgement) }).collect()
}

/// A verdict as an object.
pub fn told(judgement: &Judgement) -> Told<'_> {
    Told {
        verdict: judgement.verdict,
        reason: judgement.reason.as_ref(),
        likely: judgement.likely,
        in_still_air: judgement.in_still_air,
        as_weighed: judgement.basis.is_weighed(),
        not_checked: judgement.unknown.iter().map(|needed| needed_in_words(*needed)).collect(),
        not_made: &judgement.not_made,
        allowed: &judgement.allowed,
    }
}

/// What else belongs to a file's verdict, a line each: what isn't known, what wasn't made, what its author allows, and what
/// `finwright.toml` makes light of.
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
    let all: Vec<String> = analysis.settings.made_light_of().into_iter().map(said).collect();
    (!all.is_empty()).then(|| format!("finwright.toml makes light of {}", joined(&all, "and")))
}
