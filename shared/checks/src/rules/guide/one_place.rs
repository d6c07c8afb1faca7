//! `guide/one-place`: two guides of a flight in one place.

use crate::common::misfit;
use crate::common::named::value_place;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::FlightMisfit;

/// The rule.
pub static ONE_PLACE: Rule = Rule {
    name: "guide/one-place",
    family: Family::Guide,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "two guides of a flight in one place",
    why: "Two guides can't be in one place, and close together they don't hold the rocket straight.",
    prose: include_str!("one_place.md"),
    thresholds: &[],
    example: Example::new("at: 20 mm ahead of balance; clock: 60 deg", "at: 15 mm from back; clock: 60 deg"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::flights(cx, out, |flight, misfit| {
        let FlightMisfit::Guides { first, second, place } = misfit else { return None };
        let (first, second) = (cx.design.parts.get(*first)?, cx.design.parts.get(*second)?);
        let message = format!("in {}, {} and {} are in one place", flight.name.value, first.label(), second.label());
        let help = "place one at the aft end and the other just ahead of the balance point, or fly with one of them";
        let finding = ONE_PLACE.finding(*place, message).help(help);
        Some(finding.label(value_place(first), "one of them").label(value_place(second), "the other one"))
    });
}
