//! `guide/starts-above`: a guide that isn't on the rod or rail when the rocket stands on its stop.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// The rule.
pub static STARTS_ABOVE: Rule = Rule {
    name: "guide/starts-above",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a guide above the end of the rod or rail",
    why: "A guide that isn't on the rod or rail holds nothing, and the rocket stands crooked before it even starts.",
    prose: include_str!("starts_above.md"),
    thresholds: &[],
    example: Example::new("length: 1 m; material: steel", "length: 0.15 m; material: steel"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (flight, numbers) in cx.flights() {
        let Some(pad) = cx.design.pad_of(flight) else { continue };
        let Some(length) = pad.rail_length() else { continue };
        let word = pad.rail_word();
        for guide in numbers.guides() {
            if guide.leaves_after > 0.0 {
                continue;
            }
            let Some(part) = cx.design.parts.get(guide.part) else { continue };
            let least = length.si - guide.leaves_after;
            let named = flight.guided_by.iter().find(|g| g.value == guide.part).map_or(flight.name.place, |g| g.place);
            out.push(
                STARTS_ABOVE
                    .finding(
                        named,
                        format!(
                            "in {}, {} starts {} above the end of the {word}",
                            flight.name.value,
                            part.label(),
                            show::length(-guide.leaves_after)
                        ),
                    )
                    .help(format!(
                        "the {word} must be longer than {} even to reach it; or place it nearer the aft end",
                        show::length_at_least(least)
                    ))
                    .label(length.place, format!("the {word} ends here"))
                    .label(part.header, "this guide"),
            );
        }
    }
}
