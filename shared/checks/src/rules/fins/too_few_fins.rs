//! `fins/too-few`: a set of one or two fins.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::PartKind;

/// The rule.
pub static TOO_FEW: Rule = Rule {
    name: "fins/too-few",
    family: Family::Fins,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a set of one or two fins",
    why: "One or two fins hold the rocket straight in one plane and not in the other, where it's free to tumble.",
    prose: include_str!("too_few.md"),
    thresholds: &[],
    example: Example::new("count: 3", "count: 2"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for part in &cx.design.parts {
        let PartKind::Fins(fins) = &part.kind else { continue };
        let Some(count) = fins.count.as_ref().filter(|count| count.si < 3.0) else { continue };
        out.push(
            TOO_FEW
                .finding(
                    count.place,
                    format!("{} has {} fins; three are the fewest that steer every way", part.label(), count.si),
                )
                .help("use three or four")
                .fix("make it three", count.place, "3"),
        );
    }
}
