//! `motor/impossible-propellant`: more thrust than the propellant can give, or more propellant than the case holds.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::motor::beyond_case;
use finwright_units::show;

/// The rule.
pub static IMPOSSIBLE_PROPELLANT: Rule = Rule {
    name: "motor/impossible-propellant",
    family: Family::Motor,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a motor with more impulse than its propellant gives, or more propellant than its case holds",
    why: "One of these numbers is copied wrong or in another unit, and the whole flight is computed from them.",
    prose: include_str!("impossible_propellant.md"),
    thresholds: &[],
    example: Example::new("propellant: 5.6 g", "propellant: 0.56 g"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (number, motor) in cx.motors() {
        let Some(propellant) = &motor.propellant else { continue };
        let (name, mass) = (&motor.name.value, || show::mass(propellant.si));
        let beyond = cx.motor_numbers(number).and_then(|of| Some((of.impulse, of.beyond_propellant(motor)?)));
        if let (Some((impulse, most)), Some(curve)) = (beyond, &motor.curve) {
            let times = impulse / most;
            let impulse = show::number(impulse);
            out.push(
                IMPOSSIBLE_PROPELLANT
                    .finding(
                        propellant.place,
                        format!("{name} has {impulse} N s, more than {} of propellant can give", mass()),
                    )
                    .help(format!(
                        "so much gives at most {} N s: copy curve and propellant again, and look at their units",
                        show::number(most)
                    ))
                    .label(curve.place, format!("{impulse} N s in all"))
                    .of_motor(cx, number)
                    .beyond(times),
            );
        }
        if let (Some(most), Some(length), Some(diameter)) = (beyond_case(motor), &motor.length, &motor.diameter) {
            out.push(
                IMPOSSIBLE_PROPELLANT
                    .finding(propellant.place, format!("{name} is too small for {} of propellant", mass()))
                    .help(format!(
                        "copy its sizes and its propellant again: a case of {} by {} holds {} at most",
                        show::si::length(diameter.si),
                        show::si::length(length.si),
                        show::mass(most)
                    ))
                    .label(length.place, "the whole case is so long")
                    .of_motor(cx, number)
                    .beyond(propellant.si / most),
            );
        }
    }
}
