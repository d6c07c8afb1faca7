//! `flown/not-used`: a flown flight that says too little to be compared.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::Flown;

/// The rule.
pub static NOT_USED: Rule = Rule {
    name: "flown/not-used",
    family: Family::Flown,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a flown flight that can't be compared with what was expected",
    why: "A flight that isn't compared teaches nothing about the next one.",
    prose:
        "A flown flight names the flight of the file that it was, and says at least one thing that was measured: an \
        exit speed, a height, a time to the top, or an altimeter's log. The flight that it names must be known well \
        enough to be followed to its highest point.",
    thresholds: &[],
    example: Example::new("height: 162 m ± 3 m", "wind: 2 m/s").after(super::FLOWN),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    if cx.design.flown.is_empty() || cx.rocket_told {
        return;
    }
    let compared = &cx.assessment.flown(cx.design).flights;
    for (number, flown) in cx.design.flown.iter().enumerate() {
        let is_told = !flown.missing.is_empty() || !flown.broken.is_empty();
        if !is_told && compared.iter().any(|one| one.flown == number) {
            continue;
        }
        // Words that can't be understood are told as that.
        if flown.broken.is_empty() {
            let (message, help) = lacks(flown);
            out.push(NOT_USED.finding(flown.header, message).help(help));
        }
    }
}

fn lacks(flown: &Flown) -> (&'static str, &'static str) {
    let says = flown.exit_speed.is_some() || flown.height.is_some() || flown.time_to_top.is_some();
    if flown.flight.is_none() {
        ("this doesn't say which flight was flown", "name it: `flight: …`")
    } else if !says && flown.log.is_none() {
        ("this says nothing that was measured", "say `exit_speed`, `height`, `time_to_top` or `log: file \"….csv\"`")
    } else if !says {
        ("this log shows no flight that can be compared", "it must begin on the ground and hold the way to the top")
    } else {
        ("what was expected of this flight isn't known", "see what is told about the flight itself")
    }
}
