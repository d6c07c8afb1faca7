//! The hover on a flight: whether it's fast enough, stable, and what that rests on.

use finwright_assess::tolerances;
use finwright_checks::{Analysis, Level};
use finwright_units::show;

pub(super) fn markdown(analysis: &Analysis, number: usize) -> String {
    let design = &analysis.design;
    let (Some(flight), Some(n)) = (design.flights.get(number), analysis.assessment.flights.get(number)) else {
        return String::new();
    };
    let mut lines = vec![format!("**flight {}**", flight.name.value)];
    let [balance, margin, exit] = tolerances(design, &analysis.assessment, |a| {
        let n = a.flights.get(number);
        [
            n.and_then(|n| n.loaded).map(|m| m.x),
            n.and_then(|n| n.margin),
            n.and_then(|n| n.run.as_ref()).and_then(|r| r.last()).map(|p| p.speed),
        ]
    });
    let give = |tolerance: Option<f64>, words: fn(f64) -> String| match tolerance {
        Some(t) if t > 0.0 => format!(" ± {}", words(t)),
        _ => String::new(),
    };
    if let Some(run) = &n.run {
        match (run.front(), run.last()) {
            (Some(front), Some(last)) => {
                lines.push(format!(
                    "Exit speed {}{} after {} of guided travel and {}; the front guide is off at {}",
                    show::speed_for_reader(last.speed),
                    give(exit, show::speed),
                    show::length(run.travel),
                    show::time(last.time),
                    show::speed(front.speed)
                ));
                if let Some(push) = run.push {
                    lines.push(format!(
                        "The motor pushes with {} times the weight along the guide",
                        show::significant(push, 2, 1)
                    ));
                }
            }
            _ => lines.push("It doesn't leave its rod or rail".to_string()),
        }
    }
    if let (Some(loaded), Some(burnt)) = (n.loaded, n.burnt) {
        lines.push(format!(
            "{} on the pad, balancing at {}{} from the tip; {} and {} at burnout",
            show::mass(loaded.mass),
            show::station(loaded.x),
            give(balance, show::length),
            show::mass(burnt.mass),
            show::station(burnt.x)
        ));
    }
    if let (Some(value), Some(pressure)) = (n.margin, analysis.assessment.airflow.as_ref().and_then(|a| a.total.x())) {
        lines.push(format!(
            "Static margin {}{} calibres; centre of pressure at {}",
            show::number(value),
            give(margin, show::number),
            show::station(pressure)
        ));
    }
    for unknown in &n.unknown {
        lines.push(format!("Not checked: {}; needs {}", unknown.what, unknown.needs));
    }
    let about_it =
        analysis.findings.iter().filter(|f| f.place.span == flight.name.place.span && f.level != Level::Note);
    lines.extend(about_it.map(|f| format!("{}: {}", f.level.word(), f.message)));
    lines.push("Computed, not measured: the range safety officer and the local code decide.".to_string());
    lines.join("\n\n")
}
