//! A run over many designs, or what is left of one in a list of results.

use super::baseline::Baseline;
use super::line::{make_libraries as make_results_libraries, FileResult};
use super::look::{look_at, Look, Told, Wanted};
use super::results::Results;
use super::shared::gather;
use crate::collect::library::uses;
use crate::collect::{from_here, Found};
use crate::progress::Progress;
use finwright_units::Units;
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What came of it, as data and in words.
pub struct Run {
    pub results: Results,
    /// Each file's words, in the files' order.
    pub words: Vec<Words>,
    /// Whether a single file was asked for.
    pub alone: bool,
    /// The reader's units, where they're asked for.
    pub units: Option<Units>,
}

/// What is said of a file.
#[derive(Default)]
pub struct Words {
    pub told: Vec<Told>,
    pub judged: String,
}

/// Look at every design that was found; `others` are those that are looked at elsewhere.
pub fn look_at_all(found: &[Found], others: &[Found], wanted: &Wanted, progress: &Progress) -> Run {
    let mut looks: Vec<Look> = found
        .par_iter()
        .map(|found| {
            let look = match found {
                Ok(path) => look_at(path, wanted),
                Err((path, reason)) => Look::unusable(path.display().to_string(), reason.clone()),
            };
            progress.one_more();
            look
        })
        .collect();
    make_libraries(&mut looks, others);
    looks.sort_by(|a, b| a.result.path().cmp(b.result.path()));
    let alone = looks.len() == 1;
    let (files, words) =
        looks.into_iter().map(|look| (look.result, Words { told: look.told, judged: look.judged })).unzip();
    Run { results: results(files), words, alone, units: wanted.units }
}

/// What is left of runs in a list of their results.
pub fn of_results(mut files: Vec<FileResult>) -> Run {
    make_results_libraries(&mut files);
    let line = |file: &FileResult| Words {
        told: file.findings.iter().map(|finding| Told { drawn: String::new(), line: finding.line() }).collect(),
        judged: String::new(),
    };
    let words = files.iter().map(line).collect();
    Run { alone: files.len() == 1, results: results(files), words, units: None }
}

fn results(files: Vec<FileResult>) -> Results {
    let (shared, in_used) = gather(&files);
    Results { files, shared, in_used, gone: Vec::new() }
}

impl Run {
    /// Leave out what the baseline knows.
    pub fn without_known(&mut self, baseline: &Baseline) {
        let mut matching = baseline.matching();
        for (file, words) in self.results.files.iter_mut().zip(&mut self.words) {
            let known: Vec<bool> = file.findings.iter().map(|found| matching.takes_finding(found)).collect();
            file.known = known.iter().filter(|known| **known).count();
            let grave = |(finding, known): (&crate::object::Object, &bool)| finding.is_grave().then_some(*known);
            let own: Vec<bool> = file.findings.iter().zip(&known).filter_map(grave).collect();
            let elsewhere: Vec<bool> = file.elsewhere.iter().map(|fault| matching.knows_fault(fault)).collect();
            let graves = own.iter().chain(&elsewhere);
            file.excused = !(own.is_empty() && elsewhere.is_empty()) && graves.clone().all(|known| *known);
            file.findings.iter().zip(&known).filter(|(_, known)| **known).for_each(|(finding, _)| {
                file.report.counts.less(finding.level);
            });
            let mut is_new = known.iter().map(|known| !known);
            file.findings.retain(|_| is_new.next().unwrap_or(true));
            let mut is_new = known.iter().map(|known| !known);
            words.told.retain(|_| is_new.next().unwrap_or(true));
        }
        for used in &mut self.results.in_used {
            used.findings.retain(|finding| !matching.takes_finding(finding));
        }
        self.results.in_used.retain(|used| !used.findings.is_empty());
        self.results.shared.retain(|fault| !matching.knows(&fault.file, &fault.rule, &fault.message));
        self.results.gone = matching.left(&self.results);
    }
}

/// A file without flights that another one uses is a library, whichever part of the whole that one is looked at in.
fn make_libraries(looks: &mut [Look], others: &[Found]) {
    if !looks.iter().any(|look| look.result.may_be_library) {
        return;
    }
    let own = looks.iter().flat_map(|look| look.result.uses.iter().cloned());
    let of_others = others.iter().flatten().flat_map(|path| used_by(path));
    let used: BTreeSet<String> = own.chain(of_others).collect();
    looks
        .iter_mut()
        .filter(|look| look.result.may_be_library && used.contains(look.result.real()))
        .for_each(Look::take_as_library);
}

/// The files that a design uses, and those that these use.
fn used_by(design: &Path) -> Vec<String> {
    let mut known: BTreeSet<PathBuf> = BTreeSet::new();
    let mut open = uses(design);
    while let Some(file) = open.pop() {
        if known.insert(file.clone()) {
            open.extend(uses(&file));
        }
    }
    known.iter().map(|file| from_here(file).display().to_string()).collect()
}
