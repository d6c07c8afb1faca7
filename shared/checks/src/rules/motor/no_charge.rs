//! `motor/no-charge`: a motor that fires no charge under a rocket that needs one to open.

use crate::common::charge::ending;
use crate::common::deferred;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::flight::sinking::waits_for_charge;
use finwright_model::{Part, Stage};

/// The rule.
pub static NO_CHARGE: Rule = Rule {
    name: deferred::NO_CHARGE,
    family: Family::Motor,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a motor without an ejection charge or without a delay, under a parachute or streamer",
    why: "Nothing pushes the parachute out, or the charge fires at full speed: the rocket comes down like a dart.",
    prose: include_str!("no_charge.md"),
    thresholds: &[],
    example: Example::new(r#"code: "B8-4""#, r#"code: "B8-P""#),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let waits = |part: &&Part| part.stage == Stage::Upper && waits_for_charge(part);
    let Some(waiting) = cx.design.parts.iter().find(waits) else { return };
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(named) = flight.motor.as_ref().filter(|named| !told.contains(&named.value)) else { continue };
        let Some(motor) = cx.design.motors.get(named.value) else { continue };
        let Some(code) = &motor.code else { continue };
        let (what, help) = match ending(&code.value) {
            Some("P" | "p") => ("has no ejection charge (its code ends in P)", "take one with a delay"),
            Some("0") => ("has no delay (its code ends in 0): it's a booster's motor", "take one with a delay here"),
            _ => continue,
        };
        told.push(named.value);
        out.push(
            NO_CHARGE
                .finding(code.place, format!("{} {what}", motor.name.value))
                .help(format!(
                    "{help}, about as long as the rocket coasts; where an altimeter opens it, say `opens: at top`"
                ))
                .label(waiting.header, "this waits for the charge")
                .label(flight.name.place, "flown here")
                .of_flight(numbers),
        );
    }
}
