//! `fins/flutter-not-checked`: fins in a flight too fast for the method, or of a material that nothing is known of.

use crate::common::flown::{flown, is_stable};
use crate::common::limits::FLUTTER_NOTE;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::flight::path::MOST_MACH;
use finwright_assess::{path, FlightNumbers, NotFlown};
use finwright_model::{Flight, Part, PartKind};
use finwright_units::show;

/// The rule.
pub static FLUTTER_NOT_CHECKED: Rule = Rule {
    name: "fins/flutter-not-checked",
    family: Family::Fins,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "fins of a fast flight whose flutter isn't known",
    why: "It's fast flights that tear fins off, and of this one nobody knows.",
    prose: include_str!("flutter_not_checked.md"),
    thresholds: &[&FLUTTER_NOTE],
    example: Example::new(
        "0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N",
        "0.05 s: 90 N, 0.1 s: 140 N, 0.2 s: 130 N, 0.3 s: 60 N, 0.55 s: 50 N, 0.6 s: 0 N",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let fins: Vec<(usize, &Part)> =
        cx.design.parts.iter().enumerate().filter(|(_, part)| matches!(part.kind, PartKind::Fins(_))).collect();
    let Some((_, first)) = fins.first() else { return };
    let mut told: Vec<Option<usize>> = Vec::new();
    for (flight, numbers) in cx.flights().filter(|(_, numbers)| is_stable(numbers)) {
        let Err(NotFlown::TooFast(mach)) = path(cx.design, &cx.assessment.airframe, numbers) else { continue };
        let motor = flight.motor.as_ref().map(|motor| motor.value);
        if told.contains(&motor) {
            continue;
        }
        told.push(motor);
        let message =
            format!("{} is faster than the method reaches: whether its fins flutter isn't checked", flight.name.value);
        let help = format!(
            "it comes to about Mach {}, and the method ends at Mach {MOST_MACH}: compare the fins with ones that have \
                flown as fast",
            show::trimmed(mach, 1)
        );
        out.push(finding(flight, numbers, message, help).label(first.header, "its fins"));
    }
    unknown_materials(cx, &fins, out);
}

/// Fins of a fast flight whose material has no shear modulus, once a set.
fn unknown_materials(cx: &Context, fins: &[(usize, &Part)], out: &mut Vec<Finding>) {
    for (id, part) in fins {
        let fastest = flown(cx)
            .into_iter()
            .filter(|(_, numbers, path)| {
                let is_known = numbers.flutter.iter().any(|flutter| flutter.part == *id);
                !is_known && path.moments.fastest.speed > cx.limit(&FLUTTER_NOTE)
            })
            .max_by(|a, b| a.2.moments.fastest.speed.total_cmp(&b.2.moments.fastest.speed));
        let Some((flight, numbers, path)) = fastest else { continue };
        let message = format!(
            "{} reaches {}: whether {} flutters isn't known",
            flight.name.value,
            show::speed(path.moments.fastest.speed),
            part.label()
        );
        let help = "say the fins' material, with its `shear` where the file defines it".to_string();
        out.push(finding(flight, numbers, message, help).label(part.header, "these fins"));
    }
}

fn finding(flight: &Flight, numbers: &FlightNumbers, message: String, help: String) -> Finding {
    FLUTTER_NOT_CHECKED.finding(flight.name.place, message).help(help).of_flight(numbers)
}
