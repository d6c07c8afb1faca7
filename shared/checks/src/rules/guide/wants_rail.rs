//! `guide/wants-rail`: a body so wide that it should fly from a rail.

use crate::common::limits::{LIGHT_MASS, RAIL_BODY, RAIL_BODY_ALWAYS};
use crate::common::rods::{each_rod, wants_rail};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// A rod under a body that wants a rail.
pub static WANTS_RAIL: Rule = Rule {
    name: "guide/wants-rail",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a body so wide that it should fly from a rail",
    why: "Wind on a wide body bends a rod over; a rail is ten to eighty times as stiff and holds the rocket at two \
        places.",
    prose: include_str!("wants_rail.md"),
    thresholds: &[&RAIL_BODY, &RAIL_BODY_ALWAYS, &LIGHT_MASS],
    example: Example::new("let caliber = 24.8 mm", "let caliber = 26 mm")
        .settings("[thresholds]\nrail_body_always = \"25 mm\""),
    check: Some(check_rail),
};

fn check_rail(cx: &Context, out: &mut Vec<Finding>) {
    each_rod(cx, |flight, numbers, pad, body| {
        let Some((from, always)) = wants_rail(cx, body, numbers.loaded().map(|loaded| loaded.mass)) else { return };
        let unless = if always { "" } else { ", unless the rocket is light" };
        let place = flight.pad.as_ref().map_or(flight.name.place, |pad| pad.place);
        out.push(
            WANTS_RAIL
                .finding(
                    place,
                    format!(
                        "{} flies a body of {} from a rod; from {} on a rail is usual{unless}",
                        flight.name.value,
                        show::length(body),
                        show::length(from)
                    ),
                )
                .help("use a rail, with two buttons that fit it")
                .label(pad.header, "a rod"),
        );
    });
}
