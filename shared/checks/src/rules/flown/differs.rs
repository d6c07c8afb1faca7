//! `flown/differs`: a flight that did something else than was expected of it.

use super::{as_learned, in_words};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::flown::cause::Explained;
use finwright_assess::flown::vary::Cause;
use finwright_assess::flown::{Compared, Quantity};
use finwright_units::show;

/// The rule.
pub static DIFFERS: Rule = Rule {
    name: "flown/differs",
    family: Family::Flown,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a flight that did something else than was expected of it",
    why: "What was wrong about this flight is wrong about the next one's numbers too.",
    prose: include_str!("differs.md"),
    thresholds: &[],
    example: Example::new("height: 162 m ± 3 m", "height: 138 m ± 3 m").after(super::FLOWN),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    if cx.design.flown.is_empty() {
        return;
    }
    let all = cx.assessment.flown(cx.design);
    for (flight, numbers) in cx.flights() {
        for flown in all.flights.iter().filter(|flown| flown.flight == numbers.flight) {
            let differs = flown.compared.iter().filter(|one| one.differs());
            let Some(worst) = differs.max_by(|a, b| a.off().abs().total_cmp(&b.off().abs())) else { continue };
            let causes: Vec<String> = flown.causes.iter().take(2).map(|cause| in_short(*cause)).collect();
            let help = match causes.as_slice() {
                [] => {
                    "no single cause explains it: look at the log, at the motor that was in, and at the flight itself"
                        .to_string()
                }
                [only] => format!("{only} would explain it"),
                [first, second, ..] => format!("{first} would explain it; so would {second}"),
            };
            let mut finding = DIFFERS
                .finding(worst.place, message(&flight.name.value, worst))
                .of_flight(numbers)
                .beyond(worst.off().abs() / 2.0)
                .label(flight.name.place, "the flight")
                .help(help);
            if let Some((learned, edits)) = all.learned.as_ref().and_then(|l| Some((l, as_learned(cx, l)?))) {
                finding = finding.fix_all(format!("compute with what was flown: {}", in_words(cx, learned)), edits);
            }
            out.push(finding);
        }
    }
}

fn message(name: &str, one: &Compared) -> String {
    let how = form(one.quantity);
    let give = 2.0 * one.sd.hypot(one.expected_sd);
    let (measured, least, most) = (how(one.measured), how((one.expected - give).max(0.0)), how(one.expected + give));
    match one.quantity {
        Quantity::ExitSpeed => format!("{name} left at {measured}; {least} to {most} was expected"),
        Quantity::Height => format!("{name} reached {measured}; {least} to {most} was expected"),
        Quantity::TimeToTop => format!("{name} was at the top after {measured}; {least} to {most} was expected"),
    }
}

/// What was measured, in words.
pub fn label(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::ExitSpeed => "exit speed",
        Quantity::Height => "highest point",
        Quantity::TimeToTop => "time to the top",
    }
}

/// How a measured value is put into words.
pub fn form(quantity: Quantity) -> fn(f64) -> String {
    match quantity {
        Quantity::ExitSpeed => show::speed,
        Quantity::Height => show::length,
        Quantity::TimeToTop => show::time,
    }
}

/// A cause with its value, in words that begin a sentence's part.
pub fn in_short(one: Explained) -> String {
    match one.cause {
        Cause::Drag => format!("drag times {}", show::trimmed(one.value, 2)),
        Cause::Thrust => format!("thrust times {}", show::trimmed(one.value, 2)),
        Cause::Mass if one.value >= one.now => format!("{} more on the pad", show::mass(one.value - one.now)),
        Cause::Mass => format!("{} less on the pad", show::mass(one.now - one.value)),
        Cause::Wind => format!("a wind of {}", show::speed(one.value)),
    }
}
