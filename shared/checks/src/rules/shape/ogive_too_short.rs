//! `shape/ogive-too-short`: an ogive nose shorter than half its base.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::PartKind;
use finwright_units::show;

/// An ogive shorter than its base's radius.
pub static OGIVE_TOO_SHORT: Rule = Rule {
    name: "shape/ogive-too-short",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "an ogive nose shorter than half its base",
    why: "A circular arc that meets the tube without a kink needs that length at least; a shorter one has no such \
            shape.",
    prose: include_str!("ogive_too_short.md"),
    thresholds: &[],
    example: Example::new("length: 70 mm; base: caliber", "length: 10 mm; base: caliber"),
    check: Some(check_ogives),
};

fn check_ogives(cx: &Context, out: &mut Vec<Finding>) {
    for part in &cx.design.parts {
        let PartKind::Nose { shape: Some(shape), length: Some(length), base: Some(base), .. } = &part.kind else {
            continue;
        };
        if shape.word == "ogive" && length.si < base.si / 2.0 {
            out.push(
                OGIVE_TOO_SHORT
                    .finding(
                        length.place,
                        format!(
                            "an ogive of {} on a base of {} doesn't exist",
                            show::length(length.si),
                            show::length(base.si)
                        ),
                    )
                    .help(format!(
                        "{} or more, or another shape such as `ellipsoid`",
                        show::length_at_least(base.si / 2.0)
                    ))
                    .label(shape.place, "the shape")
                    .label(base.place, "the base")
                    .fix("make it an ellipsoid", shape.place, "ellipsoid"),
            );
        }
    }
}
