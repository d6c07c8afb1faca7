//! `file/not-made`: something beyond the verdict that wasn't computed.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::lacking::not_flown_in_words;
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::{path, FlightNumbers, NotFlown};
use finwright_grammar::Place;
use finwright_model::Flight;

/// The rule.
pub static NOT_MADE: Rule = Rule {
    name: "file/not-made",
    family: Family::File,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Note,
    summary: "something beyond the checks that wasn't computed",
    why: "What isn't computed isn't guessed; the verdict stands without it, and whoever reads it should know.",
    prose: include_str!("not_made.md"),
    thresholds: &[],
    example: Example::new(
        "0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N",
        "0.05 s: 90 N, 0.1 s: 140 N, 0.2 s: 130 N, 0.3 s: 60 N, 0.55 s: 50 N, 0.6 s: 0 N",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for made in not_made(cx) {
        let finding = NOT_MADE.finding(made.place, format!("not made: {}", made.what)).help(made.needs);
        out.push(finding.of_flight(made.numbers));
    }
}

/// Something beyond the verdict that wasn't computed.
pub(crate) struct NotMade<'a> {
    /// What it is.
    pub(crate) what: String,
    /// What it needs.
    pub(crate) needs: String,
    /// The flight's name in the text.
    pub(crate) place: Place,
    /// The flight's numbers.
    pub(crate) numbers: &'a FlightNumbers,
}

/// What wasn't made for the flights that are looked at.
pub(crate) fn not_made<'a>(cx: &Context<'a>) -> Vec<NotMade<'a>> {
    cx.flights().filter_map(|(flight, numbers)| not_flown(cx, flight, numbers)).collect()
}

/// The flight after release, where the method doesn't reach it.
fn not_flown<'a>(cx: &Context<'a>, flight: &Flight, numbers: &'a FlightNumbers) -> Option<NotMade<'a>> {
    let leaves = numbers.run.as_ref().is_some_and(|run| run.last().is_some());
    // An unstable rocket turns over, and that is told as that.
    if !leaves || numbers.margin().is_none_or(|margin| margin <= 0.0) {
        return None;
    }
    match path(cx.design, &cx.assessment.airframe, numbers) {
        // What isn't known has a finding of its own.
        Ok(_) | Err(NotFlown::Unknown) => None,
        Err(why) => Some(NotMade {
            what: format!("the flight of {} after release", flight.name.value),
            needs: format!("it needs {}", not_flown_in_words(why)),
            place: flight.name.place,
            numbers,
        }),
    }
}
