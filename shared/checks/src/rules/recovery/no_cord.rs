//! `recovery/no-cord`: nothing ties together what comes apart.

use crate::common::bays::{bays, Bay};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::Part;

/// The rule.
pub static NO_CORD: Rule = Rule {
    name: "recovery/no-cord",
    family: Family::Recovery,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a rocket that comes apart with no cord to hold it together",
    why: "What isn't tied to the parachute falls without one.",
    prose: include_str!("no_cord.md"),
    thresholds: &[],
    example: Example::new("    cord { length: 600 mm; mass: 1.5 g; at: 90 mm from front }\n", ""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    // Where something isn't known as a part of the rocket, that may be the cord.
    if !cx.design.lost.is_empty() || cx.design.flights.is_empty() {
        return;
    }
    let bays = bays(cx);
    let lone = bays.len() == 1;
    for Bay { holder, opener, cords } in bays {
        if !cords.is_empty() {
            continue;
        }
        let message = match holder.and_then(|id| cx.design.parts.get(id)).map(Part::label) {
            Some(holder) if !lone => format!("no cord in {holder}, where {} comes out", opener.label()),
            _ => "no cord ties nose, body and what opens together".to_string(),
        };
        let help = "say it beside it, two lengths of the rocket or more: `cord { length: …; mass: …; at: … }`";
        out.push(NO_CORD.finding(opener.header, message).help(help));
    }
}
