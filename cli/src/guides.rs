//! `finwright guides`: every pad at hand compared for the rocket and its motors, and where guides go on the airframe.

mod csv;
mod page;
mod places;
mod report;
mod said;
mod text;

use crate::collect::read;
use crate::output::{print, print_json, unusable};
use crate::GuidesFormat;
use finwright_advice::compare::{compare, Wish};
use finwright_advice::Candidate;
use finwright_checks::analyze;
use finwright_units::reader::with;
use finwright_units::{parse, Dimension, Units};
use std::path::Path;
use std::process::ExitCode;

pub struct Wishes<'a> {
    pub wind: Option<&'a str>,
    pub motor: Option<&'a str>,
    pub all: bool,
    pub format: GuidesFormat,
    pub units: Option<Units>,
}

/// Ends with 1 where no pad meets the checks or is worth a look.
pub fn guides(path: &Path, wishes: &Wishes) -> ExitCode {
    let wind = match wishes.wind.map(speed) {
        Some(Err(reason)) => return unusable(&reason),
        Some(Ok(wind)) => Some(wind),
        None => None,
    };
    let input = read(path).in_units(wishes.units);
    let analysis = match input.snapshot {
        Ok(snapshot) => analyze(&snapshot),
        Err(reason) => return unusable(&format!("{}: {reason}", input.shown)),
    };
    let design = &analysis.design;
    if let Some(motor) = wishes.motor.filter(|name| !design.motors.iter().any(|m| m.name.value == **name)) {
        let known: Vec<&str> = design.motors.iter().map(|m| m.name.value.as_str()).collect();
        return unusable(&format!("{}: there is no motor {motor}; known are {}", input.shown, known.join(", ")));
    }
    let units = analysis.settings.units;
    let found = with(units, || compare(&analysis, &Wish { wind, motor: wishes.motor, ladder: wishes.all }));
    match wishes.format {
        GuidesFormat::Json => {
            if let Err(code) = print_json(&report::report(&input.shown, &analysis, &found)) {
                return code;
            }
        }
        GuidesFormat::Csv => print(&csv::csv(&found)),
        GuidesFormat::Markdown => print(&with(units, || page::page(&input.shown, &analysis, &found, wind))),
        GuidesFormat::Text => print(&with(units, || text::text(&input.shown, &analysis, &found, wind))),
    }
    let any = found.iter().any(|comparison| comparison.candidates.iter().any(Candidate::may_pass));
    ExitCode::from(u8::from(!any))
}

/// A speed as the language writes it: `6 m/s`, `12mph`.
fn speed(text: &str) -> Result<f64, String> {
    let speed = parse(text, Dimension::SPEED).ok().filter(|speed| speed.is_finite() && *speed >= 0.0);
    speed.ok_or_else(|| format!("`{text}` isn't a speed; write it as 6m/s or 12mph"))
}
