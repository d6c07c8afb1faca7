//! `file/missing-field`: a part, motor, pad or flight that doesn't say what its numbers need.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::lacking::{all_needs, grouped, joined, measure_in_words, sentence};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::{Needs, Unknown};
use finwright_grammar::FileId;

/// The rule.
pub static MISSING_FIELD: Rule = Rule {
    name: "file/missing-field",
    family: Family::File,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "something that doesn't say what its numbers need",
    why: "What isn't known isn't guessed: the checks that need it haven't been made.",
    prose: include_str!("missing_field.md"),
    thresholds: &[],
    example: Example::new("inner: 24 mm; material: kraft_paper", "inner: 24 mm"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let unexplained =
        |group: &Vec<&Unknown>| group.first().is_some_and(|first| cx.lacks.explained(cx.design, first.place).is_none());
    if !cx.rocket_told {
        let of_rocket = grouped(cx.assessment.airframe.unknown.iter()).into_iter().filter(unexplained);
        out.extend(of_rocket.map(|group| Finding { of_rocket: true, ..told(cx, &group) }));
    }
    let of_flights = grouped(cx.flights().flat_map(|(_, numbers)| &numbers.unknown)).into_iter();
    out.extend(of_flights.filter(unexplained).map(|group| told(cx, &group)));
    motors_of_no_flight(cx, out);
}

fn told(cx: &Context, group: &[&Unknown]) -> Finding {
    let place = group.first().map(|unknown| unknown.place).unwrap_or_default();
    let mut unknown: Vec<&str> = group.iter().map(|unknown| measure_in_words(unknown.measure)).collect();
    unknown.dedup();
    let help = match group.first().map(|unknown| &unknown.needs) {
        Some(Needs::Settling) => {
            "it moves the balance point as much as it is moved by it; place it from an edge instead".to_string()
        }
        _ => format!("say it there; without it {} isn't known", joined(&unknown, "and")),
    };
    let help =
        if unknown == ["nothing of it"] { "say it there; without it nothing is checked".to_string() } else { help };
    MISSING_FIELD.finding(place, sentence(cx.design, group)).help(help)
}

/// Motors that no flight of this file flies: a file of motors for others has no flight that would miss anything.
fn motors_of_no_flight(cx: &Context, out: &mut Vec<Finding>) {
    if cx.only.is_some() {
        return;
    }
    let flown: Vec<usize> = cx
        .design
        .flights
        .iter()
        .flat_map(|flight| [&flight.motor, &flight.booster_motor])
        .flatten()
        .map(|named| named.value)
        .collect();
    for (number, motor) in cx.motors() {
        if motor.missing.is_empty() || flown.contains(&number) || motor.header.file != FileId(0) {
            continue;
        }
        let lacks = Unknown {
            subject: finwright_assess::Subject::Motor(number),
            measure: finwright_assess::Measure::Motor,
            needs: Needs::Fields(motor.missing.clone()),
            place: motor.header,
        };
        if cx.lacks.explained(cx.design, motor.header).is_none() {
            let needs = joined(&all_needs(cx.design, &[&lacks]), "and");
            let finding = MISSING_FIELD.finding(motor.header, sentence(cx.design, &[&lacks]));
            out.push(finding.help(format!("say it there: a flight with this motor needs {needs}")));
        }
    }
}
