//! `pad/whips`: a rod or rail that a gust sets swinging.

use crate::common::limits::TIP_SLOPE;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_assess::flight::stiffness::MOST_WHIP;
use finwright_units::{show, Dimension};

/// How far the tip may turn as it swings.
pub static WHIP: Threshold = Threshold::new(
    "whip",
    Dimension::ANGLE,
    3.0_f64.to_radians(),
    "how steeply the tip of a rod or rail may lean while it swings in a gust, the rocket at rest",
);

/// The rule.
pub static WHIPS: Rule = Rule {
    name: "pad/whips",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Warning,
    summary: "a rod or rail that a gust sets swinging",
    why: "The rocket leaves in the direction in which the tip happens to point, and the swing turns it on.",
    prose: include_str!("whips.md"),
    thresholds: &[&WHIP],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 3 m/s; gust: 10 m/s")
        .settings("[thresholds]\nwhip = \"1.5 deg\""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let (most, steady) = (cx.limit(&WHIP), cx.limit(&TIP_SLOPE));
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(stiffness), Some(pad), Some(air)) = (&numbers.stiffness, cx.design.pad_of(flight), numbers.air)
        else {
            continue;
        };
        // One that leans too far in the steady wind is told as that; and most rods can't swing so far at all.
        if stiffness.at_rest.in_wind().slope.abs() > steady || stiffness.whipped_by(MOST_WHIP).abs() <= most {
            continue;
        }
        let Some((slope, whip)) = stiffness.whipped().filter(|(slope, _)| slope.abs() > most) else { continue };
        let key = (pad.name.place, flight.motor.as_ref().map(|m| m.value), flight.site.as_ref().map(|s| s.value));
        if told.contains(&key) {
            continue;
        }
        told.push(key);
        let place = pad.rail_length().map_or(pad.header, |length| length.place);
        out.push(
            WHIPS
                .finding(
                    place,
                    format!(
                        "gusts of {} swing {}'s {} to {}; up to {} is usual",
                        show::speed(air.as_read(air.gust)),
                        pad.name.value,
                        pad.rail_word(),
                        show::angle(slope),
                        show::angle(most)
                    ),
                )
                .label(
                    place,
                    format!(
                        "it swings {} times a second, to {} times the bend of a steady wind",
                        show::number(stiffness.loaded_frequency),
                        show::number(whip.amplification)
                    ),
                )
                .label(flight.name.place, "in this flight")
                .of_flight(numbers)
                .beyond(slope.abs() / most)
                .help("a thicker or shorter rod, a rail, or wait between gusts until it hangs still"),
        );
    }
}
