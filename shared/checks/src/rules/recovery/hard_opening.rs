//! `recovery/hard-opening`: a parachute or streamer that opens fast.

use super::flown::flown;
use super::mistimed::OPENING_SPEED;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::rules::motor::no_charge::is_told;
use crate::threshold::Threshold;
use finwright_assess::{FlightNumbers, Path, Sinking};
use finwright_model::Flight;
use finwright_physics::air::G0;
use finwright_units::{show, Dimension};

/// From here on a fast opening is more than a note.
pub static OPENING_HARD: Threshold = Threshold::new(
    "opening_hard",
    Dimension::SPEED,
    25.0,
    "the opening speed of a parachute or streamer from which on it's a warning",
);

/// The rule.
pub static HARD_OPENING: Rule = Rule {
    name: "recovery/hard-opening",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "a parachute or streamer that opens so fast that it pulls hard",
    why: "The jerk tears the cloth, its lines or the cord's anchor, and what has come loose falls.",
    prose: "As a parachute opens, the air pulls on it with ½ ρ v² Cd A, which grows with the square of the speed: at twice the speed four times as hard. Compared with the weight that hangs on it, it's what cord, knots and anchor must bear (drag alone; common practice, no source). Even a delay that fits opens fast where the rocket flies slanted, since it's still moving sideways at its highest point. An upright flight, a day with less wind, a smaller parachute or a longer cord soften it. Pull on cord and anchor with a spring balance until you know what they bear.",
    thresholds: &[&OPENING_SPEED, &OPENING_HARD],
    example: Example::new("tilt: 2 deg; end: capped }", "tilt: 30 deg; end: capped }")
        .settings("[thresholds]\nopening_speed = \"15 m/s\"\ntilt = \"40 deg\"\nturn = \"40 deg\""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut worst: Vec<(&Flight, &FlightNumbers, Sinking, f64)> = Vec::new();
    for (flight, numbers, path) in flown(cx).into_iter().filter(|(flight, ..)| !is_told(cx, flight)) {
        let Some((sinking, speed)) = opening(path).filter(|(_, speed)| *speed > cx.limit(&OPENING_SPEED)) else {
            continue;
        };
        let this = (flight, numbers, sinking, speed);
        match worst.iter_mut().find(|(_, _, other, _)| other.part == sinking.part) {
            Some(other) if other.3 < speed => *other = this,
            Some(_) => {}
            None => worst.push(this),
        }
    }
    for (flight, numbers, sinking, speed) in worst {
        let (Some(part), Some(air)) = (cx.design.parts.get(sinking.part), numbers.air) else { continue };
        let pull = 0.5 * air.density * speed * speed * sinking.drag_area;
        let message = format!(
            "{} of {} opens at {} and pulls with {}",
            part.label(),
            flight.name.value,
            show::speed(speed),
            show::force(pull)
        );
        let mut finding = HARD_OPENING
            .finding(part.header, message)
            .help(format!(
                "that is {} times the weight that hangs on it: cord, knots and anchor must bear it; a slower opening is better",
                show::significant(pull / (sinking.mass * G0), 2, 0)
            ))
            .label(flight.name.place, "in this flight")
            .of_flight(numbers)
            .beyond(speed / cx.limit(&OPENING_SPEED));
        if speed <= cx.limit(&OPENING_HARD) {
            finding.level = Level::Note;
        }
        out.push(finding);
    }
}

/// What opens, and how fast the rocket is then, m/s.
fn opening(path: &Path) -> Option<(Sinking, f64)> {
    let descent = path.descent?;
    Some((descent.sinking, descent.opening_speed?))
}
