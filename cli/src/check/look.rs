//! One design looked at: what is found in it, as data and as drawn.

use super::file::FileReport;
use super::line::{FileResult, VERSION};
use super::shared::{fault, is_elsewhere, name_from_here};
use crate::collect::library::is_used_beside;
use crate::collect::{from_here, read_as};
use crate::judged;
use crate::layout::{hanging, measure};
use crate::object::{objects, Places};
use crate::output::{harmless, printable};
use crate::render;
use finwright_checks::{analyze, flight_in_words, Analysis, Finding, Snapshot, Verdict};
use finwright_units::reader::with;
use finwright_units::Units;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What is wanted of each design.
#[derive(Clone, Default)]
pub struct Wanted {
    /// Findings drawn with their lines, and verdicts in sentences.
    pub drawn: bool,
    /// Findings on a line each.
    pub lines: bool,
    /// What programs read: SI, whoever asks.
    pub for_programs: bool,
    /// The edits that would mend a finding, too.
    pub fixes: bool,
    /// The checks that were made, in the sentences.
    pub made: bool,
    /// The reader's units, where they're asked for.
    pub units: Option<Units>,
    /// What the text on standard input is called.
    pub piped: Option<PathBuf>,
}

/// What came of one design.
pub struct Look {
    pub result: FileResult,
    /// Each of its findings in words, in the order of the result's.
    pub told: Vec<Told>,
    /// Its verdict in sentences.
    pub judged: String,
}

/// A finding in words.
#[derive(Default)]
pub struct Told {
    pub drawn: String,
    pub line: String,
}

impl Look {
    pub fn unusable(path: String, reason: String) -> Look {
        Look { result: FileResult::unusable(path, reason), told: Vec::new(), judged: String::new() }
    }

    /// Take it for a library: its verdict is that, and what it was told to lack isn't told.
    pub fn take_as_library(&mut self) {
        let kept = |rule: &str| rule != finwright_checks::rules::file::not_checked::NOT_CHECKED.name;
        let rules: Vec<bool> = self.result.findings.iter().map(|finding| kept(&finding.rule)).collect();
        let mut rules = rules.into_iter();
        self.told.retain(|_| rules.next().unwrap_or(true));
        self.result.take_as_library();
        self.judged = format!("{}: {}\n", printable(self.result.path()), Verdict::Library.words());
    }
}

/// Look at a design.
pub fn look_at(path: &Path, wanted: &Wanted) -> Look {
    let input = read_as(path, wanted.piped.as_deref());
    let (shown, real) = (input.shown.clone(), input.real.clone());
    let si = wanted.for_programs.then_some(Units::Si);
    let for_reader = match input.in_units(wanted.units).snapshot {
        Ok(snapshot) => snapshot,
        Err(reason) => return Look::unusable(shown, reason),
    };
    let is_for_reader = wanted.drawn || wanted.lines;
    // Who asks for words and for data gets each in its own units.
    let differ = si.is_some_and(|si| si != for_reader.settings.units);
    let for_data = match si.filter(|_| differ) {
        Some(si) => {
            let settings = Arc::new(for_reader.settings.as_ref().clone().in_units(si));
            Snapshot { settings, ..for_reader.clone() }
        }
        None => for_reader.clone(),
    };
    let analysis = analyze(&for_data);
    let result = result(&shown, &real, &for_data, &analysis, wanted);
    let (told, judged) = match (is_for_reader, differ) {
        (false, _) => (Vec::new(), String::new()),
        (true, false) => in_words(&shown, &analysis, wanted),
        (true, true) => in_words(&shown, &analyze(&for_reader), wanted),
    };
    let mut look = Look { result, told, judged };
    if look.result.may_be_library && is_used_beside(&real) {
        look.take_as_library();
    }
    look
}

fn result(shown: &str, real: &Path, snapshot: &Snapshot, analysis: &Analysis, wanted: &Wanted) -> FileResult {
    let places = Places::of(shown, analysis);
    let own: Vec<&Finding> = analysis.findings.iter().filter(|finding| !is_elsewhere(finding)).collect();
    let elsewhere = analysis.findings.iter().filter(|finding| is_elsewhere(finding));
    let real = from_here(real).display().to_string();
    FileResult {
        report: FileReport::of(shown, analysis, &places, wanted.for_programs),
        version: VERSION,
        findings: with(analysis.settings.units, || objects(&places, snapshot, &own, wanted.fixes)),
        elsewhere: elsewhere.filter_map(|finding| fault(snapshot, analysis, finding, wanted.fixes)).collect(),
        uses: analysis.design.files.iter().skip(2).map(|file| name_from_here(&file.path)).collect(),
        leads_to: Some(real).filter(|_| snapshot.path.is_symlink()),
        may_be_library: analysis.design.flights.is_empty() && analysis.verdict == Verdict::NotChecked,
        unusable: None,
        known: 0,
        excused: false,
    }
}

/// The design's own findings and its verdict, in words.
fn in_words(shown: &str, analysis: &Analysis, wanted: &Wanted) -> (Vec<Told>, String) {
    with(analysis.settings.units, || {
        let own: Vec<&Finding> = analysis.findings.iter().filter(|finding| !is_elsewhere(finding)).collect();
        let mut told: Vec<Told> = own.iter().map(|_| Told::default()).collect();
        if wanted.drawn {
            let drawn = render::graphical(shown, analysis, &own);
            told.iter_mut().zip(drawn).for_each(|(told, drawn)| told.drawn = drawn);
        }
        if wanted.lines {
            let lines = render::lines(shown, analysis, &own);
            told.iter_mut().zip(lines).for_each(|(told, line)| told.line = line);
        }
        let judged = if wanted.drawn { in_sentences(shown, analysis, wanted.made) } else { String::new() };
        let judged = harmless(&judged).into_owned();
        (told, judged)
    })
}

/// A file's verdict, its flights', and what belongs to them.
fn in_sentences(shown: &str, analysis: &Analysis, made: bool) -> String {
    let reason = match (&analysis.reason, analysis.design.flights.is_empty()) {
        (Some(reason), true) => format!(": {}", reason.in_words()),
        _ => String::new(),
    };
    let mut out = hanging(&format!("{}: {}{reason}", printable(shown), analysis.verdict.words()), "", "  ", measure());
    out.push('\n');
    let flights = analysis.design.flights.iter().enumerate();
    let flights = flights.map(|(number, flight)| flight_in_words(analysis, number, &flight.name.value));
    let made = made.then(|| format!("checks made: {}", analysis.made().join(", ")));
    for line in flights.chain(judged::beside(analysis)).chain(made) {
        out += &(hanging(&line, "  ", "    ", measure()) + "\n");
    }
    out
}
