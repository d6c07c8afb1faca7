//! `recovery/hard-opening`: a parachute or streamer that opens fast.

use crate::common::charge::lacks_delay;
use crate::common::flown::flown;
use crate::common::limits::OPENING_SPEED;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::lacking::joined;
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_assess::{FlightNumbers, Opening};
use finwright_model::{Flight, Part};
use finwright_physics::air::G0;
use finwright_units::{show, Dimension};

/// From here on a fast opening is more than a note.
pub static OPENING_HARD: Threshold = Threshold::new(
    "opening_hard",
    Dimension::SPEED,
    25.0,
    "the opening speed of a parachute or streamer from which on it's a warning",
);

/// From here on a fast opening pulls hard.
pub static OPENING_PULL: Threshold = Threshold::new(
    "opening_pull",
    Dimension::NUMBER,
    10.0,
    "the hardest pull of a fast opening, in weights of what hangs on it",
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
    prose: include_str!("hard_opening.md"),
    thresholds: &[&OPENING_SPEED, &OPENING_PULL, &OPENING_HARD],
    example: Example::new("tilt: 2 deg; end: capped }", "tilt: 30 deg; end: capped }")
        .settings("[thresholds]\nopening_speed = \"15 m/s\"\ntilt = \"40 deg\"\nturn = \"40 deg\""),
    check: Some(check),
};

/// The fastest opening of a part.
struct Fastest<'a> {
    flight: &'a Flight,
    numbers: &'a FlightNumbers,
    opening: &'a Opening,
    /// The weight that hangs on it, N.
    weight: f64,
}

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut worst: Vec<Fastest> = Vec::new();
    for (flight, numbers, path) in flown(cx).into_iter().filter(|(flight, ..)| !lacks_delay(cx, flight)) {
        let Some(descent) = &path.descent else { continue };
        let weight = descent.sinking.mass * G0;
        let is_fast = |opening: &&Opening| opening.air_speed > cx.limit(&OPENING_SPEED);
        // A drogue may open fast: it's small for the weight that hangs on it.
        let is_hard = |opening: &&Opening| opening.pull > cx.limit(&OPENING_PULL) * weight;
        for opening in descent.openings.iter().filter(is_fast).filter(is_hard) {
            let this = Fastest { flight, numbers, opening, weight };
            match worst.iter_mut().find(|other| other.opening.parts == opening.parts) {
                Some(other) if other.opening.air_speed < opening.air_speed => *other = this,
                Some(_) => {}
                None => worst.push(this),
            }
        }
    }
    out.extend(worst.iter().filter_map(|fastest| told(cx, fastest)));
}

fn told(cx: &Context, &Fastest { flight, numbers, opening, weight }: &Fastest) -> Option<Finding> {
    let parts: Vec<&Part> = opening.parts.iter().filter_map(|part| cx.design.parts.get(*part)).collect();
    let labels: Vec<String> = parts.iter().map(|part| part.label()).collect();
    let (opens, pulls) = if labels.len() == 1 { ("opens", "pulls") } else { ("open", "pull") };
    let message = format!(
        "{} of {} {opens} at {} and {pulls} with {}",
        joined(&labels, "and"),
        flight.name.value,
        show::speed(opening.air_speed),
        show::force(opening.pull)
    );
    let mut finding = HARD_OPENING
        .finding(parts.first()?.header, message)
        .help(format!(
            "that is {} times the weight that hangs on it: cord, knots and anchor must bear it; a slower opening is \
                better",
            show::significant(opening.pull / weight, 2, 0)
        ))
        .label(flight.name.place, "in this flight")
        .of_flight(numbers)
        .beyond(opening.air_speed / cx.limit(&OPENING_SPEED));
    if opening.air_speed <= cx.limit(&OPENING_HARD) {
        finding.level = Level::Note;
    }
    Some(finding)
}
