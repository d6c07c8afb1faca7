//! The hover on a flight: whether it's fast enough, stable, and what that rests on.

use finwright_advice::table::markdown_within;
use finwright_advice::words::{answer, besides, ceiling_in_words};
use finwright_advice::{ceiling, compare_flight};
use finwright_assess::defaults::defaults;
use finwright_assess::tolerance::in_words as give;
use finwright_assess::{path, tolerances, FlightNumbers, Path};
use finwright_checks::flight_in_words;
use finwright_checks::lacking::{basis_in_words, joined, needed_in_words};
use finwright_checks::{Analysis, Judgement};
use finwright_model::PartId;
use finwright_units::show;

/// Rows wider than this wrap in the windows that editors show hovers in.
const WIDEST_ROW: usize = 100;

pub(super) fn markdown(analysis: &Analysis, number: usize) -> String {
    let design = &analysis.design;
    let (Some(flight), Some(n)) = (design.flights.get(number), analysis.assessment.flights.get(number)) else {
        return String::new();
    };
    let name = format!("**flight {}**", flight.name.value);
    let mut lines = vec![flight_in_words(analysis, number, &name)];
    let [balance, margin, exit] = tolerances(design, &analysis.assessment, |a| {
        let n = a.flights.get(number);
        [
            n.and_then(|n| n.loaded()).map(|m| m.x),
            n.and_then(|n| n.margin()),
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
    if let (Some(loaded), Some(burnt)) = (n.loaded(), n.burnt()) {
        lines.push(format!(
            "{} on the pad {}, balancing at {} from the tip; {} and {} at burnout",
            show::mass(loaded.mass),
            weighed(n),
            give(loaded.x, balance.unwrap_or(0.0), show::station),
            show::mass(burnt.mass),
            show::station(burnt.x)
        ));
    }
    if let (Some(value), Some(pressure)) =
        (n.margin(), analysis.assessment.airframe.airflow.as_ref().and_then(|a| a.total.x()))
    {
        lines.push(format!(
            "Static margin {} calibres; centre of pressure at {}",
            give(value, margin.unwrap_or(0.0), show::number),
            show::station(pressure)
        ));
        if let Some(second) = analysis.assessment.second(design).filter(|second| second.differs()) {
            lines.push(format!(
                "By a second method the margin is {} calibres; the smaller is judged",
                show::number(value + second.shift)
            ));
        }
    }
    lines.extend(release(n));
    if let Ok(flown) = path(design, &analysis.assessment.airframe, n) {
        lines.extend(in_the_air(analysis, n, flown));
    }
    if let Some(judgement) = analysis.flights.get(number) {
        lines.extend(not_known(judgement));
        lines.extend(compared(analysis, number, judgement));
    }
    lines.push("Computed, not measured: the range safety officer and the local code decide.".to_string());
    lines.join("\n\n")
}

/// What couldn't be told.
fn not_known(judgement: &Judgement) -> Vec<String> {
    let mut lines = Vec::new();
    if !judgement.unknown.is_empty() {
        let words: Vec<&str> = judgement.unknown.iter().map(|needed| needed_in_words(*needed)).collect();
        lines.push(format!("Not checked: {}", joined(&words, "and")));
    }
    lines.extend(judgement.not_made.iter().map(|what| format!("Not made: {what}")));
    lines
}

/// What mass and balance rest on: "as weighed".
fn weighed(n: &FlightNumbers) -> String {
    if !n.basis().is_weighed() {
        return "as computed".to_string();
    }
    let computed = n.computed().map_or(String::new(), |computed| {
        format!(" (computed {}, balancing at {})", show::mass(computed.mass), show::station(computed.x))
    });
    format!("{}{computed}", basis_in_words(n.basis()))
}

/// The pads at hand side by side, and what to fly from.
fn compared(analysis: &Analysis, number: usize, judgement: &Judgement) -> Vec<String> {
    let Some(comparison) = compare_flight(analysis, number) else { return Vec::new() };
    let mut lines = Vec::new();
    let own = ceiling(analysis, number);
    lines.extend(own.map(|ceiling| format!("It {}", ceiling_in_words(&ceiling, judgement.verdict))));
    if comparison.candidates.len() > 1 {
        lines.push(answer(&comparison));
        lines.push(markdown_within(&comparison, WIDEST_ROW));
        lines.extend(besides(&comparison));
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
                show::speed(air.as_read(air.gust))
            ));
        }
    }
    lines
}

/// The flight to the ground.
fn in_the_air(analysis: &Analysis, n: &FlightNumbers, flown: &Path) -> Vec<String> {
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
        let label = |parts: &[PartId]| {
            let labels: Vec<String> =
                parts.iter().filter_map(|part| analysis.design.parts.get(*part)).map(|part| part.label()).collect();
            joined(&labels.iter().map(String::as_str).collect::<Vec<_>>(), "and")
        };
        let delay = descent.delay.map_or(String::new(), |delay| format!(", the delay is {}", show::time(delay)));
        lines.push(match flown.free_coast {
            coast if coast >= 0.0 => format!("Coasts {} after burnout{delay}", show::time(coast)),
            coast => format!("Is at its highest point {} before burnout{delay}", show::time(-coast)),
        });
        for opening in &descent.openings {
            lines.push(format!(
                "{} up at {} through the air, {} after ignition, {} opens; then {}",
                show::length(opening.moment.height),
                show::speed(opening.air_speed),
                show::time(opening.moment.time),
                label(&opening.parts),
                show::descent(opening.rate)
            ));
        }
        if descent.openings.is_empty() {
            lines.push("The ground comes before anything opens".to_string());
        }
        lines.push(format!(
            "Lands at {} with {}, {} after ignition and {} downwind",
            show::descent(descent.landing_speed),
            show::energy(descent.landing_energy),
            show::time(moments.landing.time),
            show::length(moments.landing.drift)
        ));
    }
    let defaults = defaults(&analysis.design, &analysis.assessment.airframe, n, Some(flown));
    if !defaults.is_empty() {
        lines.push(format!("By default: {}", defaults.join("; ")));
    }
    lines
}
