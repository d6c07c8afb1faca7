//! `field/drifts-out`: a flight that drifts off the field.

use crate::common::code::{site_of, ROOM};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::path;
use finwright_units::show;

/// Beyond the field's edge.
pub static DRIFTS_OUT: Rule = Rule {
    name: "field/drifts-out",
    family: Family::Field,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "a flight that drifts off the field",
    why: "What lands outside the field lands on roads, roofs and other people's land.",
    prose: include_str!("drifts_out.md"),
    thresholds: &[],
    example: Example::new("across: 300 m", "across: 120 m").after(ROOM),
    check: Some(drifts_out),
};

fn drifts_out(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(across) = site_of(cx, flight).and_then(|site| site.across.as_ref()) else { continue };
        let Some(drift) = path(cx.design, &cx.assessment.airframe, numbers).ok().and_then(|flown| flown.drift()) else {
            continue;
        };
        let key = (flight.motor.as_ref().map(|m| m.value), across.place);
        if drift.abs() <= across.si / 2.0 || told.contains(&key) {
            continue;
        }
        told.push(key);
        out.push(
            DRIFTS_OUT
                .finding(
                    flight.name.place,
                    format!(
                        "{} drifts {}, and from the middle of the field there are {}",
                        flight.name.value,
                        show::length(drift.abs()),
                        show::length(across.si / 2.0)
                    ),
                )
                .help("less wind, a smaller parachute or a streamer, a smaller motor, or a pad near the upwind edge")
                .label(across.place, "the field"),
        );
    }
}
