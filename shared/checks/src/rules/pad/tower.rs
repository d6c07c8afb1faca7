//! `pad/tower-misfit` and `pad/fins-meet-tower`: a rocket that doesn't go between the rails of its tower.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::flight::pad::half_gap;
use finwright_assess::{FlightNumbers, InTower};
use finwright_model::{Amount, Flight, Pad, PartKind, Rail, TOWER_RAIL};
use finwright_units::{show, Dimension};

/// The most that a tower leaves free.
pub static TOWER_PLAY: Threshold = Threshold::new(
    "tower_play",
    Dimension::LENGTH,
    3.0e-3,
    "how much wider than the body a tower may be between its rails",
);

/// The body and the rails.
pub static MISFIT: Rule = Rule {
    name: "pad/tower-misfit",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a tower that doesn't fit the rocket",
    why: "Too tight it holds a burning rocket; too wide it lets the rocket lean and leave askew.",
    prose: include_str!("tower.md"),
    thresholds: &[&TOWER_PLAY],
    example: Example::new("bore: 25.8 mm", "bore: 24.8 mm").after(IN_TOWER),
    check: Some(check_bore),
};

/// Fins and rails.
pub static FINS_MEET: Rule = Rule {
    name: "pad/fins-meet-tower",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "fins that don't go between the rails of their tower",
    why: "A fin that meets a rail holds the rocket or is torn off.",
    prose: include_str!("tower.md"),
    thresholds: &[],
    example: Example::new("rails: 3", "rails: 5; thickness: 14 mm").after(IN_TOWER),
    check: Some(check_fins),
};

const IN_TOWER: &[(&str, &str)] = &[
    ("rail { slot: slim; length: 1 m }", "tower { rails: 3; bore: 25.8 mm; length: 1.2 m }"),
    ("pad: track; guided_by: [peg, nut]", "pad: track"),
];

/// Less than this doesn't slide, m (common practice, no source).
const LEAST_PLAY: f64 = 0.3e-3;
/// Between a fin and a rail, m (common practice, no source).
const FIN_ROOM: f64 = 1.0e-3;

struct Stands<'a> {
    flight: &'a Flight,
    numbers: &'a FlightNumbers,
    pad: &'a Pad,
    held: InTower,
    bore: &'a Amount,
    rails: f64,
    thickness: f64,
}

/// The flights from towers, each tower once.
fn towers<'a>(cx: &Context<'a>) -> Vec<Stands<'a>> {
    let mut found: Vec<Stands> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let held = numbers.on_pad.as_ref().and_then(|on_pad| on_pad.in_tower);
        let (Some(held), Some(pad)) = (held, cx.design.pad_of(flight)) else { continue };
        let Some(Rail::Tower { bore: Some(bore), rails: Some(rails), thickness, .. }) = &pad.rail else { continue };
        if found.iter().any(|other| other.pad.name.place == pad.name.place) {
            continue;
        }
        let thickness = thickness.as_ref().map_or(TOWER_RAIL, |thickness| thickness.si);
        found.push(Stands { flight, numbers, pad, held, bore, rails: rails.si, thickness });
    }
    found
}

fn check_bore(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&TOWER_PLAY);
    for Stands { flight, numbers, pad, held, bore, .. } in towers(cx) {
        if (LEAST_PLAY..=most).contains(&held.play) {
            continue;
        }
        let good = format!("{} mm", show::trimmed((held.diameter * 1e3 + 0.8) * 1.0, 1));
        let how = if held.play < LEAST_PLAY { "too tight" } else { "too wide" };
        out.push(
            MISFIT
                .finding(
                    bore.place,
                    format!(
                        "{}'s {} between the rails are {how} for a body of {}",
                        pad.name.value,
                        show::length(bore.si),
                        show::length(held.diameter)
                    ),
                )
                .label(flight.name.place, "in this flight")
                .help(format!("set the rails to {good}, and slide the rocket through by hand"))
                .of_flight(numbers)
                .fix(format!("set it to {good}"), bore.place, good),
        );
    }
}

fn check_fins(cx: &Context, out: &mut Vec<Finding>) {
    for Stands { flight, numbers, pad, bore, rails, thickness, .. } in towers(cx) {
        for part in &cx.design.parts {
            let PartKind::Fins(fins) = &part.kind else { continue };
            let (Some(count), Some(thick)) = (&fins.count, &fins.thickness) else { continue };
            // Turned as well as can be, fins and rails that stand evenly come as near as this.
            let apart = half_gap(rails, count.si);
            let room = bore.si / 2.0 * apart.sin() - 0.5 * (thickness + thick.si);
            if room >= FIN_ROOM {
                continue;
            }
            out.push(
                FINS_MEET
                    .finding(
                        bore.place,
                        format!(
                            "{} fins don't go between {}'s {} rails: {} too little",
                            show::number(count.si),
                            pad.name.value,
                            show::number(rails),
                            show::length(FIN_ROOM - room)
                        ),
                    )
                    .label(part.header, "these fins")
                    .label(flight.name.place, "in this flight")
                    .help(format!("a tower of {} rails, or thinner ones", show::number(count.si)))
                    .of_flight(numbers),
            );
        }
    }
}
