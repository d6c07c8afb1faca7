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
use crate::Reader;
use clap::{Args, ValueEnum};
use finwright_units::reader::with;
pub use report::Report;
use side::Side;
use std::path::PathBuf;
use std::process::ExitCode;

/// What is asked.
#[derive(Args)]
pub struct Diff {
    /// A file, a folder, or either of them in a git revision: REV:PATH.
    old: PathBuf,
    /// The same after the change.
    new: PathBuf,
    /// How the comparison is written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    reader: Reader,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Tables and lists.
    Text,
    /// One JSON object, SI numbers.
    Json,
    /// For a pull request.
    Markdown,
}

/// Ends with 1 where a flight's verdict is worse than before, or a new one may not fly as it is.
pub fn diff(asked: &Diff) -> ExitCode {
    let units = asked.reader.units(asked.format == Format::Json);
    let sides = Side::read(&asked.old, units).and_then(|old| Ok((old, Side::read(&asked.new, units)?)));
    let (old, new) = match sides {
        Ok(sides) => sides,
        Err(reason) => return unusable(&reason),
    };
    let report = match report::report(old, new) {
        Ok(report) => report,
        Err(reason) => return unusable(&reason),
    };
    let units = units.unwrap_or_else(|| crate::collect::own_settings().units);
    match asked.format {
        Format::Json => {
            if let Err(code) = print_json(&report) {
                return code;
            }
        }
        Format::Text => print(&with(units, || text::text(&report))),
        Format::Markdown => print(&with(units, || markdown::markdown(&report))),
    }
    for unusable in &report.unusable {
        eprintln!("finwright: {}: {}", printable(&unusable.path), printable(&unusable.reason));
    }
    match report.unusable.is_empty() {
        true => ExitCode::from(u8::from(report.worse)),
        false => ExitCode::from(UNUSABLE),
    }
}
