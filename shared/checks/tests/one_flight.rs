//! What a rule says of one flight it says as gravely of all flights together: else a flight's verdict would rest on what
//! nobody is told. Of every design of the tests, with a flight of each motor from each pad, as it stands and with all its
//! lengths, masses, winds or the like changed.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, designs, every_design};
use finwright_checks::common::lacks::Lacks;
use finwright_checks::rule::Concern;
use finwright_checks::{Analysis, Context, Finding, Rule, RULES};
use std::fmt::Write;

/// The text with a flight of each motor from each pad by each flight's guides.
fn with_every_flight(text: &str) -> String {
    let found = analysis(text);
    let design = &found.design;
    let mut wide = text.to_string();
    for (number, flight) in design.flights.iter().enumerate() {
        let guides: Vec<&str> = flight.guided_by.iter().map(|named| design.text(named.place)).collect();
        let site = flight.site.as_ref().map_or(String::new(), |site| format!("; site: {}", design.text(site.place)));
        let rest = format!("guided_by: [{}]{site}", guides.join(", "));
        for (of_motor, motor) in design.motors.iter().enumerate() {
            for (of_pad, pad) in design.pads.iter().enumerate() {
                let (motor, pad) = (&motor.name.value, &pad.name.value);
                let name = format!("every_{number}_{of_motor}_{of_pad}");
                writeln!(wide, "flight {name} {{ motor: {motor}; pad: {pad}; {rest} }}").unwrap();
            }
        }
    }
    wide
}

/// The text with the numbers behind a field's name multiplied.
fn scaled(text: &str, field: &str, by: f64) -> String {
    let mut pieces = text.split(field);
    let first = pieces.next().unwrap_or_default().to_string();
    pieces.fold(first, |before, piece| {
        let digits = piece.trim_start();
        let end = digits.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(digits.len());
        match digits[..end].parse::<f64>() {
            Ok(value) => format!("{before}{field} {:.4}{}", value * by, &digits[end..]),
            Err(_) => format!("{before}{field}{piece}"),
        }
    })
}

fn found(analysis: &Analysis, only: Option<usize>, rule: &Rule) -> Vec<Finding> {
    let (design, assessment, settings) = (&analysis.design, &analysis.assessment, analysis.settings.as_ref());
    let cx = Context { design, assessment, settings, only, rocket_told: only.is_some(), lacks: &Lacks::default() };
    let mut found = Vec::new();
    rule.check.unwrap()(&cx, &mut found);
    found
}

/// What is found of one flight where nothing as grave is found of all.
fn said_of_one_only(text: &str) -> Vec<String> {
    let analysis = analysis(&with_every_flight(text));
    let of_a_flight = |rule: &&&Rule| rule.check.is_some() && matches!(rule.concerns, Concern::Flight | Concern::Pad);
    let graver = |rule: &&'static Rule| {
        let of_all = found(&analysis, None, rule).iter().map(|finding| finding.level).min();
        let of_each = (0..analysis.design.flights.len()).flat_map(|flight| found(&analysis, Some(flight), rule));
        of_each.filter(|finding| of_all.is_none_or(|of_all| finding.level < of_all)).collect::<Vec<_>>()
    };
    let told = RULES.iter().filter(of_a_flight).flat_map(graver);
    told.map(|finding| format!("{}: {:?}: {}", finding.rule, finding.level, finding.message)).collect()
}

#[test]
fn what_is_said_of_one_is_said_of_all() {
    for path in every_design() {
        let text = std::fs::read_to_string(&path).unwrap();
        assert_eq!(said_of_one_only(&text), Vec::<String>::new(), "{}", path.display());
    }
}

#[test]
fn whatever_is_changed() {
    for path in designs("good") {
        let text = std::fs::read_to_string(&path).unwrap();
        for field in ["length:", "mass:", "at:", "delay:", "diameter:", "tilt:", "wind:", "span:"] {
            for by in [0.4, 1.3, 2.5] {
                let told = said_of_one_only(&scaled(&text, field, by));
                assert_eq!(told, Vec::<String>::new(), "{} with {field} times {by}", path.display());
            }
        }
    }
}
