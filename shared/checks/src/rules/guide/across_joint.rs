//! `guide/across-joint`: a guide that reaches beyond its stretch of the body.

use crate::common::named::value_place;
use crate::common::seated::{each, Seated};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// Over the edge of its tube.
pub static ACROSS_JOINT: Rule = Rule {
    name: "guide/across-joint",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a guide that reaches beyond its stretch of the body",
    why: "A guide across a joint holds two parts together that come apart in flight or in the workshop, and beyond an \
        end it has nothing to hold on to.",
    prose: include_str!("across_joint.md"),
    thresholds: &[],
    example: Example::new(
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back",
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 4 mm from back",
    ),
    check: Some(|cx, out| each(cx, out, across_joint)),
};

fn across_joint(cx: &Context, seated: &Seated) -> Option<Finding> {
    let (over, at_front) = seated.seat.over_edge?;
    let on = cx.design.parts.get(seated.seat.on)?;
    let edge = if at_front { "front" } else { "back" };
    let half = (seated.guide.extent.length() * 0.5e3).ceil();
    let place = format!("{half} mm from {edge}");
    let finding = ACROSS_JOINT
        .finding(
            value_place(seated.part),
            format!("{} reaches {} beyond the {edge} of {}", seated.part.label(), show::length(over), on.label()),
        )
        .help(format!("place its middle {place} or further in"))
        .label(on.header, "what it sits on");
    Some(match &seated.part.at {
        Some(at) => finding.fix(format!("place it {place}"), at.place, place),
        None => finding,
    })
}
