//! `fins/crowded`: more fins or tubes than go around the body.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_model::PartKind;

/// The rule.
pub static CROWDED: Rule = Rule {
    name: "fins/crowded",
    family: Family::Fins,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "more fins or tubes than there is room for around the body",
    why: "They don't go around, so neither their mass nor the air's force on them is known.",
    prose: include_str!("crowded.md"),
    thresholds: &[],
    example: Example::new(
        FINS,
        "tube_fins { count: 8; length: 60 mm; outer: 24.8 mm; inner: 24 mm; material: \
        kraft_paper; at: 0 mm from back }",
    ),
    check: Some(check),
};

/// The example's fins.
const FINS: &str = "fins main { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 1.6 mm; \
    material: balsa; at: 0 mm from back }";

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::Crowded { count, most } = misfit.fault else { return None };
        let what = if matches!(part.kind, PartKind::Fins(_)) { "fins" } else { "tubes" };
        let message = format!("{} has {count} {what}, and around the body there is room for {most}", part.label());
        let finding = CROWDED.finding(misfit.place, message);
        Some(if most >= 3.0 {
            let help = format!("{most} or fewer, or smaller ones");
            finding.help(help).fix(format!("make it {most}"), misfit.place, format!("{most}"))
        } else {
            finding.help("smaller ones go around")
        })
    });
}
