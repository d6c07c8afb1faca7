//! `--fix`: designs mended as far as edits are known that hold.

use crate::collect::pick::Files;
use crate::collect::{is_stdin, read};
use crate::output::{print_as_it_is, printable, Manners};
use crate::replace::{difference, link, replace};
use finwright_checks::offer::applied;
use finwright_checks::{analyze, offered, Analysis, Fix, Snapshot};
use finwright_grammar::FileId;
use finwright_units::reader::with;
use rayon::prelude::*;
use std::path::Path;

/// More edits aren't made in one file: a design with so many slips is better read first.
const MOST: usize = 200;

/// Mend the designs, or show what would change; whether all could be written. What was done goes to standard error,
/// beside what the check says of the mended text.
pub fn mend(files: &Files, only_show: bool, manners: Manners) -> Result<bool, String> {
    let found = files.find()?;
    if found.iter().flatten().any(|path| is_stdin(path)) {
        return Err("--fix writes to files, and standard input isn't one".to_string());
    }
    let all: Vec<(&Path, Mended)> =
        found.par_iter().flatten().map(|path| (path.as_path(), one(path, only_show))).collect();
    let (mut all_written, mut any) = (true, false);
    for (path, mended) in all {
        let shown = printable(&path.display().to_string());
        match mended {
            Mended::Shown(difference) => print_as_it_is(&difference),
            Mended::Nothing | Mended::Written(_) if manners.quiet => {}
            Mended::Nothing => {}
            Mended::Written(told) => {
                any = true;
                told.iter().for_each(|told| eprintln!("{shown}: {}", printable(told)));
            }
            Mended::Link(told) => eprintln!("{told}: mend that file"),
            Mended::Unwritten(reason) => {
                eprintln!("finwright: {shown}: {reason}");
                all_written = false;
            }
        }
    }
    if any {
        eprintln!("A fix changes what the file says: change the rocket and its pad alike before it flies.");
    }
    Ok(all_written)
}

/// What became of a design.
enum Mended {
    /// There is nothing to mend, or it can't be read, which the check tells.
    Nothing,
    /// What would change.
    Shown(String),
    /// What was done, an edit each.
    Written(Vec<String>),
    /// It's a link, and where it leads to.
    Link(String),
    /// It can't be written, and why.
    Unwritten(String),
}

fn one(path: &Path, only_show: bool) -> Mended {
    if let Some(told) = link(path).filter(|_| !only_show) {
        return Mended::Link(told);
    }
    let input = read(path);
    let Ok(snapshot) = input.snapshot else { return Mended::Nothing };
    let before = snapshot.text.clone();
    let units = snapshot.settings.units;
    let (after, told) = with(units, || mended(snapshot));
    if told.is_empty() {
        return Mended::Nothing;
    }
    if only_show {
        return Mended::Shown(difference(&input.shown, &before, &after.text));
    }
    match replace(path, &after.text) {
        Ok(()) => Mended::Written(told),
        Err(reason) => Mended::Unwritten(reason),
    }
}

/// The design with every edit that holds, one at a time, each finding's first one; and what each of them did.
fn mended(mut snapshot: Snapshot) -> (Snapshot, Vec<String>) {
    let mut told = Vec::new();
    let mut analysis = analyze(&snapshot);
    while told.len() < MOST {
        let Some((rule, fix)) = next(&snapshot, &analysis) else { break };
        let Some(after) = applied(&snapshot, &analysis, fix) else { break };
        told.push(format!("{}: {rule}", fix.title));
        snapshot = after;
        analysis = analyze(&snapshot);
    }
    (snapshot, told)
}

/// The first finding's first edit that holds and stays in the file itself.
fn next<'a>(snapshot: &Snapshot, analysis: &'a Analysis) -> Option<(&'static str, &'a Fix)> {
    let own = |fix: &&&Fix| fix.edits.iter().all(|edit| edit.place.file == FileId(0));
    let found = analysis.findings.iter().filter(|finding| !finding.fixes.is_empty());
    found.filter_map(|finding| Some((finding.rule, *offered(snapshot, analysis, finding).iter().find(own)?))).next()
}
