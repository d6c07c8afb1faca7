//! For a reader: findings drawn with their lines, or one a line, verdicts and a closing count.

use super::Manner;
use crate::check::line::FileResult;
use crate::check::look::{look_at, Wanted};
use crate::check::run::{Run, Words};
use crate::check::tally::Tally;
use crate::layout::{hanging, measure};
use crate::output::{closing, printable};
use finwright_checks::Verdict;
use std::path::Path;

pub fn text(run: &Run, manner: Manner) -> String {
    let mut out = String::new();
    for (file, words) in told(run, manner) {
        words.told.iter().for_each(|told| out += &told.drawn);
        // In a long list what meets the checks is counted, and the rest told; what is known already isn't again.
        let told = run.alone || file.report.verdict <= Verdict::LookAtIt || file.report.counts.allowed > 0;
        let is_known = file.excused || (file.known > 0 && file.findings.is_empty() && !file.fails());
        if told && !is_known {
            out += &words.judged;
            out.push('\n');
        }
    }
    for used in &run.results.in_used {
        let look = look_at(Path::new(&used.file), &Wanted { drawn: true, units: run.units, ..Wanted::default() });
        look.told.iter().for_each(|told| out += &told.drawn);
        out += &(hanging(&used.in_words(), "", "  ", measure()) + "\n\n");
    }
    for fault in &run.results.shared {
        out += &(fault.text() + "\n");
    }
    for gone in &run.results.gone {
        out += &(hanging(&gone.in_words(), "", "  ", measure()) + "\n");
    }
    // The closing brings its own empty line.
    out.truncate(out.trim_end_matches('\n').len());
    if !out.is_empty() {
        out.push('\n');
    }
    let total = Tally::of(&run.results);
    if total.files > 0 && !manner.quiet {
        out += &closing(&total.in_words());
    }
    // With nothing before it the closing needs no empty line.
    out.trim_start_matches('\n').to_string()
}

pub fn lines(run: &Run, manner: Manner) -> String {
    let mut out = String::new();
    for (file, words) in told(run, manner) {
        let reason = file.report.reason.as_ref().map_or(String::new(), |reason| format!(": {}", reason.rule));
        words.told.iter().for_each(|told| out += &told.line);
        let known = if file.excused { " (known from the baseline)" } else { "" };
        out += &format!("{}: {}{reason}{known}\n", printable(file.path()), file.report.verdict.words());
    }
    for used in &run.results.in_used {
        let look = look_at(Path::new(&used.file), &Wanted { lines: true, units: run.units, ..Wanted::default() });
        look.told.iter().for_each(|told| out += &told.line);
    }
    run.results.shared.iter().for_each(|fault| out += &fault.line());
    run.results.gone.iter().for_each(|gone| out += &(gone.in_words() + "\n"));
    out
}

/// The files that could be used, with their words; quietly only those that don't pass.
fn told(run: &Run, manner: Manner) -> impl Iterator<Item = (&FileResult, &Words)> {
    let all = run.results.files.iter().zip(&run.words);
    all.filter(move |(file, _)| file.could_be_used() && (!manner.quiet || file.fails()))
}
