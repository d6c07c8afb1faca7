//! `shape/off-axis`: a mass farther off the axis than the body reaches.

use crate::common::misfit;
use crate::common::rounded::{down, mm, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static OFF_AXIS: Rule = Rule {
    name: "shape/off-axis",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a ballast or load farther off the axis than the body reaches",
    why: "A mass out in the air isn't on the rocket, and the way that it rolls and swings would be computed from it.",
    prose: include_str!("off_axis.md"),
    thresholds: &[],
    example: Example::new("ballast { mass: 1 g;", "ballast { mass: 1 g; off_axis: 50 mm;"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::OffAxis { off, most, on } = misfit.fault else { return None };
        let on = cx.design.parts.get(on)?;
        let message = format!("{} lies {} off the axis, outside of {}", part.label(), show::length(off), on.label());
        let finding = OFF_AXIS.finding(misfit.place, message);
        let finding = finding.help(format!("there its `off_axis` may be {} at most", mm(down(most, TENTH))));
        Some(finding.label(on.header, "what it's in"))
    });
}
