//! `measured/not-used`: a measurement that doesn't say enough to fly the rocket by it.

use super::BENCH;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::{Anchor, Design, Measured};

/// The rule.
pub static NOT_USED: Rule = Rule {
    name: "measured/not-used",
    family: Family::Measured,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a measurement that can't be used, since it doesn't say enough",
    why: "The rocket on the scale is the one that flies; what can't be used leaves the one that was only computed.",
    prose: include_str!("not_used.md"),
    thresholds: &[],
    example: Example::new("with: b8; mass: 47 g ± 1 g", "mass: 47 g ± 1 g").after(BENCH),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for measured in &cx.design.measured {
        // Words that can't be understood are told as that.
        if cx.lacks.explained(cx.design, measured.header).is_some() {
            continue;
        }
        if let Some((message, help)) = lacks(cx.design, measured) {
            let place = measured.balance.as_ref().filter(|_| measured.with.is_some()).map(|at| at.distance.place);
            out.push(NOT_USED.finding(place.unwrap_or(measured.header), message).help(help));
        }
    }
}

/// What a measurement lacks, and what to say instead.
fn lacks(design: &Design, measured: &Measured) -> Option<(&'static str, String)> {
    let from_balance = |anchor: &Anchor| matches!(anchor, Anchor::AheadOfBalance | Anchor::BehindBalance);
    if measured.with.is_none() {
        let help = match design.motors.first() {
            Some(motor) => format!("say which: `with: {}`", motor.name.value),
            None => "describe the motor, and name it here: `with: my_motor`".to_string(),
        };
        return Some(("this measurement doesn't say which motor was in", help));
    }
    if measured.balance.as_ref().is_some_and(|at| from_balance(&at.anchor)) {
        let help = "measure from the tip to where it balances: `balance: 352 mm ± 3 mm from tip`";
        return Some(("a balance point can't be measured from itself", help.to_string()));
    }
    if measured.mass.is_none() && measured.balance.is_none() {
        let help = "say what scale and bench said: `mass: 148 g ± 1 g; balance: 352 mm ± 3 mm from tip`";
        return Some(("this measurement says nothing that was measured", help.to_string()));
    }
    None
}
