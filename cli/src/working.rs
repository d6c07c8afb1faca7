//! `finwright working`: a number's derivation with a design's own values.

use crate::chosen::chosen;
use crate::collect::read;
use crate::judged;
use crate::layout::measure;
use crate::output::{closing, print, print_json, quoted, unusable, CAUTION};
use crate::WorkingFormat;
use finwright_checks::analyze;
use finwright_checks::flight_in_words;
use finwright_grammar::vocabulary::nearest;
use finwright_units::Units;
use finwright_working::{markdown, text, Lack, Quantity, Working};
use serde::Serialize;
use std::path::Path;
use std::process::ExitCode;

pub fn working(
    path: &Path,
    quantity: Option<&str>,
    flight: Option<&str>,
    format: WorkingFormat,
    units: Option<Units>,
) -> ExitCode {
    let input = read(path).in_units(units);
    let analysis = match input.snapshot {
        Ok(snapshot) => analyze(&snapshot),
        Err(reason) => return unusable(&format!("{}: {reason}", input.shown)),
    };
    let Some(name) = quantity else {
        print(&list(&input.shown));
        return ExitCode::SUCCESS;
    };
    let Some(quantity) = Quantity::named(name) else {
        let names = Quantity::ALL.iter().map(|(_, name, _)| *name);
        let near = nearest(name, names.clone());
        let known = || format!("known are {}", names.collect::<Vec<_>>().join(", "));
        let hint = near.map_or_else(known, |near| format!("did you mean {near}?"));
        return unusable(&format!("no working is known by the name {name}; {hint}"));
    };
    let number = match chosen(&analysis.design, flight) {
        Ok(number) => number,
        Err(reason) => return unusable(&reason),
    };
    match finwright_working::working(&analysis.design, &analysis.assessment, number, quantity) {
        Err(Lack(needs)) => unusable(&format!("{}: {name} can't be worked: it needs {needs}", input.shown)),
        Ok(page) => {
            let others = if flight.is_none() { others(&page.others) } else { String::new() };
            let others = others + if analysis.settings.units == Units::Si { "" } else { IN_SI };
            let verdict = page.flight.as_deref().map(|name| flight_in_words(&analysis, number, name));
            match format {
                WorkingFormat::Text => {
                    let verdict = verdict.map_or(String::new(), |verdict| closing(&verdict));
                    print(&(text(&page, measure()) + &verdict + &others + &closing(CAUTION)));
                }
                WorkingFormat::Markdown => {
                    let verdict = verdict.map_or(String::new(), |verdict| format!("\n{verdict}\n"));
                    print(&(markdown(&page) + &verdict + &others + "\n" + CAUTION + "\n"));
                }
                WorkingFormat::Json => {
                    let verdict = page.flight.as_ref().and_then(|_| judged::told(&analysis, number, true));
                    if let Err(code) = print_json(&Worked { page: &page, verdict }) {
                        return code;
                    }
                }
            }
            ExitCode::SUCCESS
        }
    }
}

/// A working, with the verdict on its flight.
#[derive(Serialize)]
struct Worked<'a> {
    #[serde(flatten)]
    page: &'a Working,
    #[serde(flatten)]
    verdict: Option<judged::Told>,
}

fn list(shown: &str) -> String {
    let width = Quantity::ALL.iter().map(|(_, name, _)| name.len()).max().unwrap_or(0);
    let lines: String = Quantity::ALL.iter().map(|(_, name, line)| format!("  {name:width$}  {line}\n")).collect();
    format!("Numbers that can be worked, as in `finwright working {} exit-speed`:\n\n{lines}", quoted(shown))
}

/// That the file has more flights than the one that is worked.
fn others(names: &[String]) -> String {
    if names.is_empty() {
        return String::new();
    }
    format!("\nThis is the file's first flight; for another: `--flight {}`\n", names.join("`, or `--flight "))
}

/// Said to a reader of other units: each step's digits follow from those above, which a conversion would break.
const IN_SI: &str = "\nThe steps are in SI units whatever is set, since the formulas hold in them.\n";
