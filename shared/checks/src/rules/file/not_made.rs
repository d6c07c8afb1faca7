//! `file/not-made`: something beyond the verdict that wasn't computed.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::lacking::not_flown_in_words;
use crate::rule::{Concern, Context, Family, Rule};
use crate::rules::field::code::not_known;
use finwright_assess::{path, NotFlown};

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
    for (flight, numbers) in cx.flights() {
        let leaves = numbers.run.as_ref().is_some_and(|run| run.last().is_some());
        // An unstable rocket turns over, and that is told as that.
        if !leaves || numbers.margin.is_none_or(|margin| margin <= 0.0) {
            continue;
        }
        if let Err(why) = path(cx.design, cx.assessment, numbers) {
            // What isn't known has a finding of its own.
            if why == NotFlown::Unknown {
                continue;
            }
            out.push(
                NOT_MADE
                    .finding(flight.name.place, format!("not made: the flight of {} after release", flight.name.value))
                    .help(format!("it needs {}", not_flown_in_words(why)))
                    .of_flight(numbers),
            );
        }
    }
    not_known(cx, out);
}
