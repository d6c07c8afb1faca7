//! `motor/noisy-trace`: a stand's record that says little about the thrust.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// The rule.
pub static NOISY_TRACE: Rule = Rule {
    name: "motor/noisy-trace",
    family: Family::Motor,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a stand's record whose noise or zero leaves the thrust in doubt",
    why: "What is uncertain in the record is uncertain in every number of the flight.",
    prose: include_str!("noisy_trace.md"),
    thresholds: &[],
    example: Example::new("trace: file \"quiet.csv\"", "trace: file \"noisy.csv\"").after(&[(
        "curve: [0 s: 0 N, 0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N]",
        "trace: file \"quiet.csv\"",
    )]),
    check: Some(check),
};

/// More noise than this, one standard deviation as a share of the peak, hides how a burn begins and ends; a zero that has
/// moved further is a stand that slipped or warmed (common practice, no source).
const NOISE: f64 = 0.03;
const DRIFT: f64 = 0.08;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (number, own) in cx.motors() {
        let (Some(stand), Some(numbers), Some(curve)) = (own.stand, cx.motor_numbers(number), own.curve.as_ref())
        else {
            continue;
        };
        let (noise, drift) = (stand.noise / numbers.peak, stand.drift.map(|drift| drift / numbers.peak));
        let per_cent = |share: f64| format!("{} %", show::trimmed(100.0 * share, 0));
        let name = &own.name.value;
        let (message, help) = if noise > NOISE {
            let message = format!("{name}'s record has noise of {} of its peak; 3 % is usual", per_cent(noise));
            (message, "screw the load cell down, keep its leads short, and average several burns")
        } else if drift.is_some_and(|drift| drift.abs() > DRIFT) {
            let moved = per_cent(drift.unwrap_or(0.0).abs());
            let message = format!("the zero of {name}'s record moves by {moved} of its peak during the burn");
            (
                message,
                "look for a stand that slips, or a cell that the exhaust warms; an upright stand weighs propellant",
            )
        } else if drift.is_none() {
            let message = format!("{name}'s record ends before it's quiet again, so its zero is taken from before");
            (message, "keep a tenth of a second after the burn in the record")
        } else {
            continue;
        };
        out.push(NOISY_TRACE.finding(curve.place, message).help(help).of_motor(cx, number));
    }
}
