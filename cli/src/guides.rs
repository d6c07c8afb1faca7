//! `finwright guides`: every pad at hand compared for the rocket and its motors, and where guides go on the airframe.

use crate::collect::read;
use crate::layout::table::{Column, Table};
use crate::layout::{self, measure};
use crate::output::{closing, print, print_json, unusable, CAUTION};
use crate::GuidesFormat;
use finwright_advice::compare::{compare, Candidate, Comparison, Wish};
use finwright_advice::supposed::{in_wind, only};
use finwright_advice::table::{self, heading, reading, rows};
use finwright_advice::words::{advice, ceiling_in_words, spoken_of};
use finwright_advice::{place, Hardware, Placement, Verdict};
use finwright_checks::{analyze, Analysis};
use finwright_model::Pad;
use finwright_units::reader::with;
use finwright_units::{parse, show, Dimension, Units};
use std::path::Path;
use std::process::ExitCode;

pub struct Wishes<'a> {
    pub wind: Option<&'a str>,
    pub motor: Option<&'a str>,
    pub all: bool,
    pub format: GuidesFormat,
    pub units: Option<Units>,
}

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
    let wish = Wish { wind, motor: wishes.motor, ladder: wishes.all };
    let units = analysis.settings.units;
    let found = with(units, || compare(design, &analysis.settings, &wish));
    match wishes.format {
        GuidesFormat::Json => {
            if let Err(code) = print_json(&found) {
                return code;
            }
        }
        GuidesFormat::Csv => print(&csv(&found)),
        GuidesFormat::Markdown => print(&with(units, || markdown(&input.shown, &analysis, &found, wind))),
        GuidesFormat::Text => print(&with(units, || text(&input.shown, &analysis, &found, wind))),
    }
    ExitCode::SUCCESS
}

fn text(shown: &str, analysis: &Analysis, found: &[Comparison], wind: Option<f64>) -> String {
    let design = &analysis.design;
    let mut out = format!("{}\n", design.title.as_ref().map_or(shown, |t| t.value.as_str()));
    if found.is_empty() {
        out +=
            "\n  No flight is known whole here, so nothing can be compared; `finwright check` says what is missing.\n";
    }
    for comparison in found {
        out += &format!("\n{}\n\n", layout::paragraph(&heading(comparison), "", measure()));
        out += &aligned(&rows(comparison));
        for candidate in &comparison.candidates {
            out += &hanging(&guides_of(comparison, candidate));
        }
        out += &format!("\n{}\n", wrapped(&advice(comparison)));
        for line in winds(comparison) {
            out += &format!("{}\n", wrapped(&line));
        }
        for line in left_open(comparison) {
            out += &format!("{}\n", wrapped(&line));
        }
    }
    for (what, placement) in placements(analysis, wind) {
        out += &format!("\n{what}\n");
        for spot in &placement.guides {
            out += &(layout::hanging(&in_words(spot), "  ", "    ", measure()) + "\n");
        }
        for reason in &placement.reasons {
            out += &hanging(reason);
        }
    }
    out + &closing(CAUTION)
}

/// The table with how it is read, and what it has no room for in this terminal.
fn aligned(rows: &[Vec<String>]) -> String {
    let Some((headings, rows)) = rows.split_first() else { return String::new() };
    let mut table = Table::new(headings.iter().enumerate().map(|(at, heading)| {
        // Names and verdicts are read from the left, numbers from the right.
        let column = match at {
            _ if at + 1 == headings.len() => Column::prose(heading, 16),
            0 | 1 => Column::words(heading),
            _ => Column::numbers(heading, ""),
        };
        match GIVE_WAY.iter().position(|known| heading.starts_with(known)) {
            Some(turn) => column.gives_way(turn as u8),
            None => column,
        }
    }));
    rows.iter().for_each(|row| table.row(row.clone()));
    let laid = table.text(layout::columns());
    let mut out = laid.text + &wrapped(&reading().replace('\n', " ")) + "\n";
    if !laid.left_out.is_empty() {
        let left_out = laid.left_out.join(", ");
        out += &(wrapped(&format!("no room here for: {left_out}; `--format markdown` and `--format csv` have them"))
            + "\n");
    }
    out
}

/// The columns that a reader misses least, first.
const GIVE_WAY: [&str; 7] = ["play", "load", "swing", "front", "over", "what", "lean, gust"];

/// The guides that run on a pad, the rocket's own or what it would need, and what is against it where the advice doesn't
/// say it.
fn guides_of(comparison: &Comparison, candidate: &Candidate) -> String {
    let guides = candidate.guides.join(" and ");
    let unsaid = candidate.verdict >= Verdict::Look && !spoken_of(comparison).any(|said| said.pad == candidate.pad);
    let against = if unsaid { format!("; {}", candidate.reason) } else { String::new() };
    let guides = match candidate.fits {
        true => format!("{}: {guides}", candidate.pad),
        false => format!("{}: it would need a {}", candidate.pad, candidate.guides.join(", and a ")),
    };
    guides + &against
}

/// How much wind each pad bears, and what limits it.
fn winds(comparison: &Comparison) -> Vec<String> {
    let of = |c: &Candidate| Some(format!("{} {}.", c.pad, ceiling_in_words(c.ceiling.as_ref()?)));
    comparison.candidates.iter().filter(|c| c.verdict != Verdict::No).take(3).filter_map(of).collect()
}

/// What wasn't checked, and what rests on a default.
fn left_open(comparison: &Comparison) -> Vec<String> {
    let each = |of: fn(&Candidate) -> &[String]| {
        let mut all: Vec<&str> = comparison.candidates.iter().flat_map(of).map(String::as_str).collect();
        all.sort_unstable();
        all.dedup();
        all.join("; ")
    };
    let (open, defaults) = (each(|c| &c.not_checked), each(|c| &c.defaults));
    [("not checked", open), ("by default", defaults)]
        .into_iter()
        .filter(|(_, said)| !said.is_empty())
        .map(|(what, said)| format!("{what}: {said}"))
        .collect()
}

/// Where guides go: for the first rod and the first rail at hand, or for what is usual.
fn placements(analysis: &Analysis, wind: Option<f64>) -> Vec<(String, Placement)> {
    let design = &analysis.design;
    let pads = |rod: bool| design.pads.iter().find(|pad| pad.rail.is_some() && pad.has_rod() == rod);
    let mut found = Vec::new();
    let mut add = |pad: Option<&Pad>, hardware: Hardware, what: &str| {
        let Some(pad) = pad else { return };
        let placed = (0..design.flights.len()).find_map(|flight| {
            let one = only(design, flight)?;
            let one = wind.map_or(one.clone(), |wind| in_wind(one, wind));
            place(&one, &analysis.settings, 0, pad, hardware)
        });
        if let Some(placed) = placed {
            found.push((format!("{what} for {} would go:", pad.name.value), placed));
        }
    };
    add(pads(true), Hardware::OneLug, "one lug");
    add(pads(true), Hardware::TwoLugs, "two lugs");
    add(pads(false), Hardware::TwoButtons, "two buttons");
    found
}

fn in_words(spot: &finwright_advice::placement::Spot) -> String {
    let standoff =
        if spot.standoff > 0.0 { format!(", standoff {}", show::length(spot.standoff)) } else { String::new() };
    format!(
        "{}: middle {} from the tip, {} ahead of the aft end, on {}{standoff}",
        spot.what,
        show::station(spot.station),
        show::station(spot.from_tail),
        spot.on
    )
}

fn markdown(shown: &str, analysis: &Analysis, found: &[Comparison], wind: Option<f64>) -> String {
    let mut out = format!("# {}\n", analysis.design.title.as_ref().map_or(shown, |t| t.value.as_str()));
    for comparison in found {
        out += &format!("\n## {}\n\n", heading(comparison));
        out += &format!("{}\n", table::markdown(comparison));
        out += &format!("\n{}\n", advice(comparison));
        comparison.candidates.iter().for_each(|c| out += &format!("\n* {}", guides_of(comparison, c)));
        out.push('\n');
        for line in winds(comparison).into_iter().chain(left_open(comparison)) {
            out += &format!("\n{line}\n");
        }
    }
    for (what, placement) in placements(analysis, wind) {
        out += &format!("\n## {what}\n\n");
        placement.guides.iter().for_each(|spot| out += &format!("* {}\n", in_words(spot)));
        placement.reasons.iter().for_each(|reason| out += &format!("* {reason}\n"));
    }
    out + "\n" + CAUTION + "\n"
}

/// One row a pad, SI numbers under the names that JSON uses.
fn csv(found: &[Comparison]) -> String {
    let mut out = String::from(
        "flight,motor,wind_m_s,gust_m_s,pad,rail,guides,fits,front_release_m_s,exit_speed_m_s,over_floor_m_s,lean_wind_rad,lean_gust_rad,tip_gust_m,frequency_hz,play_rad,load_share,wind_to_m_s,verdict,reason\n",
    );
    for comparison in found {
        for c in &comparison.candidates {
            let number = |value: Option<f64>| value.map_or(String::new(), |v| format!("{v}"));
            let wind = c.ceiling.as_ref().filter(|ceiling| ceiling.in_still_air.is_empty()).map(|ceiling| ceiling.wind);
            let cells = [
                quoted(&comparison.flight),
                quoted(&comparison.motor),
                number(Some(comparison.wind_m_s)),
                number(Some(comparison.gust_m_s)),
                quoted(&c.pad),
                quoted(&c.rail),
                quoted(&c.guides.join(" + ")),
                c.fits.to_string(),
                number(c.front_release_m_s),
                number(c.exit_speed_m_s),
                number(c.over_floor_m_s),
                number(c.lean_wind_rad),
                number(c.lean_gust_rad),
                number(c.tip_gust_m),
                number(c.frequency_hz),
                number(c.play_rad),
                number(c.load_share),
                number(wind),
                quoted(c.verdict.words()),
                quoted(&c.reason),
            ];
            out += &format!("{}\n", cells.join(","));
        }
    }
    out
}

/// A text as RFC 4180 has it.
fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_string()
    }
}

/// A speed as the language writes it: `6 m/s`, `12mph`.
fn speed(text: &str) -> Result<f64, String> {
    let speed = parse(text, Dimension::SPEED).ok().filter(|speed| speed.is_finite() && *speed >= 0.0);
    speed.ok_or_else(|| format!("`{text}` isn't a speed; write it as 6m/s or 12mph"))
}

fn wrapped(text: &str) -> String {
    layout::paragraph(text, "  ", measure())
}

fn hanging(text: &str) -> String {
    layout::hanging(text, "  - ", "    ", measure()) + "\n"
}
