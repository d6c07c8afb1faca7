//! `guide/fin-in-the-way`: a fin where the rod or rail passes.

use crate::common::guides::guides_of;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// A fin.
pub static FIN_IN_THE_WAY: Rule = Rule {
    name: "guide/fin-in-the-way",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a fin where the rod or rail passes",
    why: "The rocket can't be put on the pad, or a fin scrapes along the rod or rail and is torn off.",
    prose: include_str!("fin_in_the_way.md"),
    thresholds: &[],
    example: Example::new(
        "button nut { profile: 15 mm; at: 15 mm ahead of balance; clock: 180 deg }\n    button peg { profile: 15 mm; \
            at: 12 mm from back; clock: 180 deg }",
        "button nut { profile: 15 mm; at: 15 mm ahead of balance; clock: 130 deg }\n    button peg { profile: 15 mm; \
            at: 12 mm from back; clock: 130 deg }",
    ),
    check: Some(check_fins),
};

fn check_fins(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(clearance) = &numbers.clearance else { continue };
        let Some(pad) = cx.design.pad_of(flight) else { continue };
        let Some(closest) = clearance.fins.iter().min_by(|a, b| a.room.total_cmp(&b.room)).filter(|f| f.room < 0.0)
        else {
            continue;
        };
        let key = (clearance.guides.first().map(|g| g.part), closest.fins, pad.name.place);
        if told.contains(&key) {
            continue;
        }
        told.push(key);
        let guides = guides_of(cx, numbers);
        let (Some(guide), Some(fins)) = (guides.first(), cx.design.parts.get(closest.fins)) else { continue };
        let word = pad.rail_word();
        let place = guide.clock.as_ref().map_or(guide.header, |clock| clock.place);
        let mut finding = FIN_IN_THE_WAY
            .finding(
                place,
                format!(
                    "on {}, {} lets the {word} pass {} from the nearest fin; it needs {} or more",
                    pad.name.value,
                    guide.label(),
                    show::angle(closest.angle),
                    show::angle(closest.least_angle.to_degrees().ceil().to_radians()),
                ),
            )
            .label(fins.header, "these fins")
            .label(flight.name.place, "in this flight");
        finding = match clearance.gap {
            Some(gap) if gap.room >= 0.0 => {
                let text = format!("{} deg", show::trimmed(gap.clock.to_degrees(), 1));
                let clocks = guides.iter().filter_map(|part| Some((part.clock.as_ref()?.place, text.clone())));
                finding
                    .help(format!("turn the guides to {text}, the middle of the gap"))
                    .fix_all(format!("turn the guides to {text}"), clocks)
            }
            Some(gap) => {
                let needed = show::length_at_least((-gap.room * 2e3).ceil() / 2e3);
                let middle = show::trimmed(gap.clock.to_degrees(), 1);
                finding.help(format!(
                    "even in the middle of the gap, at {middle} deg, {needed} are missing: hold the guides off by \
                        that, or use a thinner {word}"
                ))
            }
            None => finding.help("turn the guides to the middle of a gap between fins"),
        };
        out.push(finding);
    }
}
