//! `mount/no-room`: a motor that the rocket has no room for.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::FlightMisfit;
use finwright_units::show;

/// The rule.
pub static NO_ROOM: Rule = Rule {
    name: "mount/no-room",
    family: Family::Mount,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a motor that reaches into the nose, or out of it",
    why: "Such a motor doesn't go in, so neither mass nor flight can be computed.",
    prose: include_str!("no_room.md"),
    thresholds: &[],
    example: Example::new("diameter: 18 mm; length: 70 mm", "diameter: 18 mm; length: 260 mm"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::flights(cx, out, |flight, misfit| {
        let FlightMisfit::Motor { motor, by, into, place } = misfit else { return None };
        let motor = cx.design.motors.get(*motor)?;
        let into = into.and_then(|id| cx.design.parts.get(id));
        let where_to = match into {
            Some(part) => format!("reaches {} into {}", show::length(*by), part.label()),
            None => format!("stands {} out of the rocket's tip", show::length(*by)),
        };
        let length = show::si::length(motor.length.as_ref()?.si);
        let message = format!("{} is {length} long, and {where_to}", motor.name.value);
        let finding = NO_ROOM.finding(*place, message).help("check its length, or fly it in a longer rocket");
        let finding = finding.label(flight.name.place, "flown here");
        Some(match into {
            Some(part) => finding.label(part.header, "there is no room for it here"),
            None => finding,
        })
    });
}
