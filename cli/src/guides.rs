//! `finwright guides`: every pad at hand compared for the rocket and its motors, and where guides go on the airframe.

pub mod asked;
mod csv;
mod lengths;
mod motors;
mod page;
mod places;
mod report;
mod said;
mod text;

use crate::output::{print, print_json, unusable};
use crate::GuidesFormat;
use asked::asked;
use finwright_advice::{compare, Candidate, Wish};
use finwright_units::reader::with;
use finwright_units::Units;
use std::path::Path;
use std::process::ExitCode;

pub struct Wishes<'a> {
    pub wind: Option<&'a str>,
    pub motor: Option<&'a str>,
    pub motors: Option<&'a Path>,
    pub pads: Option<&'a Path>,
    pub site: Option<&'a str>,
    pub length: Option<&'a str>,
    pub all: bool,
    pub format: GuidesFormat,
    pub units: Option<Units>,
}

/// Ends with 1 where no pad meets the checks or is worth a look.
pub fn guides(path: &Path, wishes: &Wishes) -> ExitCode {
    let asked = match asked(path, wishes) {
        Ok(asked) => asked,
        Err(reason) => return unusable(&reason),
    };
    let units = asked.own.settings.units;
    let wish = asked.wish();
    // A row a pad has no place for lengths.
    let wish = if wishes.format == GuidesFormat::Csv { Wish { winds: &[], ..wish } } else { wish };
    let found = with(units, || compare(asked.analysis(), &wish));
    match wishes.format {
        GuidesFormat::Json => {
            if let Err(code) = print_json(&report::report(&asked, &found)) {
                return code;
            }
        }
        GuidesFormat::Csv => print(&csv::csv(&found)),
        GuidesFormat::Markdown => print(&with(units, || page::page(&asked, &found))),
        GuidesFormat::Text => print(&with(units, || text::text(&asked, &found))),
    }
    let any = found.iter().any(|comparison| comparison.candidates.iter().any(Candidate::may_pass));
    ExitCode::from(u8::from(!any))
}
