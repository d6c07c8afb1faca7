//! `guide/rail-at-hand`: a rail that would fit and isn't used.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::fit::runs_on;
use finwright_model::{Flight, Pad, Part, Rail};

/// A rail that isn't used.
pub static RAIL_AT_HAND: Rule = Rule {
    name: "guide/rail-at-hand",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Note,
    summary: "a rail that would fit and isn't used",
    why: "Where a rail is at hand it gives the more predictable flight: it is stiffer, and the rocket hangs on it \
        with less play.",
    prose: include_str!("rail_at_hand.md"),
    thresholds: &[],
    example: Example::new("flight slotted {", "# flight slotted {"),
    check: Some(check_at_hand),
};

fn check_at_hand(cx: &Context, out: &mut Vec<Finding>) {
    let on_rail = |flight: &Flight| cx.design.pad_of(flight).is_some_and(|pad| pad.rail.is_some() && !pad.has_rod());
    if cx.design.flights.iter().any(on_rail) {
        return;
    }
    let is_known_rail = |pad: &Pad| match &pad.rail {
        Some(Rail::Slotted { slot: Some(slot), .. }) => {
            cx.design.sections.get(slot.value).is_some_and(|section| section.width.is_some())
        }
        _ => false,
    };
    let Some(rail) = cx.design.pads.iter().find(|pad| is_known_rail(pad)) else { return };
    let fits = |part: &&Part| runs_on(cx.design, part, rail, f64::INFINITY);
    let guides: Vec<&Part> = cx.design.parts.iter().filter(fits).collect();
    let (Some(guide), Some(flight)) = (guides.first().filter(|_| guides.len() > 1), cx.design.flights.first()) else {
        return;
    };
    out.push(
        RAIL_AT_HAND
            .finding(
                flight.pad.as_ref().map_or(flight.name.place, |pad| pad.place),
                format!(
                    "no flight uses {}, a rail that the rocket's {}s fit",
                    rail.name.value,
                    guide.word.replace('_', " ")
                ),
            )
            .help(format!(
                "try `flight on_rail {{ motor: …; pad: {}; guided_by: […] }}`; `finwright guides` compares them",
                rail.name.value
            ))
            .label(rail.header, "the rail")
            .label(guide.header, "made for it"),
    );
}
