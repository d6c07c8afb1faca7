//! `guide/body-in-the-way`: a wide stretch of the airframe where the rod or rail passes.

use crate::common::guides::{guides_of, set_standoff};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_grammar::Place;
use finwright_units::show;

/// A wide stretch of the airframe.
pub static BODY_IN_THE_WAY: Rule = Rule {
    name: "guide/body-in-the-way",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a wide stretch of the airframe where the rod or rail passes",
    why: "The wider part rests against the rod or rail, so the rocket stands crooked on it and is pushed off its line.",
    prose: include_str!("body_in_the_way.md"),
    thresholds: &[],
    example: Example::new(
        "nose { shape: ogive; length: 70 mm; base: caliber;",
        "nose { shape: ogive; length: 70 mm; base: 36 mm;",
    ),
    check: Some(check_body),
};

fn check_body(cx: &Context, out: &mut Vec<Finding>) {
    let mut told: Vec<(Place, Place)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(body) = numbers.clearance.as_ref().and_then(|c| c.body).filter(|body| body.room < 0.0) else {
            continue;
        };
        let Some(pad) = cx.design.pad_of(flight) else { continue };
        let guides = guides_of(cx, numbers);
        let (Some(guide), Some(wide)) = (guides.first(), cx.design.parts.get(body.part)) else { continue };
        if told.contains(&(guide.header, pad.name.place)) {
            continue;
        }
        told.push((guide.header, pad.name.place));
        let half_millimetres = |m: f64| (m * 2e3 - 1e-6).ceil() / 2.0;
        let edits = guides.iter().filter_map(|part| {
            let more = part.standoff().map_or(0.0, |s| s.si) - body.room;
            set_standoff(part, &format!("{} mm", show::trimmed(half_millimetres(more), 1)))
        });
        let most = guides.iter().map(|part| part.standoff().map_or(0.0, |s| s.si)).fold(0.0, f64::max) - body.room;
        let standoff = show::trimmed(half_millimetres(most), 1);
        out.push(
            BODY_IN_THE_WAY
                .finding(
                    guide.header,
                    format!(
                        "{} is in the way of {}'s {}, which {} holds {} too close",
                        wide.label(),
                        pad.name.value,
                        pad.rail_word(),
                        guide.label(),
                        show::length(-body.room),
                    ),
                )
                .help(format!("a `standoff` of {standoff} mm lets it pass"))
                .label(wide.header, "the wide part")
                .label(flight.name.place, "in this flight")
                .fix_all(format!("hold the guides off by {standoff} mm"), edits),
        );
    }
}
