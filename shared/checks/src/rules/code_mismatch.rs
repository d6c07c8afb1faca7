//! `motor/code-mismatch`: a motor's code that its own curve contradicts.

use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use finwright_physics::motor::{ImpulseClass, ThrustCurve};
use finwright_units::show;

/// The rule.
pub static CODE_MISMATCH: Rule = Rule {
    name: "motor/code-mismatch",
    level: Level::Warning,
    summary: "a motor whose code and curve disagree",
    why: "One of the two is copied wrong, and everything about the flight rests on the curve.",
    prose: "A motor's code is a letter for its total impulse, a number for its average thrust in newtons, and behind a dash its delay in seconds. Each letter holds twice the impulse of the one before: A up to 2.5 N s, B up to 5, and so on (NFPA 1125).",
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for motor in &cx.design.motors {
        let (Some(code), Some(curve)) = (&motor.code, &motor.curve) else { continue };
        let Some((letter, delay)) = parts(&code.value) else { continue };
        let Ok(thrust) = ThrustCurve::new(curve.points.clone()) else { continue };
        let impulse = thrust.total_impulse();
        if let Some(class) = ImpulseClass::of(impulse) {
            if class.letter != letter {
                out.push(
                    CODE_MISMATCH
                        .finding(
                            code.place,
                            format!(
                                "{} is called {} {letter}, and its curve holds {} N s, which is {} {}",
                                motor.name.value,
                                article(letter),
                                show::number(impulse),
                                article(class.letter),
                                class.letter
                            ),
                        )
                        .help("copy the code and the points again from the motor's data")
                        .label(curve.place, format!("{} N s in all", show::number(impulse))),
                );
            }
        }
        if let (Some(coded), Some(said)) = (delay, &motor.delay) {
            if (coded - said.si).abs() > 1e-9 {
                out.push(
                    CODE_MISMATCH
                        .finding(
                            said.place,
                            format!(
                                "{}'s delay is {} and its code says {} s",
                                motor.name.value,
                                show::time(said.si),
                                show::number(coded)
                            ),
                        )
                        .help("make them agree")
                        .label(code.place, "the code"),
                );
            }
        }
    }
}

/// The letter and the delay of a code such as `D9-5` or `1/2A3-2`; `None` where it isn't one.
fn parts(code: &str) -> Option<(&str, Option<f64>)> {
    let end = code.find(|c: char| c.is_ascii_uppercase())? + 1;
    let (letter, rest) = code.split_at(end);
    let average: String = rest.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
    average.parse::<f64>().ok()?;
    let delay = rest.rsplit_once('-').and_then(|(_, d)| d.trim().parse().ok());
    Some((letter, delay))
}

fn article(letter: &str) -> &'static str {
    if matches!(letter, "A" | "E" | "F" | "H" | "I" | "L" | "M" | "N" | "O" | "1/8A") {
        "an"
    } else {
        "a"
    }
}
