//! `shape/no-nose`: an airframe that begins with a flat face.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::PartKind;

/// The rule.
pub static NO_NOSE: Rule = Rule {
    name: "shape/no-nose",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "an airframe without a nose",
    why: "It is computed with a flat front, which drags much more than a nose, and a nose's mass in front is missing \
        from the balance.",
    prose: include_str!("no_nose.md"),
    thresholds: &[],
    example: Example::new(NOSE, "").after(&[
        ("material: basswood\n", "mass: 12.3 g\n"),
        ("    shoulder { length: 20 mm; outer: 23.9 mm }\n    ballast { mass: 1 g; at: 50 mm from front }\n", ""),
    ]),
    check: Some(check),
};

/// The example's nose.
const NOSE: &str = "  nose { shape: ogive; length: 70 mm; base: caliber; mass: 12.3 g\n  }\n";

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let Some(airframe) = cx.design.airframe else { return };
    // Where something can't be understood, that may be the nose.
    if !cx.design.lost.is_empty() {
        return;
    }
    let first = cx.design.parts.iter().find(|part| part.is_body());
    let Some(first) = first.filter(|part| !matches!(part.kind, PartKind::Nose { .. })) else { return };
    if cx.design.parts.iter().any(|part| matches!(part.kind, PartKind::Nose { .. })) {
        return;
    }
    out.push(
        NO_NOSE
            .finding(airframe, "the rocket has no nose, and is computed with a flat front")
            .help(format!("write one ahead of {}: `nose {{ shape: ogive; length: …; base: … }}`", first.label()))
            .label(first.header, "the front"),
    );
}
