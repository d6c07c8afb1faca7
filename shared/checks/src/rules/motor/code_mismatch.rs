//! `motor/code-mismatch`: a motor's code that its own curve contradicts.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// The rule.
pub static CODE_MISMATCH: Rule = Rule {
    name: "motor/code-mismatch",
    family: Family::Motor,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a motor whose code and curve disagree",
    why: "One of the two may be copied wrong, and everything about the flight rests on the curve.",
    prose: include_str!("code_mismatch.md"),
    thresholds: &[],
    example: Example::new(r#"code: "B8-4""#, r#"code: "C8-4""#),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (number, motor) in cx.motors() {
        let (Some(code), Some(curve), Some(numbers)) = (&motor.code, &motor.curve, cx.motor_numbers(number)) else {
            continue;
        };
        let Some(said) = &numbers.code else { continue };
        let name = &motor.name.value;
        let copy_again = "copy the code and the points again from the motor's data";
        if let (Some(false), Some(class)) = (numbers.letter_agrees(), numbers.class) {
            let message = format!(
                "{name} is called {} {}, and its curve holds {} N s, which is {} {}",
                article(&said.letter),
                said.letter,
                show::number(numbers.impulse),
                article(class.letter),
                class.letter
            );
            let in_all = format!("{} N s in all", show::number(numbers.impulse));
            out.push(
                CODE_MISMATCH
                    .finding(code.place, message)
                    .help(copy_again)
                    .label(curve.place, in_all)
                    .of_motor(cx, number),
            );
        }
        if numbers.average_agrees() == Some(false) {
            let message = format!(
                "{name}'s code says {} on average, and its curve gives {}",
                show::force(said.average),
                show::force(numbers.average)
            );
            let in_all = format!("{} N s in {}", show::number(numbers.impulse), show::time(numbers.burn_time));
            let mut finding =
                CODE_MISMATCH.finding(code.place, message).label(curve.place, in_all).of_motor(cx, number);
            finding = if said.average > numbers.average {
                finding.level = Level::Note;
                finding.help(format!("{copy_again}; some older small motors are labelled above their average"))
            } else {
                finding.help(copy_again)
            };
            out.push(finding);
        }
        if let (Some(false), Some(delay), Some(coded)) = (numbers.delay_agrees(), &motor.delay, said.delay) {
            let message =
                format!("{name}'s delay is {} and its code says {} s", show::time(delay.si), show::number(coded));
            out.push(
                CODE_MISMATCH
                    .finding(delay.place, message)
                    .help("make them agree")
                    .label(code.place, "the code")
                    .of_motor(cx, number),
            );
        }
    }
}

fn article(letter: &str) -> &'static str {
    if matches!(letter, "A" | "E" | "F" | "H" | "I" | "L" | "M" | "N" | "O" | "1/8A") {
        "an"
    } else {
        "a"
    }
}
