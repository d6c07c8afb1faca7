//! `recovery/short-cord`: a cord shorter than the rocket.

use crate::common::bays::{bays, length};
use crate::common::rounded::{mm, up, CENTIMETRE};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_model::{Amount, Stage};
use finwright_units::{show, Dimension};

/// The shortest cord, in lengths of the rocket.
pub static CORD_LENGTHS: Threshold =
    Threshold::new("cord_lengths", Dimension::NUMBER, 1.0, "the shortest cord, in lengths of the rocket");

/// The rule.
pub static SHORT_CORD: Rule = Rule {
    name: "recovery/short-cord",
    family: Family::Recovery,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a cord shorter than the rocket",
    why: "On a short cord the nose snaps back into the body, and the jerk cuts through the tube.",
    prose: include_str!("short_cord.md"),
    thresholds: &[&CORD_LENGTHS],
    example: Example::new("cord { length: 600 mm", "cord { length: 200 mm"),
    check: Some(check),
};

/// What is advised, in lengths of the rocket.
const GOOD_LENGTHS: f64 = 2.0;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let Some(rocket) = upper_length(cx) else { return };
    for bay in bays(cx) {
        // A cord that doesn't say its length may be long enough.
        let cords: Option<Vec<&Amount>> = bay.cords.iter().map(|cord| length(cord)).collect();
        out.extend(cords.and_then(|cords| told(cx, &cords, rocket)));
    }
}

fn told(cx: &Context, cords: &[&Amount], rocket: f64) -> Option<Finding> {
    let first = cords.first()?;
    let total: f64 = cords.iter().map(|length| length.si).sum();
    // A cord as long as the rocket to within a micrometre is as long.
    if total + 1e-6 >= cx.limit(&CORD_LENGTHS) * rocket {
        return None;
    }
    let good = up(GOOD_LENGTHS * rocket, CENTIMETRE);
    let finding = SHORT_CORD
        .finding(
            first.place,
            format!(
                "the cord is {}, the rocket {} long: {} of its length",
                show::length(total),
                show::length(rocket),
                show::number(total / rocket)
            ),
        )
        .help(format!("take {} or more, {GOOD_LENGTHS} to 3 lengths of the rocket", show::length_at_least(good)));
    Some(match cords {
        [only] => finding.fix(format!("make the cord {}", mm(good)), only.place, mm(good)),
        _ => finding,
    })
}

/// The length of what comes down on the cord: the upper stage.
fn upper_length(cx: &Context) -> Option<f64> {
    let extents = cx.design.parts.iter().zip(&cx.assessment.airframe.extents);
    let own = extents.filter(|(part, _)| part.is_body() && part.stage == Stage::Upper);
    let ends: Option<Vec<f64>> = own.map(|(_, extent)| extent.map(|e| e.back)).collect();
    ends?.into_iter().reduce(f64::max)
}
