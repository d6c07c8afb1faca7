//! `motor/propellant-exceeds-mass`: a motor that weighs no more than its propellant.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// A motor lighter than its propellant.
pub static PROPELLANT_EXCEEDS_MASS: Rule = Rule {
    name: "motor/propellant-exceeds-mass",
    family: Family::Motor,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a motor that weighs no more than its propellant",
    why: "The mass is that of the whole motor, propellant included; with the two swapped every number of the flight \
        is off.",
    prose: include_str!("propellant_exceeds_mass.md"),
    thresholds: &[],
    example: Example::new("propellant: 5.6 g", "propellant: 56 g"),
    check: Some(check_motors),
};

fn check_motors(cx: &Context, out: &mut Vec<Finding>) {
    for (number, motor) in cx.motors() {
        let (Some(mass), Some(propellant)) = (&motor.mass, &motor.propellant) else { continue };
        if propellant.si >= mass.si {
            let [whole, burning] = show::masses_apart(mass.si, propellant.si);
            out.push(
                PROPELLANT_EXCEEDS_MASS
                    .finding(
                        propellant.place,
                        format!("{} weighs {whole} and its propellant {burning}", motor.name.value),
                    )
                    .help("copy both again: `mass` is the whole motor before it burns")
                    .label(mass.place, "the whole motor")
                    .of_motor(cx, number),
            );
        }
    }
}
