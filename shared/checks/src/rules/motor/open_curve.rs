//! `motor/open-curve`: a thrust curve that doesn't end at zero.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// The rule.
pub static OPEN_CURVE: Rule = Rule {
    name: "motor/open-curve",
    family: Family::Motor,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a thrust curve that doesn't end at zero",
    why: "A curve that stops while the motor still pushes has lost its last points, and impulse and burnout with them.",
    prose: include_str!("open_curve.md"),
    thresholds: &[],
    example: Example::new("0.55 s: 5 N, 0.6 s: 0 N", "0.55 s: 5 N"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (number, motor) in cx.motors() {
        let Some(curve) = &motor.curve else { continue };
        let (Some((time, thrust)), Some(place)) = (curve.points.last(), curve.places.last()) else { continue };
        if *thrust <= 0.0 {
            continue;
        }
        out.push(
            OPEN_CURVE
                .finding(
                    *place,
                    format!(
                        "{}'s curve ends at {} with {} still pushing",
                        motor.name.value,
                        show::time(*time),
                        show::force(*thrust)
                    ),
                )
                .help("add the point at which the thrust is zero")
                .of_motor(cx, number),
        );
    }
}
