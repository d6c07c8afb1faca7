//! The comparison for a terminal.

use super::change::{DesignChange, Found};
use super::report::Report;
use super::words::{answer, as_before, flight_heading, heading, part_in_words, rows};
use crate::layout::table::{Column, Table};
use crate::layout::{hanging, measure, paragraph};
use crate::output::{closing, printable, CAUTION};

pub fn text(report: &Report) -> String {
    let mut out = format!("{}\n", paragraph(&printable(&answer(report)), "", measure()));
    report.designs.iter().for_each(|design| out += &of_design(design));
    out + &closing(CAUTION)
}

fn of_design(design: &DesignChange) -> String {
    let mut out = format!("\n{}\n", hanging(&printable(&heading(design)), "", "  ", measure()));
    let mut table = Table::new([Column::words(""), Column::words("before"), Column::words("now")]);
    let told: Vec<_> = design.flights.iter().filter(|flight| !flight.is_as_before()).collect();
    for flight in &told {
        table.section(flight_heading(flight));
        rows(flight).into_iter().for_each(|row| table.row(row));
    }
    if !told.is_empty() {
        out += &format!("\n{}", table.text(measure()).text);
    }
    if let Some(same) = as_before(design).filter(|_| !told.is_empty() || !design.parts.is_empty()) {
        out += &format!("\n{}\n", hanging(&same, "  ", "    ", measure()));
    }
    let lists = [
        ("findings gone", &design.findings_gone),
        ("new findings", &design.findings_new),
        ("findings that say something else now", &design.findings_changed),
    ];
    for (title, found) in lists {
        list(&mut out, title, found.iter().map(found_in_words));
    }
    list(&mut out, "parts and values", design.parts.iter().map(part_in_words));
    out
}

fn list(out: &mut String, title: &str, lines: impl Iterator<Item = String>) {
    for (number, line) in lines.enumerate() {
        if number == 0 {
            *out += &format!("\n  {title}\n");
        }
        *out += &(hanging(&printable(&line), "    - ", "      ", measure()) + "\n");
    }
}

fn found_in_words(found: &Found) -> String {
    format!("{} {}: {}", found.level.word(), found.rule, found.message)
}
