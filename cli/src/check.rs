//! `finwright check`: every finding of every design, a verdict for each, and a closing count.

mod apart;
mod report;
mod tally;

use crate::collect::{find, read, users_beside};
use crate::judged;
use crate::layout::{hanging, measure};
use crate::output::{closing, print, print_json, printable, UNUSABLE};
use crate::render;
use crate::CheckFormat;
use apart::Apart;
use finwright_checks::verdict::flight_in_words;
use finwright_checks::{analyze, Analysis, Finding, Snapshot, Verdict};
use finwright_units::reader::with;
use finwright_units::Units;
use rayon::prelude::*;
pub use report::Report;
use report::{FileReport, Unusable};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use tally::Tally;

/// How findings are written, for whom, and whether the checks that were made are listed too.
#[derive(Clone, Copy)]
pub struct Wish {
    pub format: CheckFormat,
    pub units: Option<Units>,
    pub made: bool,
}

pub fn check(paths: &[PathBuf], wish: Wish) -> ExitCode {
    let found = find(paths);
    let alone = found.len() == 1;
    let mut outcomes: Vec<Outcome> = found
        .par_iter()
        .map(|path| match path {
            Ok(path) => look_at(path, wish, alone),
            Err((path, reason)) => Outcome::unusable(path.display().to_string(), reason.clone()),
        })
        .collect();
    make_libraries(&mut outcomes);
    let apart = Apart::gather(&outcomes, wish);
    match wish.format {
        CheckFormat::Json => {
            if let Err(code) = print_json(&Report::of(&outcomes, &apart)) {
                return code;
            }
        }
        CheckFormat::Text => print(&text(&outcomes, &apart, alone)),
        CheckFormat::Line => print(&lines(&outcomes, &apart)),
    }
    let unusable = || outcomes.iter().filter_map(|outcome| outcome.unusable.as_ref());
    for unusable in unusable() {
        eprintln!("finwright: {}: {}", printable(&unusable.path), unusable.reason);
    }
    if unusable().next().is_some() {
        return ExitCode::from(UNUSABLE);
    }
    let passes = outcomes.iter().all(|outcome| outcome.report.verdict.may_pass());
    ExitCode::from(u8::from(!passes || apart.has_errors()))
}

/// What came of one path.
pub struct Outcome {
    report: FileReport,
    /// Its findings in the format that is asked for, without those that are told elsewhere.
    text: String,
    /// Its verdict in sentences.
    judged: String,
    found: Vec<render::Object>,
    /// The file's path from the root.
    real: PathBuf,
    /// The files that it uses, by their paths from the root.
    uses: Vec<PathBuf>,
    /// What is found in it and stands in another file.
    elsewhere: Vec<apart::Fault>,
    unusable: Option<Unusable>,
}

impl Outcome {
    fn unusable(path: String, reason: String) -> Outcome {
        Outcome {
            report: FileReport::unusable(&path),
            text: String::new(),
            judged: String::new(),
            found: Vec::new(),
            real: PathBuf::new(),
            uses: Vec::new(),
            elsewhere: Vec::new(),
            unusable: Some(Unusable { path, reason }),
        }
    }
}

fn look_at(path: &Path, wish: Wish, alone: bool) -> Outcome {
    let input = read(path).in_units(wish.units);
    let snapshot = match input.snapshot {
        Ok(snapshot) => snapshot,
        Err(reason) => return Outcome::unusable(input.shown, reason),
    };
    let mut analysis = analyze(&snapshot);
    if alone && is_rocket_without_flight(&analysis) && !users_beside(path).is_empty() {
        analysis.take_as_library();
    }
    with(analysis.settings.units, || outcome(&input.shown, finwright_disk::real_path(path), &snapshot, &analysis, wish))
}

fn outcome(shown: &str, real: PathBuf, snapshot: &Snapshot, analysis: &Analysis, wish: Wish) -> Outcome {
    let (told_elsewhere, own): (Vec<&Finding>, Vec<&Finding>) =
        analysis.findings.iter().partition(|finding| apart::is_elsewhere(finding));
    let text = match wish.format {
        CheckFormat::Text => render::graphical(shown, analysis, &own),
        CheckFormat::Line => render::lines(shown, analysis, &own),
        CheckFormat::Json => String::new(),
    };
    let found = match wish.format {
        CheckFormat::Json => render::objects(shown, snapshot, analysis, &own),
        _ => Vec::new(),
    };
    Outcome {
        report: FileReport::of(shown, analysis),
        text,
        judged: if wish.format == CheckFormat::Text { in_sentences(shown, analysis, wish.made) } else { String::new() },
        found,
        uses: analysis.design.files.iter().skip(2).map(|file| finwright_disk::real_path(&file.path)).collect(),
        elsewhere: told_elsewhere.into_iter().filter_map(|finding| apart::Fault::of(analysis, finding)).collect(),
        real,
        unusable: None,
    }
}

fn is_rocket_without_flight(analysis: &Analysis) -> bool {
    analysis.design.flights.is_empty() && analysis.verdict == Verdict::NotChecked
}

/// A file without flights that another one uses is a library.
fn make_libraries(outcomes: &mut [Outcome]) {
    let used: Vec<PathBuf> = outcomes.iter().flat_map(|outcome| outcome.uses.iter().cloned()).collect();
    for outcome in outcomes.iter_mut().filter(|outcome| outcome.report.may_be_library && used.contains(&outcome.real)) {
        outcome.report.take_as_library();
        let shown = printable(&outcome.report.path);
        outcome.judged = format!("{shown}: {}\n", Verdict::Library.words());
        outcome.text = String::new();
        outcome.found.clear();
    }
}

/// A file's verdict, its flights', and what belongs to them.
fn in_sentences(shown: &str, analysis: &Analysis, made: bool) -> String {
    let reason = match (&analysis.reason, analysis.design.flights.is_empty()) {
        (Some(reason), true) => format!(": {}", reason.in_words()),
        _ => String::new(),
    };
    let mut out = hanging(&format!("{}: {}{reason}", printable(shown), analysis.verdict.words()), "", "  ", measure());
    out.push('\n');
    let flights = analysis.design.flights.iter().zip(&analysis.flights);
    let flights = flights.map(|(flight, judgement)| flight_in_words(&flight.name.value, judgement));
    let made = made.then(|| format!("checks made: {}", analysis.made().join(", ")));
    for line in flights.chain(judged::beside(analysis)).chain(made) {
        out += &(hanging(&line, "  ", "    ", measure()) + "\n");
    }
    out
}

fn text(outcomes: &[Outcome], apart: &Apart, alone: bool) -> String {
    let mut out = String::new();
    for outcome in outcomes.iter().filter(|outcome| outcome.unusable.is_none()) {
        out += &outcome.text;
        // In a long list what meets the checks is counted, and the rest told.
        let told = alone || outcome.report.verdict <= Verdict::LookAtIt || outcome.report.counts.allowed > 0;
        if told {
            out += &outcome.judged;
            out.push('\n');
        }
    }
    out += &apart.text();
    // The closing brings its own empty line.
    out.truncate(out.trim_end_matches('\n').len());
    out.push('\n');
    let total = Tally::of(outcomes, apart);
    if total.files > 0 {
        out += &closing(&total.in_words());
    }
    // With nothing before it the closing needs no empty line.
    out.trim_start_matches('\n').to_string()
}

fn lines(outcomes: &[Outcome], apart: &Apart) -> String {
    let mut out = String::new();
    for outcome in outcomes.iter().filter(|outcome| outcome.unusable.is_none()) {
        let reason = outcome.report.reason.as_ref().map_or(String::new(), |reason| format!(": {}", reason.rule));
        out += &outcome.text;
        out += &format!("{}: {}{reason}\n", printable(&outcome.report.path), outcome.report.verdict.words());
    }
    out + &apart.lines()
}
