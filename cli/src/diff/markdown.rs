//! The comparison as Markdown, for a pull request.

use super::change::{DesignChange, Found};
use super::report::Report;
use super::words::{answer, as_before, flight_heading, heading, part_in_words, rows};
use crate::escape::markdown as escaped;
use crate::output::CAUTION;

pub fn markdown(report: &Report) -> String {
    let mut out = format!("**{}**\n", escaped(&answer(report)));
    report.designs.iter().for_each(|design| out += &of_design(design));
    for unusable in &report.unusable {
        out += &format!("\n{}: {}\n", escaped(&unusable.path), escaped(&unusable.reason));
    }
    out + &format!("\n{CAUTION}\n")
}

fn of_design(design: &DesignChange) -> String {
    let mut out = format!("\n### {}\n", escaped(&heading(design)));
    for flight in design.flights.iter().filter(|flight| !flight.is_as_before()) {
        out += &format!("\n| {} | before | now |\n| --- | --- | --- |\n", escaped(&flight_heading(flight)));
        for row in rows(flight) {
            out += &format!("| {} |\n", row.map(|cell| escaped(&cell)).join(" | "));
        }
    }
    if let Some(same) = as_before(design).filter(|_| !design.parts.is_empty()) {
        out += &format!("\n{}\n", escaped(&same));
    }
    let lists = [
        ("Findings gone", &design.findings_gone),
        ("New findings", &design.findings_new),
        ("Findings that say something else now", &design.findings_changed),
    ];
    for (title, found) in lists {
        list(&mut out, title, found.iter().map(found_in_words));
    }
    list(&mut out, "Parts and values", design.parts.iter().map(|part| escaped(&part_in_words(part))));
    out
}

fn list(out: &mut String, title: &str, lines: impl Iterator<Item = String>) {
    for (number, line) in lines.enumerate() {
        if number == 0 {
            *out += &format!("\n{title}:\n\n");
        }
        *out += &format!("* {line}\n");
    }
}

fn found_in_words(found: &Found) -> String {
    format!("{} `{}`: {}", found.level.word(), found.rule, escaped(&found.message))
}
