//! `pad/low-stop`: little room between the rocket and the foot of the rod or rail.

use crate::common::used::used;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// The least stop.
pub static STOP: Threshold =
    Threshold::new("stop", Dimension::LENGTH, 20e-3, "the least height of the stop above the foot of the rod or rail");

/// Little room for the flame.
pub static LOW_STOP: Rule = Rule {
    name: "pad/low-stop",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Note,
    summary: "little room between the rocket and the foot of the rod or rail",
    why: "The flame needs room to spread over the deflector; too close, it burns the rocket's own tail, or the \
        igniter's clips hold the rocket back.",
    prose: include_str!("low_stop.md"),
    thresholds: &[&STOP],
    example: Example::new("material: steel }; stop: 50 mm", "material: steel }; stop: 5 mm"),
    check: Some(low_stop),
};

fn low_stop(cx: &Context, out: &mut Vec<Finding>) {
    let least = cx.limit(&STOP);
    for (pad, numbers) in used(cx) {
        let Some(stop) = pad.stop.as_ref().filter(|stop| stop.si < least) else { continue };
        let text = format!("{} mm", (least * 1e3).ceil());
        out.push(
            LOW_STOP
                .finding(
                    stop.place,
                    format!("on {} the rocket rests {} above the foot", pad.name.value, show::length(stop.si)),
                )
                .help(format!("{text} or more leave room for flame, wires and deflector"))
                .fix(format!("rest it on a stop of {text}"), stop.place, text)
                .of_flight(numbers),
        );
    }
}
