//! `finwright diff`: what a change does to designs: their numbers, their verdicts, what is found in them.

mod change;
mod figures;
mod findings;
mod git;
mod markdown;
mod pairs;
mod parts;
mod report;
mod side;
mod text;
mod words;

use crate::output::{print, print_json, printable, unusable, UNUSABLE};
use crate::DiffFormat;
use finwright_units::reader::with;
use finwright_units::Units;
pub use report::Report;
use side::Side;
use std::path::Path;
use std::process::ExitCode;

/// How the comparison is written, and for whom.
#[derive(Clone, Copy)]
pub struct Wish {
    pub format: DiffFormat,
    pub units: Option<Units>,
}

/// Ends with 1 where a flight's verdict is worse than before, or a new one may not fly as it is.
pub fn diff(old: &Path, new: &Path, wish: Wish) -> ExitCode {
    let sides = Side::read(old, wish.units).and_then(|old| Ok((old, Side::read(new, wish.units)?)));
    let (old, new) = match sides {
        Ok(sides) => sides,
        Err(reason) => return unusable(&reason),
    };
    let report = match report::report(old, new) {
        Ok(report) => report,
        Err(reason) => return unusable(&reason),
    };
    let units = wish.units.unwrap_or_else(|| crate::collect::own_settings().units);
    match wish.format {
        DiffFormat::Json => {
            if let Err(code) = print_json(&report) {
                return code;
            }
        }
        DiffFormat::Text => print(&with(units, || text::text(&report))),
        DiffFormat::Markdown => print(&with(units, || markdown::markdown(&report))),
    }
    for unusable in &report.unusable {
        eprintln!("finwright: {}: {}", printable(&unusable.path), printable(&unusable.reason));
    }
    match report.unusable.is_empty() {
        true => ExitCode::from(u8::from(report.worse)),
        false => ExitCode::from(UNUSABLE),
    }
}
