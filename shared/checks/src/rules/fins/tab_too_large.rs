//! `fins/tab-too-large`: a tab longer than the root, or deeper than the body.

use crate::common::misfit;
use crate::common::rounded::{down, mm, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static TAB_TOO_LARGE: Rule = Rule {
    name: "fins/tab-too-large",
    family: Family::Fins,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a tab longer than its root, or deeper than the body has room",
    why: "Such a tab can't be built, so what the fins weigh isn't known.",
    prose: include_str!("tab_too_large.md"),
    thresholds: &[],
    example: Example::new(
        "thickness: 1.6 mm; material: balsa",
        "thickness: 1.6 mm; tab_length: 30 mm; tab_depth: 8 mm; material: balsa",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| match misfit.fault {
        Fault::TabTooLong { tab, root } => {
            let message = format!(
                "the tab of {} is {} long, and its root {}",
                part.label(),
                show::length(tab),
                show::length(root)
            );
            let help = format!("a tab of {} or less", mm(down(root, TENTH)));
            Some(TAB_TOO_LARGE.finding(misfit.place, message).help(help))
        }
        Fault::TabTooDeep { tab, room, against } => {
            let against = cx.design.parts.get(against)?;
            let message = format!(
                "the tab of {} reaches {} in, and there is room for {}",
                part.label(),
                show::length(tab),
                show::length(room)
            );
            let (fits, end) = (down(room, TENTH), if against.is_body() { "the axis" } else { "the mount" });
            let finding =
                TAB_TOO_LARGE.finding(misfit.place, message).label(against.header, format!("it ends at {end}"));
            Some(if fits > 0.0 {
                let help = format!("a depth of {} reaches {end}", mm(fits));
                finding.help(help).fix(format!("make it {} deep", mm(fits)), misfit.place, mm(fits))
            } else {
                finding.help("leave the tab out: there is no room behind the wall")
            })
        }
        _ => None,
    });
}
