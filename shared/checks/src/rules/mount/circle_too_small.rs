//! `mount/circle-too-small`: a cluster's mounts through each other.

use crate::common::misfit;
use crate::common::rounded::{mm, up, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_model::PartKind;
use finwright_units::show;

/// The rule.
pub static CIRCLE_TOO_SMALL: Rule = Rule {
    name: "mount/circle-too-small",
    family: Family::Mount,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a cluster of motors on a circle so small that their mounts go through each other",
    why: "Two tubes don't fit in one place, so the rocket can't be built like this.",
    prose: include_str!("circle_too_small.md"),
    thresholds: &[],
    example: Example::new("motors: 2; circle: 12 mm", "motors: 2; circle: 10 mm").after(&[
        (
            "bore: 18 mm; outer: 18.8 mm; length: 70 mm",
            "bore: 10 mm; outer: 10.8 mm; length: 70 mm; motors: 2; circle: 12 mm",
        ),
        (
            "diameter: 18 mm; length: 70 mm; mass: 19 g; propellant: 5.6 g",
            "diameter: 10 mm; length: 70 mm; mass: 9 g; propellant: 2.8 g",
        ),
        ("code: \"B8-4\"", "code: \"A4-4\""),
        (
            "0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N",
            "0.05 s: 4.5 N, 0.1 s: 7 N, 0.2 s: 6.5 N, 0.3 s: 3 N, 0.55 s: 2.5 N",
        ),
    ]),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::MountsMeet { circle, least } = misfit.fault else { return None };
        let PartKind::Mount { outer: Some(outer), motors: Some(count), .. } = &part.kind else { return None };
        let (count, wanted) = (show::number(count.si), mm(up(least, TENTH)));
        let circle = show::length(circle);
        let message = format!("{}'s {count} tubes go through each other on a circle of {circle}", part.label());
        Some(
            CIRCLE_TOO_SMALL
                .finding(misfit.place, message)
                .help(format!("they need a circle of {wanted} or more, and a tube that holds it"))
                .label(outer.place, format!("each is {} wide", show::length(outer.si)))
                .fix(format!("make the circle {wanted}"), misfit.place, wanted),
        )
    });
}
