//! The verdict on each flight of a file.

use crate::allowance::{Allowances, Allowed};
use crate::finding::Finding;
use crate::found::{applied, sifted};
use crate::rule::{Concern, Context, Family, Rule};
use crate::rules::{rule, words};
use crate::verdict::{self, words_touch, Judgement};
use finwright_model::Design;

/// What is found in a file, for the verdicts on its flights.
pub(crate) struct InTheFile<'a> {
    /// What isn't allowed.
    pub found: &'a [Finding],
    /// What is.
    pub allowed: &'a [Allowed],
    /// The rules that found something, whatever came of it: what such a rule doesn't find in all flights together it
    /// finds in none of them.
    pub spoke: &'a [&'static Rule],
}

/// The verdict on one flight: what is found in the file, in the rocket, and in this flight by itself.
pub(crate) fn judgement(cx: &Context, allowances: &Allowances, flight: usize, file: &InTheFile) -> Judgement {
    let InTheFile { found, allowed, spoke } = file;
    let alone = Context { only: Some(flight), rocket_told: true, ..*cx };
    let own: (Vec<Finding>, Vec<Allowed>);
    // The only flight of a file has been looked at already.
    let (found, allowed): (Vec<&Finding>, Vec<&Allowed>) = if cx.design.flights.len() == 1 {
        (found.iter().collect(), allowed.iter().collect())
    } else {
        let of_a_flight = spoke.iter().filter(|rule| is_of_a_flight(rule.concerns));
        own = sifted(&alone, allowances, of_a_flight.flat_map(|rule| applied(&alone, rule)).collect());
        let shared = found.iter().filter(|f| !is_about_a_flight(f)).chain(&own.0);
        let shared_allowed = allowed.iter().filter(|a| !is_about_a_flight(&a.finding)).chain(&own.1);
        (shared.collect(), shared_allowed.collect())
    };
    let touches = |f: &Finding| !is_of_words(f) || touched(cx.design, flight, f);
    let found: Vec<&Finding> = found.into_iter().filter(|f| touches(f)).collect();
    let allowed: Vec<&Allowed> = allowed.into_iter().filter(|a| touches(&a.finding)).collect();
    verdict::judge(&alone, flight, &found, &allowed)
}

fn is_of_a_flight(concerns: Concern) -> bool {
    matches!(concerns, Concern::Flight | Concern::Pad)
}

fn is_about_a_flight(finding: &Finding) -> bool {
    !finding.of_rocket && rule(finding.rule).is_some_and(|rule| is_of_a_flight(rule.concerns))
}

fn is_of_words(finding: &Finding) -> bool {
    rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words)
}

/// Whether a finding is about what was flown, in a flight or as such.
pub(crate) fn is_of_what_flew(flight: usize, finding: &Finding) -> bool {
    rule(finding.rule).is_some_and(|rule| rule.family == Family::Flown)
        && finding.flight.is_none_or(|flown| flown == flight)
}

/// Whether a finding is about words or the file as such, and touches a flight.
pub(crate) fn is_of_the_file(design: &Design, flight: usize, finding: &Finding) -> bool {
    let of_file = rule(finding.rule).is_some_and(|rule| rule.concerns == Concern::File);
    of_file || (is_of_words(finding) && touched(design, flight, finding))
}

/// Where a brace or bracket is missing, what follows may belong elsewhere than it seems.
fn touched(design: &Design, flight: usize, finding: &Finding) -> bool {
    let structure = [&words::UNCLOSED_BLOCK, &words::STRAY_BRACE, &words::UNCLOSED_LIST, &words::TOO_DEEP];
    structure.iter().any(|rule| rule.name == finding.rule) || words_touch(design, flight, finding.place)
}
