//! `finwright show`: a design's numbers, a table a flight.

mod heading;
mod limits;
mod numbers;

use crate::collect::read;
use crate::judged;
use crate::layout::{hanging, measure, paragraph};
use crate::output::{closing, plural, print, print_json, quoted, unusable, CAUTION, TRUST};
use crate::table::Table;
use crate::ShowFormat;
use finwright_advice::ceiling;
use finwright_advice::words::ceiling_in_words;
use finwright_assess::field_rules::{self, Jurisdiction};
use finwright_assess::report::{self, FlightReport};
use finwright_assess::{path, FlightNumbers};
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::flight_in_words;
use finwright_checks::lacking::{causes, sentence};
use finwright_checks::{analyze, Analysis, Level, Snapshot};
use finwright_units::reader::with;
use finwright_units::Units;
use serde::Serialize;
use std::path::Path;
use std::process::ExitCode;
use std::sync::Arc;

pub fn show(path: &Path, format: ShowFormat, code: Option<&str>, units: Option<Units>) -> ExitCode {
    let code = match code.map(|name| field_rules::named(name).ok_or(name)) {
        Some(Err(name)) => {
            let known: Vec<&str> = field_rules::JURISDICTIONS.iter().map(|(known, ..)| *known).collect();
            return unusable(&format!("no limits are known by the name {name}; known are {}", known.join(", ")));
        }
        Some(Ok(code)) => Some(code),
        None => None,
    };
    let input = read(path).in_units(units);
    let analysis = match input.snapshot {
        // The code that is asked for is the one that the flights are judged by.
        Ok(snapshot) => analyze(&under(snapshot, code)),
        Err(reason) => return unusable(&format!("{}: {reason}", input.shown)),
    };
    let limit = analysis.settings.limit(&EXIT_SPEED);
    let reports = with(analysis.settings.units, || report::flights(&analysis.design, &analysis.assessment, limit));
    match format {
        ShowFormat::Json => {
            let judged = judged::each(&analysis, true);
            let flights: Vec<Flight> =
                reports.iter().zip(judged).map(|(r, verdict)| Flight { report: r, verdict }).collect();
            if let Err(code) = print_json(&flights) {
                return code;
            }
        }
        ShowFormat::Text => print(&with(analysis.settings.units, || text(&input.shown, &analysis, &reports))),
    }
    ExitCode::SUCCESS
}

/// The same under another code than its settings choose, where one is asked for.
fn under(snapshot: Snapshot, code: Option<Jurisdiction>) -> Snapshot {
    match code {
        Some(code) => Snapshot { settings: Arc::new(snapshot.settings.as_ref().clone().under(code)), ..snapshot },
        None => snapshot,
    }
}

/// A flight's numbers with the verdict on it.
#[derive(Serialize)]
struct Flight<'a> {
    #[serde(flatten)]
    report: &'a FlightReport,
    #[serde(flatten)]
    verdict: judged::Told,
}

fn text(shown: &str, analysis: &Analysis, reports: &[FlightReport]) -> String {
    let design = &analysis.design;
    let title = design.title.as_ref().map_or(shown, |t| t.value.as_str());
    let mut out = format!("{title}\n");
    if design.flights.is_empty() {
        let add = "This file has no flight to show. Add `flight my_day { motor: …; pad: …; guided_by: […] }`.";
        out += &format!("\n{}\n", paragraph(add, "  ", measure()));
    }
    for (numbers, report) in analysis.assessment.flights.iter().zip(reports) {
        out.push_str(&flight(analysis, numbers, report));
    }
    for line in judged::beside(analysis) {
        out += &closing(&line);
    }
    let counts =
        [(Level::Error, "error"), (Level::Warning, "warning")].map(|(level, word)| (analysis.count(level), word));
    let found: Vec<String> = counts.iter().filter(|(n, _)| *n > 0).map(|(n, word)| plural(*n, word)).collect();
    if !found.is_empty() {
        out += &closing(&format!("`finwright check {}` has {} about this design.", quoted(shown), found.join(" and ")));
    }
    let questions = limits::questions(design);
    if !questions.is_empty() {
        out.push('\n');
    }
    questions.iter().for_each(|question| out += &(hanging(question, "", "  ", measure()) + "\n"));
    if !reports.is_empty() {
        out += &closing(TRUST);
    }
    out + &closing(CAUTION)
}

fn flight(analysis: &Analysis, n: &FlightNumbers, report: &FlightReport) -> String {
    let design = &analysis.design;
    let Some(flight) = design.flights.get(n.flight) else { return String::new() };
    let flown = path(design, &analysis.assessment.airframe, n);
    let mut table = Table::default();
    let judgement = analysis.flights.get(n.flight);
    let likely = analysis.likely(n.flight);
    numbers::rows(&mut table, &numbers::Told { analysis, numbers: n, report, flown: flown.ok(), likely });
    let mut out = format!("\n{}\n", hanging(&heading::title(design, flight), "", "  ", measure()));
    let line = |out: &mut String, said: &str| *out += &(hanging(said, "  ", "    ", measure()) + "\n");
    if let Some(site) = heading::site(design, flight) {
        line(&mut out, &site);
    }
    line(&mut out, &flight_in_words(analysis, n.flight, &flight.name.value));
    if let Some(classes) = limits::classes(design, n, flown.ok()) {
        line(&mut out, &classes);
    }
    out += &table.text();
    if let Some(code) = analysis.settings.code {
        out += &limits::against(design, n, flown.ok(), code);
    }
    if let Some((ceiling, judgement)) = ceiling(analysis, n.flight).zip(judgement) {
        line(&mut out, &format!("{} {}", flight.name.value, ceiling_in_words(&ceiling, judgement.verdict)));
    }
    if !report.defaults.is_empty() {
        line(&mut out, &format!("by default: {}", report.defaults.join("; ")));
    }
    for group in causes(&analysis.assessment, Some(n.flight)) {
        line(&mut out, &format!("not known: {}", sentence(design, &group)));
    }
    out
}
