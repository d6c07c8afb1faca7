//! `recovery/short-cord`: a cord shorter than the rocket.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::rules::rounded::{mm, up, CENTIMETRE};
use crate::threshold::Threshold;
use finwright_model::{Amount, PartKind, Stage};
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
    prose: "At ejection nose and body fly apart until the cord stops them. A long cord gives them room to slow down and to hang clear of each other's fins; a short one stops them at once, with a force that a paper tube's edge doesn't bear. Two to three times the rocket's length is usual (common practice, no source). Where there are several cords, their lengths are counted together.",
    thresholds: &[&CORD_LENGTHS],
    example: Example::new("cord { length: 600 mm", "cord { length: 200 mm"),
    check: Some(check),
};

/// What is advised, in lengths of the rocket.
const GOOD_LENGTHS: f64 = 2.0;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let cords: Option<Vec<&Amount>> = cx
        .design
        .parts
        .iter()
        .filter_map(|part| match &part.kind {
            PartKind::Cord { length } => Some(length.as_ref()),
            _ => None,
        })
        .collect();
    // A cord that doesn't say its length may be long enough.
    let Some(cords) = cords else { return };
    let (Some(first), Some(rocket)) = (cords.first(), upper_length(cx)) else { return };
    let total: f64 = cords.iter().map(|length| length.si).sum();
    // A cord as long as the rocket to within a micrometre is as long.
    if total + 1e-6 >= cx.limit(&CORD_LENGTHS) * rocket {
        return;
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
    out.push(if cords.len() == 1 {
        finding.fix(format!("make the cord {}", mm(good)), first.place, mm(good))
    } else {
        finding
    });
}

/// The length of what comes down on the cord: the upper stage.
fn upper_length(cx: &Context) -> Option<f64> {
    let extents = cx.design.parts.iter().zip(&cx.assessment.extents);
    let own = extents.filter(|(part, _)| part.is_body() && part.stage == Stage::Upper);
    let ends: Option<Vec<f64>> = own.map(|(_, extent)| extent.map(|e| e.back)).collect();
    ends?.into_iter().reduce(f64::max)
}
