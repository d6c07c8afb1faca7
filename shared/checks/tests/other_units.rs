//! What is just enough in millimetres and grams is just enough in inches and ounces, whose rounding leaves a little less
//! or more: every design of the tests, with all such numbers written in the other units, or moved by less than anybody
//! writes, meets the same rules.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, every_design};
use finwright_checks::{Analysis, Level, Verdict};

/// The text with its millimetres and grams in other units, outside of titles and comments.
fn in_units(text: &str, [of_mm, of_g]: [(&str, f64); 2]) -> String {
    let line = |line: &str| {
        let quoted = |(number, piece): (usize, &str)| match number % 2 {
            0 => converted(&converted(piece, "mm", of_mm), "g", of_g),
            _ => piece.to_string(),
        };
        let (words, comment) = line.split_once('#').map_or((line, None), |(words, comment)| (words, Some(comment)));
        let words: Vec<String> = words.split('"').enumerate().map(quoted).collect();
        words.join("\"") + &comment.map_or(String::new(), |comment| format!("#{comment}"))
    };
    text.lines().map(line).collect::<Vec<_>>().join("\n") + "\n"
}

/// The text with the numbers before a unit in another one, which is so many of it.
fn converted(text: &str, unit: &str, (other, size): (&str, f64)) -> String {
    let mut done = String::new();
    let mut rest = text;
    while let Some(at) = rest.find(&format!(" {unit}")) {
        let (before, after) = (&rest[..at], &rest[at + 1 + unit.len()..]);
        let digits = before.rfind(|c: char| !(c.is_ascii_digit() || c == '.')).map_or(0, |last| last + 1);
        let ends = !after.starts_with(|c: char| c.is_alphanumeric() || "/²³^".contains(c));
        match before[digits..].parse::<f64>().ok().filter(|_| ends) {
            Some(value) => done += &format!("{}{} {other}", &before[..digits], value / size),
            None => done += &rest[..at + 1 + unit.len()],
        }
        rest = after;
    }
    done + rest
}

fn met(analysis: &Analysis) -> (Vec<Verdict>, Vec<(&'static str, Level)>) {
    let mut findings: Vec<_> = analysis.findings.iter().map(|finding| (finding.rule, finding.level)).collect();
    findings.sort_unstable();
    (analysis.flights.iter().map(|flight| flight.verdict).collect(), findings)
}

const IN_INCHES: [(&str, f64); 2] = [("in", 25.4), ("oz", 28.349523125)];

#[test]
fn numbers_are_converted() {
    let text = "a: 25.4 mm; b: \"1 mm\"; c: 2 g/cm3 # 1 mm\n";
    assert_eq!(in_units(text, IN_INCHES), "a: 1 in; b: \"1 mm\"; c: 2 g/cm3 # 1 mm\n");
}

#[test]
fn the_same_rules_are_met() {
    let less = 1.0 - 1e-12;
    let more = 1.0 + 1e-12;
    for path in every_design() {
        let text = std::fs::read_to_string(&path).unwrap();
        let usual = met(&analysis(&text));
        for units in [IN_INCHES, [("mm", less), ("g", more)], [("mm", more), ("g", less)]] {
            assert_eq!(met(&analysis(&in_units(&text, units))), usual, "{} in {units:?}", path.display());
        }
    }
}
