//! `shape/nose-behind`: a nose that isn't the first of the airframe.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;

/// The rule.
pub static NOSE_BEHIND: Rule = Rule {
    name: "shape/nose-behind",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a nose that isn't the first of the airframe",
    why: "A nose begins with a point, so nothing can go on from what stands ahead of it, and the air's forces aren't \
        known.",
    prose: include_str!("nose_behind.md"),
    thresholds: &[],
    example: Example::new(
        "  tube body {",
        "  nose { shape: cone; length: 40 mm; base: caliber; material: balsa }\n  \
        tube body {",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::NoseBehind { ahead } = misfit.fault else { return None };
        let ahead = cx.design.parts.get(ahead)?;
        let (message, help) = if ahead.word == part.word {
            (format!("{} is a second nose", part.label()), "a rocket has one nose: take one of them out")
        } else {
            let help = "write the nose before the first tube; where the body narrows, use a `taper`";
            (format!("{} stands behind {}", part.label(), ahead.label()), help)
        };
        Some(NOSE_BEHIND.finding(misfit.place, message).help(help).label(ahead.header, "this is ahead of it"))
    });
}
