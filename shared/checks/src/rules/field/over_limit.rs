//! `field/over-limit`: a flight beyond what the chosen code allows.

use super::code::{each_exceeded, told, ROOM};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::field_rules::Limited;

/// Beyond what a code allows.
pub static OVER_LIMIT: Rule = Rule {
    name: "field/over-limit",
    family: Family::Field,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Error,
    summary: "a flight beyond what the chosen code allows",
    why: "The code holds for the field, and the range safety officer won't let it fly.",
    prose: "Which code holds depends on where you are; choose one by `code` in finwright.toml. Limits are kept here as data with the source that was read; codes change, so check your local code.",
    thresholds: &[],
    example: Example::new("material: steel }; stop: 50 mm; tilt: 2 deg", "material: steel }; stop: 50 mm; tilt: 32 deg")
        .after(ROOM)
        .settings("code = \"us-model\""),
    check: Some(over_limit),
};

fn over_limit(cx: &Context, out: &mut Vec<Finding>) {
    each_exceeded(cx, |flight, site, limit, code| {
        if limit.what == Limited::Field || limit.what.is_of_people() {
            return;
        }
        let tilt = cx.design.pad_of(flight).and_then(|pad| pad.tilt.as_ref());
        let place = match limit.what {
            Limited::Tilt => tilt.map(|tilt| tilt.place),
            Limited::Wind => site.and_then(|site| site.wind.as_ref()).map(|wind| wind.place),
            _ => flight.motor.as_ref().map(|motor| motor.place),
        };
        out.push(told(&OVER_LIMIT, flight, place, limit, code));
    });
}
