//! `guide/much-play`: a rocket that can lean far within its guides.

use crate::common::guides::loose_lugs;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_model::PartKind;
use finwright_units::{show, Dimension};

/// The most that the rocket may lean within its guides.
pub static PLAY_ANGLE: Threshold = Threshold::new(
    "play_angle",
    Dimension::ANGLE,
    1.0_f64.to_radians(),
    "the most that the rocket may lean within its guides",
);

/// The same on one lug alone.
pub static PLAY_ANGLE_ALONE: Threshold = Threshold::new(
    "play_angle_alone",
    Dimension::ANGLE,
    2.0_f64.to_radians(),
    "the most that the rocket may lean on one lug alone",
);

/// The rule.
pub static MUCH_PLAY: Rule = Rule {
    name: "guide/much-play",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "guides that let the rocket lean",
    why: "As far as the guides let it lean, the rocket starts in another direction than its rod or rail points.",
    prose: include_str!("much_play.md"),
    thresholds: &[&PLAY_ANGLE, &PLAY_ANGLE_ALONE],
    example: Example::new("lug only { bore: 3.6 mm; length: 40 mm", "lug only { bore: 4.1 mm; length: 22 mm"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    let loose = loose_lugs(cx);
    for (flight, numbers) in cx.flights() {
        let Some((loads, slop)) = numbers.loads.as_ref().and_then(|loads| Some((loads, loads.slop?))) else { continue };
        let Some(guide) = numbers.guides().first() else { continue };
        // A lug far too wide is told of as that.
        let is_loose = numbers.guides().iter().any(|g| loose.contains(&g.part));
        let most = cx.limit(if numbers.guides().len() == 1 { &PLAY_ANGLE_ALONE } else { &PLAY_ANGLE });
        if slop <= most || is_loose || told.contains(&guide.part) {
            continue;
        }
        told.push(guide.part);
        let Some(part) = cx.design.parts.get(guide.part) else { continue };
        let play = slop.tan() * loads.spacing;
        let needed = ((play / most.tan()) * 1e3).ceil();
        let place = part.length().filter(|_| numbers.guides().len() == 1).map_or(part.header, |length| length.place);
        let mut finding = MUCH_PLAY
            .finding(
                place,
                format!(
                    "{} can lean {} within its guides: {} of play over {}",
                    flight.name.value,
                    show::angle(slop),
                    show::length(play),
                    show::length(loads.spacing)
                ),
            )
            .label(flight.name.place, "in this flight")
            .of_flight(numbers)
            .beyond(slop / most);
        finding = match (&part.kind, numbers.guides().len()) {
            (PartKind::Lug { length, .. }, 1) => finding
                .help(format!("a lug of {needed} mm, or two guides {} mm or more from end to end", pair(cx, play)))
                .fix_amount(format!("make it {needed} mm long"), length.as_ref(), format!("{needed} mm")),
            _ => finding.help(format!("place them {needed} mm or more apart, from end to end")),
        };
        out.push(finding);
    }
}

/// How far apart two guides hold the rocket straight enough, mm.
fn pair(cx: &Context, play: f64) -> f64 {
    ((play / cx.limit(&PLAY_ANGLE).tan()) * 1e3).ceil()
}
