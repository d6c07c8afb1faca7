//! `--fix`: designs mended as far as edits are known that hold.

use crate::collect::pick::Files;
use crate::collect::{is_stdin, read};
use crate::output::{print, printable, Manners, UNUSABLE};
use crate::replace::{difference, link, replace};
use finwright_checks::offer::applied;
use finwright_checks::{analyze, offered, Analysis, Fix, Snapshot};
use finwright_grammar::FileId;
use finwright_units::reader::with;
use rayon::prelude::*;
use std::path::Path;
use std::process::ExitCode;

/// More edits aren't made in one file: a design with so many slips is better read first.
const MOST: usize = 200;

/// Mend the designs, or show what would change. What is told goes to standard output with the difference, else to
/// standard error, beside what the check says of the mended text.
pub fn mend(files: &Files, only_show: bool, manners: Manners) -> Result<ExitCode, String> {
    let found = files.find()?;
    if found.iter().flatten().any(|path| is_stdin(path)) {
        return Err("--fix writes to files, and standard input isn't one".to_string());
    }
    let done: Vec<Result<String, String>> = found
        .par_iter()
        .map(|found| match found {
            Ok(path) => one(path, only_show),
            Err((path, reason)) => Err(format!("{}: {reason}", path.display())),
        })
        .collect();
    let mut code = 0;
    let mut any = false;
    for one in done {
        match one {
            Ok(told) if only_show => print(&told),
            Ok(told) => {
                any |= !told.is_empty();
                if !manners.quiet {
                    eprint!("{told}");
                }
            }
            // The check that follows tells it once more, with its exit status.
            Err(reason) if only_show => {
                eprintln!("finwright: {}", printable(&reason));
                code = UNUSABLE;
            }
            Err(_) => {}
        }
    }
    if any && !manners.quiet {
        eprintln!("A fix changes what the file says: change the rocket and its pad alike before it flies.");
    }
    Ok(ExitCode::from(code))
}

/// One design: what was done, a line an edit, or the difference.
fn one(path: &Path, only_show: bool) -> Result<String, String> {
    if let Some(told) = link(path).filter(|_| !only_show) {
        return Ok(told + ": mend that file\n");
    }
    let input = read(path);
    let shown = input.shown;
    let snapshot = input.snapshot?;
    let before = snapshot.text.clone();
    let units = snapshot.settings.units;
    let (after, told) = with(units, || mended(snapshot));
    if told.is_empty() {
        return Ok(String::new());
    }
    if only_show {
        return Ok(difference(&shown, &before, &after.text));
    }
    replace(path, &after.text)?;
    Ok(told.iter().map(|told| format!("{}: {}\n", printable(&shown), printable(told))).collect())
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
