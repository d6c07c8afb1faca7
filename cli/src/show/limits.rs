//! A chosen code's limits, each with what a flight has against it; the class of its motors; and what no file can say.

use crate::layout::{hanging, measure};
use crate::table::Table;
use finwright_assess::field_rules::{
    self, Bounds, Class, Facts, Jurisdiction, Limit, Limited, MotorFacts, Standing, CHECK_YOUR_CODE, MODEL_IMPULSE,
    MODEL_PROPELLANT, MODEL_THRUST,
};
use finwright_assess::flight::sinking::opens;
use finwright_assess::{FlightNumbers, Path as Flown};
use finwright_checks::common::code::{besides, in_words, limited_in_words, name_of};
use finwright_checks::rules::field::limit_not_checked::needed;
use finwright_model::{Design, PartKind};
use finwright_units::show as words;

/// The limits as a table of their own: their names are longer than those of the numbers.
pub fn against(design: &Design, n: &FlightNumbers, flown: Option<&Flown>, code: Jurisdiction) -> String {
    let mut table = Table::default();
    table.heading(format!("against {}: {CHECK_YOUR_CODE}", name_of(code)));
    for limit in field_rules::limits(code, &Facts::of(design, n, flown)) {
        table.row(limited_in_words(limit.what), value(&limit), remark(&limit));
    }
    let not_included = format!("not included: {}", code.not_included());
    table.text() + &hanging(&not_included, "  ", "    ", measure()) + "\n"
}

fn value(limit: &Limit) -> String {
    let said = |value: f64| match limit.what {
        // The limit beside it is told in the reader's units too; once is enough.
        Limited::Wind => words::speed(value),
        _ => in_words(limit, value),
    };
    match limit.value {
        value if value.known().is_some() => said(value.least),
        value if value.most.is_finite() => format!("up to {}", said(value.most)),
        _ => "not known".to_string(),
    }
}

fn remark(limit: &Limit) -> String {
    let side = if limit.is_most { "at most" } else { "at least" };
    let asked = format!("{side} {}{} ({})", in_words(limit, limit.asked), besides(limit), limit.source);
    match limit.standing() {
        Standing::Met => asked,
        Standing::Exceeded => format!("exceeded: {asked}"),
        Standing::NotKnown if limit.value.known().is_some() => format!("may not be enough: {asked}"),
        Standing::NotKnown => format!("not checked: {asked}; it needs {}", needed(limit.what)),
    }
}

/// Whether a flight's motors are model rockets' or high power, with the numbers that decide it.
pub fn classes(design: &Design, n: &FlightNumbers, flown: Option<&Flown>) -> Option<String> {
    let facts = Facts::of(design, n, flown);
    let motors: Vec<String> = facts.motors.iter().map(class).collect();
    let whole = match facts.class() {
        Some(Class::Model) => "the rocket is a model rocket",
        Some(Class::HighPower) => "the rocket is high power",
        None => "whether the rocket is a model rocket isn't known",
    };
    let lines = format!(
        "above {}, {} or {} of propellant a motor is high power (from memory; read the code)",
        newton_seconds(MODEL_IMPULSE),
        words::force(MODEL_THRUST),
        words::mass(MODEL_PROPELLANT)
    );
    (!motors.is_empty()).then(|| format!("{}; {whole}; {lines}", motors.join(", ")))
}

fn class(motor: &MotorFacts) -> String {
    let said = |value: Bounds, how: &dyn Fn(f64) -> String| value.known().map(how);
    let numbers: Vec<String> = [
        said(motor.impulse, &newton_seconds),
        said(motor.average_thrust, &words::force),
        said(motor.propellant, &words::mass),
    ]
    .into_iter()
    .flatten()
    .collect();
    let class = match motor.class() {
        Some(Class::Model) => "is a model motor",
        Some(Class::HighPower) => "is a high-power motor",
        None => "isn't known to be a model motor",
    };
    let numbers = if numbers.is_empty() { String::new() } else { format!(" ({})", numbers.join(", ")) };
    format!("{} {class}{numbers}", motor.name)
}

fn newton_seconds(impulse: f64) -> String {
    format!("{} N s", words::number(impulse))
}

/// What no file can say and somebody has to ask before a launch, a question each.
pub fn questions(design: &Design) -> Vec<String> {
    let mut asked = Vec::new();
    let has_hook = design.parts.iter().any(|part| matches!(part.kind, PartKind::Hook { .. }));
    if !design.flights.is_empty() && !has_hook {
        asked.push("what keeps the motor in when the charge fires? The file names no hook");
    }
    if design.parts.iter().any(opens) {
        asked.push("what keeps the charge's heat off parachute and streamer: wadding, a baffle, a piston?");
    }
    if !design.flights.is_empty() {
        asked.extend([
            "is there a deflector under the rocket, and no dry grass around the pad?",
            "are there power lines, roads or houses where it may come down?",
            "what do cloud, airspace and the nearest airport allow today?",
        ]);
    }
    asked.into_iter().map(|question| format!("ask: {question}")).collect()
}
