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
use crate::{GuidesFormat, PaperSize, Reader};
use clap::{Args, ValueEnum};
use finwright_checks::{analyze, Verdict};
use finwright_units::reader::with;
use line::{lines, tell_apart, Line};
use rayon::prelude::*;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What is asked.
#[derive(Args)]
pub struct Day {
    /// The designs, or folders of them.
    #[arg(required = true)]
    designs: Vec<PathBuf>,
    /// A file of pads, a club's: each rocket flies from the best of them. A site in it is the field.
    #[arg(long, value_name = "FILE")]
    pads: Option<PathBuf>,
    /// Today's steady wind, such as 4m/s or 9mph; gusts keep the site's proportion.
    #[arg(long, value_name = "SPEED")]
    wind: Option<String>,
    /// The field, where the file of pads has several sites.
    #[arg(long, value_name = "NAME")]
    site: Option<String>,
    /// How the list is written to standard output.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// The file to write: .pdf, .html, .csv or .txt.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// The paper.
    #[arg(long, value_enum, default_value_t = PaperSize::A4)]
    paper: PaperSize,
    #[command(flatten)]
    reader: Reader,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Sentences and a table.
    Text,
    /// SI numbers, a row a rocket.
    Csv,
}

/// Every rocket with its motor, in the order in which they stop as the wind rises.
pub struct List {
    pub lines: Vec<Line>,
    /// The wind that was asked for, as it was written.
    pub wind: Option<String>,
    /// The file of pads, as it was named.
    pub pads: Option<String>,
}

/// Ends with 1 where a rocket may not fly today as it is, as far as the checks can tell.
pub fn day(asked: &Day) -> ExitCode {
    let found = find(&asked.designs);
    let site = match site(asked) {
        Ok(site) => site,
        Err(reason) => return unusable(&reason),
    };
    let looked: Vec<Result<Vec<Line>, String>> = found
        .into_par_iter()
        .map(|path| {
            let path = path.map_err(|(path, reason)| format!("{}: {reason}", path.display()))?;
            of(&path, asked, site.as_deref())
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
    let list = List { lines, wind: asked.wind.clone(), pads: asked.pads.as_deref().map(name) };
    let units = asked.reader.units(asked.is_csv()).unwrap_or_else(|| crate::collect::own_settings().units);
    if let Err(reason) = with(units, || written(&list, asked)) {
        return unusable(&reason);
    }
    match refused.is_empty() {
        true => ExitCode::from(u8::from(!list.lines.iter().all(Line::may_fly))),
        false => ExitCode::from(UNUSABLE),
    }
}

impl Day {
    /// Whether a program reads it: that is in SI for every reader.
    fn is_csv(&self) -> bool {
        match &self.output {
            Some(output) => output.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv")),
            None => self.format == Format::Csv,
        }
    }
}

fn written(list: &List, asked: &Day) -> Result<(), String> {
    let output = asked.output.as_deref();
    let ending = output.and_then(|output| output.extension()).map(|e| e.to_string_lossy().to_lowercase());
    match (output, ending.as_deref()) {
        (None, _) if asked.is_csv() => print(&csv::csv(list)?),
        (None, _) => print(&text::text(list)),
        (Some(output), Some("csv")) => crate::written::write(output, csv::csv(list)?.as_bytes())?,
        (Some(output), Some("txt")) => crate::written::write(output, text::text(list).as_bytes())?,
        (Some(output), Some("pdf" | "html" | "htm")) => page::page(list, output, asked.paper.into())?,
        (Some(output), _) => {
            return Err(format!("{}: the day's list is written as .pdf, .html, .csv or .txt", output.display()))
        }
    }
    Ok(())
}

/// The field: the site that is asked for, else the only one in the file of pads.
fn site(asked: &Day) -> Result<Option<String>, String> {
    let (Some(pads), None) = (&asked.pads, &asked.site) else { return Ok(asked.site.clone()) };
    let input = read(pads);
    let analysis = analyze(&input.snapshot.map_err(|reason| format!("{}: {reason}", input.shown))?);
    let own: Vec<_> = analysis.design.sites.iter().filter(|site| site.name.place.file.0 == 0).collect();
    Ok(match own.as_slice() {
        [only] => Some(only.name.value.clone()),
        _ => None,
    })
}

/// The lines of a design, one for each motor that it flies.
fn of(path: &Path, day: &Day, site: Option<&str>) -> Result<Vec<Line>, String> {
    let units = day.reader.units(day.is_csv());
    let own = read(path).in_units(units);
    let analysis = analyze(&own.snapshot.map_err(|reason| format!("{}: {reason}", own.shown))?);
    if analysis.verdict == Verdict::Library {
        return Ok(Vec::new());
    }
    let wishes = Wishes {
        wind: day.wind.as_deref(),
        motor: None,
        motors: None,
        pads: day.pads.as_deref(),
        site,
        length: None,
        all: false,
        format: GuidesFormat::Text,
        units,
    };
    let asked = asked(path, &wishes)?;
    Ok(with(asked.own.settings.units, || lines(&asked)))
}
