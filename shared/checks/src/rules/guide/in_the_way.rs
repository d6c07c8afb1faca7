//! `guide/fin-in-the-way` and `guide/body-in-the-way`: what a rod or rail would hit.

use super::not_in_line::set_standoff;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use finwright_assess::FlightNumbers;
use finwright_grammar::Place;
use finwright_model::Part;
use finwright_units::show;

/// A fin.
pub static FIN_IN_THE_WAY: Rule = Rule {
    name: "guide/fin-in-the-way",
    level: Level::Error,
    summary: "a fin where the rod or rail passes",
    why: "The rocket can't be put on the pad, or a fin scrapes along the rod or rail and is torn off.",
    prose: "Guides belong in the middle of a gap between two fins: with three fins at 60 degrees, with four at 45. A wide rail needs more room than a rod, and more fins leave less: on six fins a guide often needs a standoff. The room counts from the fin's face to the rod with a millimetre of air, or to the corner of the rail (plane geometry).",
    thresholds: &[],
    example: Example::new(
        "button nut { profile: 15 mm; at: 15 mm ahead of balance; clock: 180 deg }\n    button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg }",
        "button nut { profile: 15 mm; at: 15 mm ahead of balance; clock: 130 deg }\n    button peg { profile: 15 mm; at: 12 mm from back; clock: 130 deg }",
    ),
    check: Some(check_fins),
};

/// A wide stretch of the airframe.
pub static BODY_IN_THE_WAY: Rule = Rule {
    name: "guide/body-in-the-way",
    level: Level::Error,
    summary: "a wide stretch of the airframe where the rod or rail passes",
    why: "The wider part rests against the rod or rail, so the rocket stands crooked on it and is pushed off its line.",
    prose: "Where a wider stretch of the body lies along the rod or rail, ahead of the guides or behind them, the guides must be held off until it clears: by the difference of the radii, less what the lug itself holds off, and a little air. Every standoff lengthens the lever on which friction locks the guides.",
    thresholds: &[],
    example: Example::new(
        "nose { shape: ogive; length: 70 mm; base: caliber;",
        "nose { shape: ogive; length: 70 mm; base: 36 mm;",
    ),
    check: Some(check_body),
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
        let guides = parts(cx, numbers);
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
                let needed = show::length((-gap.room * 2e3).ceil() / 2e3);
                let middle = show::trimmed(gap.clock.to_degrees(), 1);
                finding.help(format!(
                    "even in the middle of the gap, at {middle} deg, {needed} are missing: hold the guides off by that, or use a thinner {word}"
                ))
            }
            None => finding.help("turn the guides to the middle of a gap between fins"),
        };
        out.push(finding);
    }
}

fn check_body(cx: &Context, out: &mut Vec<Finding>) {
    let mut told: Vec<(Place, Place)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(body) = numbers.clearance.as_ref().and_then(|c| c.body).filter(|body| body.room < 0.0) else {
            continue;
        };
        let Some(pad) = cx.design.pad_of(flight) else { continue };
        let guides = parts(cx, numbers);
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
                        "{} is {} wide beside {}'s {}, which {} holds {} too close",
                        wide.label(),
                        show::length(2.0 * body.radius),
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

fn parts<'a>(cx: &Context<'a>, numbers: &FlightNumbers) -> Vec<&'a Part> {
    numbers.guides.iter().filter_map(|guide| cx.design.parts.get(guide.part)).collect()
}
