//! `motor/low-push`: too little thrust for the weight.

use crate::common::floors::push_with_room;
use crate::common::limits::THRUST_TO_WEIGHT;
use crate::common::named::motor_name;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::flight::run::push;
use finwright_assess::Run;
use finwright_physics::guided::GuidedRun;
use finwright_physics::motor::ThrustCurve;
use finwright_units::show;

/// The rule.
pub static LOW_PUSH: Rule = Rule {
    name: "motor/low-push",
    family: Family::Motor,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "a motor that pushes with less than five times the weight",
    why: "A rocket that gathers speed slowly is turned into the wind by every gust on its way up.",
    prose: include_str!("low_push.md"),
    thresholds: &[&THRUST_TO_WEIGHT],
    example: Example::new(
        "0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N",
        "0.05 s: 2.1 N, 0.1 s: 2.2 N, 0.5 s: 2.2 N, 1 s: 2.2 N, 1.8 s: 2.2 N, 1.9 s: 0 N",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let least = cx.limit(&THRUST_TO_WEIGHT);
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(run), Some(curve)) = (&numbers.run, &numbers.curve) else { continue };
        let Some(push) = run.push.filter(|push| *push < least) else { continue };
        let burning = if numbers.upper().is_some() { &flight.booster_motor } else { &flight.motor };
        let Some(named) = burning else { continue };
        // From another pad the same motor pushes about as much.
        if told.contains(&named.value) {
            continue;
        }
        told.push(named.value);
        let name = cx.design.motors.get(named.value).map_or_else(|| motor_name(cx, flight), |m| m.name.value.clone());
        let help = match lighter(run, curve, push_with_room(cx, numbers, least)) {
            Some(mass) => format!(
                "with this motor the rocket may weigh {} on the pad, {} less; else take a motor with more thrust at \
                    the start",
                show::mass_at_most(mass),
                show::mass_at_least(run.inputs.mass - mass)
            ),
            None => "take a motor with more thrust at the start".to_string(),
        };
        out.push(
            LOW_PUSH
                .finding(
                    named.place,
                    format!(
                        "along the {}, {name} pushes {} with {} times its weight; {} is the usual least",
                        cx.design.pad_of(flight).map_or("guide", |pad| pad.rail_word()),
                        flight.name.value,
                        show::significant(push, 2, 1),
                        show::number(least)
                    ),
                )
                .help(help)
                .of_flight(numbers)
                .beyond(least / push)
                .label(flight.name.place, format!("{} on the pad", show::mass(run.inputs.mass))),
        );
    }
}

/// The greatest mass at which the mean thrust along the guide is so many weights, kg, rounded down to the gram: found
/// by halving, with the run flown again each time, since a lighter rocket leaves earlier in the burn.
fn lighter(run: &Run, curve: &ThrustCurve, least: f64) -> Option<f64> {
    let enough = |mass: f64| {
        let lighter = GuidedRun { mass, ..run.inputs_on(curve) };
        push(&lighter, &lighter.run()).is_some_and(|push| push >= least)
    };
    // With half of its mass gone it's another rocket.
    let (mut light, mut heavy) = ((0.5 * run.inputs.mass).max(1.01 * run.inputs.propellant), run.inputs.mass);
    if !enough(light) {
        return None;
    }
    for _ in 0..40 {
        let middle = 0.5 * (light + heavy);
        if enough(middle) {
            light = middle;
        } else {
            heavy = middle;
        }
    }
    Some((light * 1e3).floor() / 1e3)
}
