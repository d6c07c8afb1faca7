//! `finwright show`: a design's numbers, a table a flight.

use crate::collect::read;
use crate::output::{print, unusable};
use crate::table::Table;
use crate::ShowFormat;
use finwright_assess::{report, FlightNumbers};
use finwright_checks::{analyze, Analysis, Level};
use finwright_units::show as words;
use std::path::Path;
use std::process::ExitCode;

pub fn show(path: &Path, format: ShowFormat) -> ExitCode {
    let input = read(path);
    let analysis = match input.snapshot {
        Ok(snapshot) => analyze(&snapshot),
        Err(reason) => return unusable(&format!("{}: {reason}", input.shown)),
    };
    match format {
        ShowFormat::Json => {
            match serde_json::to_string_pretty(&report::flights(&analysis.design, &analysis.assessment)) {
                Ok(text) => print(&(text + "\n")),
                Err(error) => return unusable(&error.to_string()),
            }
        }
        ShowFormat::Text => print(&text(&input.shown, &analysis)),
    }
    ExitCode::SUCCESS
}

fn text(shown: &str, analysis: &Analysis) -> String {
    let design = &analysis.design;
    let title = design.title.as_ref().map_or(shown, |t| t.value.as_str());
    let mut out = format!("{title}\n");
    if design.flights.is_empty() {
        out.push_str(
            "\n  This file has no flight to show. Add `flight my_day { motor: …; pad: …; guided_by: […] }`.\n",
        );
    }
    for numbers in &analysis.assessment.flights {
        out.push_str(&flight(analysis, numbers));
    }
    let errors = analysis.findings.iter().filter(|f| f.level == Level::Error).count();
    let warnings = analysis.findings.iter().filter(|f| f.level == Level::Warning).count();
    if errors + warnings > 0 {
        out.push_str(&format!(
            "\n`finwright check {shown}` has {errors} errors and {warnings} warnings about this design.\n"
        ));
    }
    out.push_str("\nComputed from the file, not measured. The range safety officer and the local code decide.\n");
    out
}

fn flight(analysis: &Analysis, n: &FlightNumbers) -> String {
    let (design, assessment) = (&analysis.design, &analysis.assessment);
    let Some(flight) = design.flights.get(n.flight) else { return String::new() };
    let name_of = |named: &Option<finwright_model::Named<usize>>, list: &dyn Fn(usize) -> Option<String>| {
        named.as_ref().and_then(|m| list(m.value)).unwrap_or_else(|| "?".to_string())
    };
    let motor = name_of(&flight.motor, &|i| design.motors.get(i).map(|m| m.name.value.clone()));
    let pad = name_of(&flight.pad, &|i| design.pads.get(i).map(|p| p.name.value.clone()));
    let mut table = Table::default();
    if let (Some(loaded), Some(burnt)) = (n.loaded, n.burnt) {
        table.row("mass", words::mass(loaded.mass), format!("{} at burnout", words::mass(burnt.mass)));
        table.row(
            "balance point",
            words::station(loaded.x),
            format!("from the tip; {} at burnout", words::station(burnt.x)),
        );
        table.row(
            "inertia, crosswise",
            format!("{} kg.m2", words::significant(loaded.i_transverse, 4, 6)),
            "about the balance point",
        );
    }
    if let Some(airflow) = &assessment.airflow {
        if let Some(x) = airflow.total.x() {
            table.row(
                "centre of pressure",
                words::station(x),
                format!("from the tip; normal force {} per rad", words::number(airflow.total.cna)),
            );
        }
    }
    if let (Some(margin), Some(burnt)) = (n.margin, n.burnt_margin) {
        let calibre = assessment.calibre.map_or(String::new(), |c| format!(" of {}", words::length(c)));
        table.row(
            "static margin",
            format!("{} cal", words::number(margin)),
            format!("calibres{calibre}; {} at burnout", words::number(burnt)),
        );
    }
    if let (Some(ratio), Some(curve)) = (n.thrust_to_weight, &n.curve) {
        let push = n
            .run
            .as_ref()
            .and_then(|r| r.push)
            .map_or(String::new(), |p| format!("; {} along the guide", words::number(p)));
        table.row(
            "thrust to weight",
            words::number(ratio),
            format!(
                "average of {} N s in {}{push}",
                words::number(curve.total_impulse()),
                words::time(curve.burn_time())
            ),
        );
    }
    if let Some(run) = &n.run {
        table.row(
            "guided travel",
            words::length(run.travel),
            format!("until the last guide leaves; {} for the front one", words::length(run.front_travel)),
        );
        match (run.front(), run.last()) {
            (Some(front), Some(last)) => {
                table.row("front release", words::speed(front.speed), format!("after {}", words::time(front.time)));
                table.row(
                    "exit speed",
                    words::speed(last.speed),
                    format!(
                        "after {} ({:.0} km/h, {:.0} mph)",
                        words::time(last.time),
                        last.speed * 3.6,
                        last.speed / 0.44704
                    ),
                );
            }
            _ => table.row("exit speed", "none", "it doesn't leave its guide"),
        }
    }
    let mut out = format!("\n{}: {motor} from {pad}\n{}", flight.name.value, table.text());
    let defaults = defaults(analysis, flight);
    if !defaults.is_empty() {
        out.push_str(&format!("  by default: {}\n", defaults.join("; ")));
    }
    for unknown in assessment.unknown.iter().chain(&n.unknown) {
        out.push_str(&format!("  not checked: {}; needs {}\n", unknown.what, unknown.needs));
    }
    out
}

/// What these numbers rest on that the file doesn't say.
fn defaults(analysis: &Analysis, flight: &finwright_model::Flight) -> Vec<String> {
    let (design, assessment) = (&analysis.design, &analysis.assessment);
    let mut found: Vec<String> = design
        .parts
        .iter()
        .zip(&assessment.weights)
        .filter_map(|(part, weight)| {
            let default = &weight.as_ref()?.default;
            (!default.is_empty()).then(|| format!("{} has {default}", part.label()))
        })
        .collect();
    if let Some(pad) = flight.pad.as_ref().and_then(|p| design.pads.get(p.value)) {
        if pad.friction.is_none() {
            found.push(format!("friction {}", finwright_assess::flight::friction(pad)));
        }
    }
    if flight.site.is_none() {
        found.push("sea level, standard air, no wind".to_string());
    }
    found
}
