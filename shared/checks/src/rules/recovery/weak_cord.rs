//! `recovery/weak-cord`: a cord that an opening may break.

use crate::common::flown::flown;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_model::PartKind;
use finwright_units::{show, Dimension};

/// How often a cord must bear the opening's pull.
pub static CORD_PULLS: Threshold = Threshold::new(
    "cord_pulls",
    Dimension::NUMBER,
    2.0,
    "how many times the pull of an opening with its jerk a cord must bear",
);

/// The rule.
pub static WEAK_CORD: Rule = Rule {
    name: "recovery/weak-cord",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "a cord that the opening may break",
    why: "What was held by the cord falls by itself, without a parachute.",
    prose: include_str!("weak_cord.md"),
    thresholds: &[&CORD_PULLS],
    example: Example::new("cord { length: 600 mm; mass: 1.5 g;", "cord { length: 600 mm; mass: 1.5 g; bears: 2 N;"),
    check: Some(check),
};

/// The jerk of an opening over the air's steady pull (Knacke's factor for a parachute on a light load; from memory).
const JERK: f64 = 1.8;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let cords: Vec<_> = cx.design.parts.iter().filter(|part| matches!(part.kind, PartKind::Cord { .. })).collect();
    let weakest = cords.iter().filter_map(|part| part.bears.as_ref()).min_by(|a, b| a.si.total_cmp(&b.si));
    let Some(weakest) = weakest else { return };
    let pulls = flown(cx).into_iter().filter_map(|(flight, numbers, path)| {
        let hardest = path.descent.as_ref()?.openings.iter().map(|opening| opening.pull).reduce(f64::max)?;
        Some((flight, numbers, JERK * hardest))
    });
    let Some((flight, numbers, pull)) = pulls.max_by(|a, b| a.2.total_cmp(&b.2)) else { return };
    let wanted = cx.limit(&CORD_PULLS) * pull;
    if weakest.si >= wanted {
        return;
    }
    let mut finding = WEAK_CORD
        .finding(
            weakest.place,
            format!(
                "the cord bears {}, and {} pulls it with about {} as it opens",
                show::force(weakest.si),
                flight.name.value,
                show::force(pull)
            ),
        )
        .help(format!("take one that bears {}, or open more slowly", show::force_at_least(wanted)))
        .label(flight.name.place, "in this flight")
        .of_flight(numbers)
        .beyond(wanted / weakest.si);
    if weakest.si < pull {
        finding.level = Level::Error;
    }
    out.push(finding);
}
