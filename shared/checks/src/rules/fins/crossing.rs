//! `fins/crossing`: two sets of fins in one place.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_model::PartKind;
use finwright_units::show;

/// The rule.
pub static CROSSING: Rule = Rule {
    name: "fins/crossing",
    family: Family::Fins,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "two sets of fins in one place",
    why: "Two fins can't be in one place, and their lift would be counted twice.",
    prose: include_str!("crossing.md"),
    thresholds: &[],
    example: Example::new("    mount engine {", "    fins more like main { }\n    mount engine {"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::Crossing { other, shared } = misfit.fault else { return None };
        let other = cx.design.parts.get(other)?;
        let message = format!(
            "{} and {} stand in one place, {} along the body",
            other.label(),
            part.label(),
            show::station(shared)
        );
        let help = if matches!(part.kind, PartKind::Fins(_)) {
            "turn one of them around the body with `clock`, or move it along"
        } else {
            "move one of them along the body, or take it out"
        };
        Some(CROSSING.finding(misfit.place, message).help(help).label(other.header, "the other set"))
    });
}
