//! `motor/too-weak`: the rocket doesn't get off its rod or rail.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_physics::guided::StayReason;
use finwright_units::show;

/// The rule.
pub static TOO_WEAK: Rule = Rule {
    name: "motor/too-weak",
    family: Family::Motor,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Error,
    summary: "the motor doesn't get the rocket off its rod or rail",
    why: "A rocket that burns on its pad, or falls back onto it, sets fire to what stands around it.",
    prose: include_str!("too_weak.md"),
    thresholds: &[],
    example: Example::new(
        "0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N",
        "0.1 s: 0.3 N, 0.5 s: 0.4 N",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (flight, numbers) in cx.flights() {
        let Some(reason) = numbers.run.as_ref().and_then(|run| run.stays()) else { continue };
        let Some(motor) = &flight.motor else { continue };
        let name = &flight.name.value;
        let message = match reason {
            StayReason::TooHeavy { peak, holds } => format!(
                "{name} never lifts off: the motor's greatest thrust is {}, and {} hold the rocket down",
                show::force(peak),
                show::force(holds)
            ),
            StayReason::FallsBack { travel, .. } => {
                format!("{name} rises {} along its guide, then falls back", show::length(travel))
            }
            StayReason::BadNumbers => {
                format!("{name} can't be computed: its mass, propellant, tilt and friction don't fit each other")
            }
        };
        let mut finding =
            TOO_WEAK.finding(motor.place, message).label(flight.header, "in this flight").of_flight(numbers);
        finding = match (reason, numbers.loaded()) {
            (StayReason::TooHeavy { peak, .. }, Some(loaded)) => {
                let most = loaded.mass * peak / (5.0 * loaded.mass * finwright_physics::air::G0);
                finding.help(format!(
                    "a motor with at least {} in its first moments (five times the weight), or a rocket below {}",
                    show::force_at_least(5.0 * loaded.mass * finwright_physics::air::G0),
                    show::mass_at_most(most)
                ))
            }
            _ => finding.help("a motor with more thrust, or a lighter rocket"),
        };
        out.push(finding);
    }
}
