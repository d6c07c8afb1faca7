//! `motor/by-label`: a motor of which only the label is known.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::motor::{labelled, motor};
use finwright_units::show;

/// A thrust that is only guessed from its label.
pub static BY_LABEL: Rule = Rule {
    name: "motor/by-label",
    family: Family::Motor,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a motor whose thrust is known by its label alone",
    why: "Motors of one label differ in how they push, so every number of the flight is rough.",
    prose: include_str!("by_label.md"),
    thresholds: &[],
    example: Example::new(
        "\n  curve: [0 s: 0 N, 0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N]",
        "",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        for number in labelled(cx.design, numbers.flight) {
            let Some(own) = cx.design.motors.get(number).filter(|_| !told.contains(&number)) else { continue };
            let (Some(code), Some(taken)) = (&own.code, motor(own)) else { continue };
            told.push(number);
            out.push(
                BY_LABEL
                    .finding(
                        code.place,
                        format!(
                            "{} is known by its label alone: a flat {} for {} is taken, {} in all",
                            own.name.value,
                            show::force(taken.peak),
                            show::time(taken.burn_time),
                            show::written(taken.impulse, "N s"),
                        ),
                    )
                    .help("copy its thrust curve for numbers to rely on: `curve: [0 s: 0 N, 0.1 s: 9 N, …]`")
                    .label(flight.name.place, "flown here")
                    .of_motor(cx, number),
            );
        }
    }
}
