//! `finwright day`: the officer's table, a line a rocket, in today's wind on the club's pads.

mod csv;
mod line;
mod order;
mod page;
mod said;
mod text;

use crate::collect::{find, read};
use crate::guides::asked::asked;
use crate::guides::Wishes;
use crate::output::{print, printable, unusable, UNUSABLE};
use crate::{DayFormat, GuidesFormat, PaperSize};
use finwright_checks::{analyze, Verdict};
use finwright_units::reader::with;
use finwright_units::Units;
use line::{lines, tell_apart, Line};
use rayon::prelude::*;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What is wished for.
pub struct Wish<'a> {
    pub pads: Option<&'a Path>,
    pub wind: Option<&'a str>,
    pub site: Option<&'a str>,
    pub format: DayFormat,
    pub output: Option<&'a Path>,
    pub paper: PaperSize,
    pub units: Option<Units>,
}

/// The day: every rocket with its motor, in the order in which they stop as the wind rises.
pub struct Day {
    pub lines: Vec<Line>,
    /// The wind that was asked for, as it was written.
    pub wind: Option<String>,
    /// The file of pads, as it was named.
    pub pads: Option<String>,
}

/// Ends with 1 where a rocket may not fly today as it is, as far as the checks can tell.
pub fn day(paths: &[PathBuf], wish: &Wish) -> ExitCode {
    let found = find(paths);
    let site = match site(wish) {
        Ok(site) => site,
        Err(reason) => return unusable(&reason),
    };
    let looked: Vec<Result<Vec<Line>, String>> = found
        .into_par_iter()
        .map(|path| {
            let path = path.map_err(|(path, reason)| format!("{}: {reason}", path.display()))?;
            of(&path, wish, site.as_deref())
        })
        .collect();
    let mut refused = Vec::new();
    let mut lines = Vec::new();
    for one in looked {
        match one {
            Ok(more) => lines.extend(more),
            Err(reason) => refused.push(reason),
        }
    }
    refused.iter().for_each(|reason| eprintln!("finwright: {}", printable(reason)));
    if lines.is_empty() {
        return unusable("there is no rocket to list");
    }
    tell_apart(&mut lines);
    order::by_wind(&mut lines);
    let name = |path: &Path| path.display().to_string();
    let day = Day { lines, wind: wish.wind.map(str::to_string), pads: wish.pads.map(name) };
    let units = wish.units.unwrap_or_else(|| crate::collect::own_settings().units);
    if let Err(reason) = with(units, || written(&day, wish)) {
        return unusable(&reason);
    }
    match refused.is_empty() {
        true => ExitCode::from(u8::from(!day.lines.iter().all(Line::may_fly))),
        false => ExitCode::from(UNUSABLE),
    }
}

fn written(day: &Day, wish: &Wish) -> Result<(), String> {
    let ending = wish.output.and_then(|output| output.extension()).map(|e| e.to_string_lossy().to_lowercase());
    match (wish.output, ending.as_deref()) {
        (None, _) if wish.format == DayFormat::Csv => print(&csv::csv(day)?),
        (None, _) => print(&text::text(day)),
        (Some(output), Some("csv")) => crate::written::write(output, csv::csv(day)?.as_bytes())?,
        (Some(output), Some("txt")) => crate::written::write(output, text::text(day).as_bytes())?,
        (Some(output), Some("pdf" | "html" | "htm")) => page::page(day, output, wish.paper.into())?,
        (Some(output), _) => {
            return Err(format!("{}: the day's list is written as .pdf, .html, .csv or .txt", output.display()))
        }
    }
    Ok(())
}

/// The field: the site that is asked for, else the only one in the file of pads.
fn site(wish: &Wish) -> Result<Option<String>, String> {
    let (Some(pads), None) = (wish.pads, wish.site) else { return Ok(wish.site.map(str::to_string)) };
    let input = read(pads);
    let analysis = analyze(&input.snapshot.map_err(|reason| format!("{}: {reason}", input.shown))?);
    let own: Vec<_> = analysis.design.sites.iter().filter(|site| site.name.place.file.0 == 0).collect();
    Ok(match own.as_slice() {
        [only] => Some(only.name.value.clone()),
        _ => None,
    })
}

/// The lines of a design, one for each motor that it flies.
fn of(path: &Path, wish: &Wish, site: Option<&str>) -> Result<Vec<Line>, String> {
    // CSV is in SI for every reader.
    let is_csv =
        wish.output.map_or(wish.format == DayFormat::Csv, |output| output.extension().is_some_and(|e| e == "csv"));
    let units = if is_csv { Some(Units::Si) } else { wish.units };
    let own = read(path).in_units(units);
    let analysis = analyze(&own.snapshot.map_err(|reason| format!("{}: {reason}", own.shown))?);
    if analysis.verdict == Verdict::Library {
        return Ok(Vec::new());
    }
    let wishes = Wishes {
        wind: wish.wind,
        motor: None,
        motors: None,
        pads: wish.pads,
        site,
        length: None,
        all: false,
        format: GuidesFormat::Text,
        units,
    };
    let asked = asked(path, &wishes)?;
    Ok(with(asked.own.settings.units, || lines(&asked)))
}
