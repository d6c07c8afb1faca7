//! `shape/too-wide-inside`: a bulkhead wider than what it sits in.

use crate::common::misfit;
use crate::common::rounded::{down, mm, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static TOO_WIDE_INSIDE: Rule = Rule {
    name: "shape/too-wide-inside",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a bulkhead wider than what it sits in",
    why: "It doesn't go in, so the rocket can't be built like this.",
    prose: include_str!("too_wide_inside.md"),
    thresholds: &[],
    example: Example::new(
        "    cord { length: 600 mm",
        "    bulkhead { outer: 30 mm; thickness: 3 mm; material: \
        plywood; at: 20 mm from front }\n    cord { length: 600 mm",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::TooWide { wide, room, home } = misfit.fault else { return None };
        let home = cx.design.parts.get(home)?;
        let [width, fitting] = show::lengths_apart(wide, room);
        let finding = TOO_WIDE_INSIDE.finding(
            misfit.place,
            format!("{} is {width} wide, and {} has room for {fitting}", part.label(), home.label()),
        );
        let fits = down(room, TENTH);
        let finding = finding.help(format!("{} goes in", mm(fits))).label(home.header, "what it sits in");
        Some(if fits > 0.0 {
            finding.fix(format!("make it {} wide", mm(fits)), misfit.place, mm(fits))
        } else {
            finding
        })
    });
}
