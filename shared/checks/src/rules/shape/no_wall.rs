//! `shape/no-wall`: a tube whose inside is as wide as its outside.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::{Amount, Part, PartKind};
use finwright_units::show;

/// A tube whose inside is as wide as its outside.
pub static NO_WALL: Rule = Rule {
    name: "shape/no-wall",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a tube whose inside is as wide as its outside",
    why: "A tube without a wall can't be built, so its mass isn't known.",
    prose: "A tube's outer diameter is its inner one plus twice the wall. The two are easily swapped when they are \
            copied.",
    thresholds: &[],
    example: Example::new("inner: 24 mm", "inner: 25 mm"),
    check: Some(check_walls),
};

fn check_walls(cx: &Context, out: &mut Vec<Finding>) {
    for part in &cx.design.parts {
        let (outer, inner) = match &part.kind {
            PartKind::Tube { outer, inner, .. }
            | PartKind::Coupler { outer, inner, .. }
            | PartKind::TubeFins { outer, inner, .. }
            | PartKind::RingFin { outer, inner, .. } => (outer, inner),
            PartKind::Mount { outer, bore, .. } => (outer, bore),
            _ => continue,
        };
        if let (Some(outer), Some(inner)) = (outer, inner) {
            if inner.si >= outer.si {
                out.push(no_wall(part, outer, inner));
            }
        }
    }
}

fn no_wall(part: &Part, outer: &Amount, inner: &Amount) -> Finding {
    let [inside, outside] = show::lengths_apart(inner.si, outer.si);
    NO_WALL
        .finding(inner.place, format!("{} is {inside} inside and {outside} outside", part.label()))
        .help(format!("the inside must be less than {outside}"))
        .label(outer.place, "the outside")
}
