//! The hover on a flight: whether it's fast enough, stable, and what that rests on.

use finwright_advice::table::markdown as markdown_of;
use finwright_advice::words::{advice, ceiling_in_words};
use finwright_advice::{ceiling, compare_flight};
use finwright_assess::tolerance::in_words as give;
use finwright_assess::{path, tolerances, FlightNumbers, Path};
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
    if let Some(run) = &n.run {
        match (run.front(), run.last()) {
            (Some(front), Some(last)) => {
                lines.push(format!(
                    "Exit speed {}{} after {} of guided travel and {}; the front guide is off at {}",
                    give(last.speed, exit.unwrap_or(0.0), show::speed),
                    show::speed_beside(last.speed),
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
            "{} on the pad, balancing at {} from the tip; {} and {} at burnout",
            show::mass(loaded.mass),
            give(loaded.x, balance.unwrap_or(0.0), show::station),
            show::mass(burnt.mass),
            show::station(burnt.x)
        ));
    }
    if let (Some(value), Some(pressure)) = (n.margin, analysis.assessment.airflow.as_ref().and_then(|a| a.total.x())) {
        lines.push(format!(
            "Static margin {} calibres; centre of pressure at {}",
            give(value, margin.unwrap_or(0.0), show::number),
            show::station(pressure)
        ));
    }
    lines.extend(release(n));
    let flown = path(design, &analysis.assessment, n);
    let of_path = match flown {
        Ok(flown) => {
            lines.extend(in_the_air(analysis, flown));
            flown.unknown.as_slice()
        }
        // What the flight lacks is told above where it lacks the run.
        Err(unknown) if n.run.is_some() => std::slice::from_ref(unknown),
        Err(_) => &[],
    };
    for unknown in n.unknown.iter().chain(of_path) {
        lines.push(format!("Not checked: {}; needs {}", unknown.what, unknown.needs));
    }
    let about_it =
        analysis.findings.iter().filter(|f| f.place.span == flight.name.place.span && f.level != Level::Note);
    lines.extend(about_it.map(|f| format!("{}: {}", f.level.word(), f.message)));
    lines.extend(compared(analysis, number));
    lines.push("Computed, not measured: the range safety officer and the local code decide.".to_string());
    lines.join("\n\n")
}

/// The pads at hand side by side, and what to fly from.
fn compared(analysis: &Analysis, number: usize) -> Vec<String> {
    let Some(comparison) = compare_flight(&analysis.design, &analysis.settings, number) else { return Vec::new() };
    let mut lines = Vec::new();
    let own = ceiling(&analysis.design, &analysis.settings, number);
    lines.extend(own.map(|ceiling| format!("It {}", ceiling_in_words(&ceiling))));
    if comparison.candidates.len() > 1 {
        lines.push(markdown_of(&comparison));
        lines.push(advice(&comparison));
    }
    lines
}

/// The angle of the air at release, and the lean of what guides the rocket.
fn release(n: &FlightNumbers) -> Vec<String> {
    let mut lines = Vec::new();
    if let (Some(release), Some(air)) = (n.release, n.air) {
        if air.gust > 0.0 {
            lines.push(format!(
                "Leaves at an angle of attack of {} in the steady wind, {} in a gust of {}",
                show::angle(release.angle),
                show::angle(release.gust_angle),
                show::speed(air.gust)
            ));
        }
    }
    lines
}

/// The flight to the ground.
fn in_the_air(analysis: &Analysis, flown: &Path) -> Vec<String> {
    let moments = &flown.moments;
    let mut lines = vec![format!(
        "Highest point {} after {}; at most {} (Mach {}) and {} times gravity",
        show::length(moments.apogee.height),
        show::time(moments.apogee.time),
        show::speed(moments.fastest.speed),
        show::significant(flown.top_mach, 2, 2),
        show::significant(flown.times_gravity(), 3, 1)
    )];
    if let Some(descent) = &flown.descent {
        let label = analysis.design.parts.get(descent.part).map_or(String::new(), |part| part.label());
        let opens = match descent.opening_speed {
            Some(speed) => format!("the {label} opens at {}", show::speed(speed)),
            None => format!("the ground comes before the {label} opens"),
        };
        lines.push(format!(
            "Coasts {} after burnout, the delay is {}; {opens}. Lands at {} with {}, {} after ignition and {} downwind",
            show::time(flown.coast),
            show::time(descent.delay),
            show::descent(descent.landing_speed),
            show::energy(descent.landing_energy),
            show::time(moments.landing.time),
            show::length(moments.landing.drift)
        ));
    }
    if !flown.defaults.is_empty() {
        lines.push(format!("By default: {}", flown.defaults.join("; ")));
    }
    lines
}
