//! `guide/off-rocket`: a guide that isn't on the rocket.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static OFF_ROCKET: Rule = Rule {
    name: "guide/off-rocket",
    family: Family::Guide,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a guide behind the rocket's tail or ahead of its tip",
    why: "It isn't on the rocket, so how fast the rocket leaves its rod or rail can't be told.",
    prose: include_str!("off_rocket.md"),
    thresholds: &[],
    example: Example::new(
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back",
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: -200 mm from back",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::OffRocket { gap, behind } = misfit.fault else { return None };
        let edge = if behind { "behind the rocket's tail" } else { "ahead of the rocket's tip" };
        let message = format!("{} lies {} {edge}", part.label(), show::length(gap));
        let half = part.length().map_or(0.0, |length| (length.si * 0.5e3).ceil());
        let place = format!("{half} mm from {}", if behind { "back" } else { "front" });
        let on = part.parent.and_then(|id| cx.design.parts.get(id))?;
        let finding = OFF_ROCKET
            .finding(misfit.place, message)
            .help(format!("`at: {place}` puts it at the end of {}", on.label()))
            .label(on.header, "what it's written on");
        Some(match &part.at {
            Some(at) => finding.fix(format!("place it {place}"), at.place, place),
            None => finding,
        })
    });
}
