//! `shape/in-solid`: something packed where another part is solid.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static IN_SOLID: Rule = Rule {
    name: "shape/in-solid",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a parachute, streamer or cord inside something solid",
    why: "It can't lie there, so the place that it really has isn't known, nor the balance point.",
    prose: include_str!("in_solid.md"),
    thresholds: &[],
    example: Example::new(
        "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front",
        "parachute { diameter: 300 mm; mass: 4 g; at: 10 mm from front",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::InSolid { solid } = misfit.fault else { return None };
        let own = cx.parts().extent(misfit.part)?;
        let (there, solid) = (cx.parts().extent(solid)?, cx.design.parts.get(solid)?);
        let message = format!(
            "{} sits {} from the tip, inside {}, which is solid",
            part.label(),
            show::station(own.middle()),
            solid.label()
        );
        let help = if solid.word == "bulkhead" {
            let (front, back) = (show::station(there.front), show::station(there.back));
            format!("put it ahead of {front} or behind {back} from the tip")
        } else {
            let (back, label) = (show::station(there.back), solid.label());
            format!("put it behind {back} from the tip; or give {label} a `wall`, where it's hollow")
        };
        Some(IN_SOLID.finding(misfit.place, message).help(help).label(
            solid.header,
            format!("solid from {} to {} from the tip", show::station(there.front), show::station(there.back)),
        ))
    });
}
