//! `file/not-made`: something beyond the verdict that wasn't computed.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::lacking::not_flown_in_words;
use crate::rule::{Concern, Context, Family, Rule};
use crate::rules::field::code::not_held;
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
    prose: "Some things are worth knowing and no verdict hangs on them: the flight after release where it is faster than the method reaches, or a field's size that a chosen code asks for and the site doesn't say. They are listed as not made.",
    thresholds: &[],
    example: Example::new("across: 300 m; people: 12 m", "people: 12 m")
        .after(crate::rules::field::code::ROOM)
        .settings("code = \"us-model\""),
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
    let mut made: Vec<NotMade> = cx.flights().filter_map(|(flight, numbers)| not_flown(cx, flight, numbers)).collect();
    made.extend(not_held(cx));
    made
}

/// The flight after release, where the method doesn't reach it.
fn not_flown<'a>(cx: &Context<'a>, flight: &Flight, numbers: &'a FlightNumbers) -> Option<NotMade<'a>> {
    let leaves = numbers.run.as_ref().is_some_and(|run| run.last().is_some());
    // An unstable rocket turns over, and that is told as that.
    if !leaves || numbers.margin.is_none_or(|margin| margin <= 0.0) {
        return None;
    }
    match path(cx.design, cx.assessment, numbers) {
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
