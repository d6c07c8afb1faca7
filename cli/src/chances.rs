//! `finwright chances`: how likely each flight meets its floors when its values vary.

use crate::collect::read;
use crate::judged;
use crate::layout::{hanging, measure};
use crate::output::{closing, print, print_json, unusable};
use crate::table::Table;
use crate::ShowFormat;
use finwright_assess::chances::{chances as count, Chance, Chances};
use finwright_checks::common::floors::floors;
use finwright_checks::{analyze, flight_in_words, Analysis};
use finwright_units::reader::{in_both, with};
use finwright_units::{show as words, Units};
use serde::Serialize;
use std::path::Path;
use std::process::ExitCode;

pub fn chances(path: &Path, runs: u64, seed: u64, format: ShowFormat, units: Option<Units>) -> ExitCode {
    let input = read(path).in_units(units);
    let analysis = match input.snapshot {
        Ok(snapshot) => analyze(&snapshot),
        Err(reason) => return unusable(&format!("{}: {reason}", input.shown)),
    };
    let (design, assessment) = (&analysis.design, &analysis.assessment);
    let floors = floors(&analysis.settings, design, assessment);
    let mut found = Vec::new();
    let mut without = Vec::new();
    for (numbers, verdict) in assessment.flights.iter().zip(judged::each(&analysis, true)) {
        match count(design, assessment, numbers, &floors, runs, seed) {
            Some(counted) => found.push(Flight { counted, number: numbers.flight, verdict }),
            None => without.push(numbers),
        }
    }
    match format {
        ShowFormat::Json => {
            if let Err(code) = print_json(&found) {
                return code;
            }
        }
        ShowFormat::Text => {
            let mut text = design.title.as_ref().map_or(input.shown.clone(), |t| t.value.clone()) + "\n";
            found
                .iter()
                .for_each(|flight| text.push_str(&with(analysis.settings.units, || in_words(&analysis, flight))));
            for numbers in without {
                let name = numbers.name(design);
                text += &closing(&flight_in_words(&analysis, numbers.flight, name));
                text +=
                    &closing(&format!("{name}: its numbers aren't known whole; `finwright show` says what is missing"));
            }
            let decide =
                "Counted from computed runs, not from flights. The range safety officer and the local code decide.";
            print(&(text + &closing(decide)));
        }
    }
    ExitCode::SUCCESS
}

/// A flight's runs, with the verdict on it.
#[derive(Serialize)]
struct Flight {
    #[serde(flatten)]
    counted: Chances,
    #[serde(skip)]
    number: usize,
    #[serde(flatten)]
    verdict: judged::Told,
}

fn in_words(analysis: &Analysis, flight: &Flight) -> String {
    let chances = &flight.counted;
    let mut table = Table::default();
    for chance in &chances.floors {
        let (label, side, how) = words_of(chance);
        table.row(
            &format!("{label} {side} {}", how(chance.floor)),
            percent(chance.met),
            format!(
                "{} in nine runs of ten, {} in the middle",
                in_both(|| format!("{} to {}", how(chance.low), how(chance.high))),
                how(chance.median)
            ),
        );
    }
    table.row("all but the angle", percent(chances.floors_met), "what the verdict rests on".to_string());
    table.row("all of them", percent(chances.all_met), String::new());
    let varied: Vec<String> = chances
        .varied
        .iter()
        .map(|v| {
            let amount = if v.unit == "of its value" {
                format!("{} %", words::number(100.0 * v.sd))
            } else {
                words::written(v.sd, v.unit)
            };
            format!("{} by {amount}{}", v.what, if v.is_default { " (default)" } else { "" })
        })
        .collect();
    let verdict = flight_in_words(analysis, flight.number, &chances.flight);
    format!(
        "\n{}: {} runs, seed {}\n{}\n{}{}\n",
        chances.flight,
        chances.runs,
        chances.seed,
        hanging(&verdict, "  ", "    ", measure()),
        table.text(),
        hanging(&format!("varied, as standard deviations: {}", varied.join("; ")), "  ", "    ", measure())
    )
}

/// A floor's label, its side and how its values are said.
fn words_of(chance: &Chance) -> (&'static str, &'static str, fn(f64) -> String) {
    match chance.name {
        "exit_speed_m_s" => ("exit speed", "at least", words::speed),
        "margin_cal" => ("static margin", "at least", |m| format!("{} cal", words::number(m))),
        "guided_thrust_to_weight" => ("thrust to weight on the guide", "at least", words::number),
        _ => ("angle of attack", "at most", words::angle),
    }
}

/// A share in percent, never rounded up to certainty.
fn percent(share: f64) -> String {
    match 100.0 * share {
        100.0 => "all runs".to_string(),
        p if p > 99.9 => "over 99.9 %".to_string(),
        p if p > 0.0 && p < 0.1 => "under 0.1 %".to_string(),
        p => format!("{} %", words::trimmed(p, 1)),
    }
}
