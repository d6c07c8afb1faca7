//! `shape/overlap`: two things in one place.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::{mounted::motor_extent, stage::motors};
use finwright_model::{Extent, Part, PartId, PartKind};
use finwright_units::show;

/// The rule.
pub static OVERLAP: Rule = Rule {
    name: "shape/overlap",
    family: Family::Shape,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "two things in the same stretch of the inside",
    why: "Two things can't be in one place: one of them ends up elsewhere, and the balance point with it.",
    prose: include_str!("overlap.md"),
    thresholds: &[],
    example: Example::new("at: 60 mm from front; drag: 0.75", "at: 20 mm from back; drag: 0.75"),
    check: Some(check),
};

/// What touches doesn't overlap, m.
const SLACK: f64 = 1e-3;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let extent = |id: PartId| cx.parts().extent(id);
    let placed: Vec<(&Part, Extent)> =
        cx.design.parts.iter().enumerate().filter_map(|(id, part)| Some((part, extent(id)?))).collect();
    let solid: Vec<&(&Part, Extent)> = placed.iter().filter(|(part, _)| is_solid(part)).collect();
    for (i, first) in solid.iter().enumerate() {
        // What stands in the way of one thing often stands in the way of the next: the first that it meets tells it.
        let met = solid
            .iter()
            .skip(i + 1)
            .find(|second| shared(first.1, second.1).is_some() && !may_share(first.0, second.0));
        let Some(second) = met else { continue };
        // A mount stays where its motor has to be; the other one moves.
        let is_mount = |part: &Part| matches!(part.kind, PartKind::Mount { .. });
        let ((stays, there), (moves, own)) =
            if is_mount(second.0) && !is_mount(first.0) { (**second, **first) } else { (**first, **second) };
        let both = shared(there, own).unwrap_or(0.0);
        let message = format!("{} and {} share {} of the inside", stays.label(), moves.label(), show::station(both));
        let finding = OVERLAP.finding(at(moves), message).help(apart(moves, there, own, cx.assessment.airframe.tail));
        out.push(finding.label(stays.header, stretch(stays, there)));
    }
    for (part, own) in placed.iter().filter(|(part, _)| is_packed(part)) {
        let filled = placed.iter().filter(|(p, _)| matches!(p.kind, PartKind::Mount { .. }) && p.stage == part.stage);
        for (mount, room) in filled {
            let front = front_of_motors(cx, mount).map_or(room.front, |motor| motor.min(room.front));
            let back = room.back;
            if own.middle() <= front + SLACK || own.middle() >= back {
                continue;
            }
            let full = Extent { front, back };
            let finding = OVERLAP.finding(
                at(part),
                format!(
                    "{} sits {} from the tip, where {} and its motor are",
                    part.label(),
                    show::station(own.middle()),
                    mount.label()
                ),
            );
            out.push(
                finding
                    .help(format!("put it ahead of {} from the tip", show::station(front)))
                    .label(mount.header, stretch(mount, full)),
            );
        }
    }
}

/// How much of their stretches two things share, where that is more than a touch or half of the shorter one.
fn shared(a: Extent, b: Extent) -> Option<f64> {
    let both = a.overlap(b);
    (both > SLACK.min(0.5 * a.length().min(b.length()))).then_some(both)
}

fn is_solid(part: &Part) -> bool {
    let filling = matches!(part.kind, PartKind::Mount { .. } | PartKind::Bulkhead { .. });
    filling || matches!(&part.kind, PartKind::Load { length: Some(_) })
}

fn is_packed(part: &Part) -> bool {
    matches!(part.kind, PartKind::Parachute { .. } | PartKind::Streamer { .. } | PartKind::Cord { .. })
}

/// A load around a mount, and whatever belongs to two stages, may lie side by side.
fn may_share(a: &Part, b: &Part) -> bool {
    let beside =
        |a: &Part, b: &Part| matches!(a.kind, PartKind::Load { .. }) && matches!(b.kind, PartKind::Mount { .. });
    beside(a, b) || beside(b, a) || a.stage != b.stage
}

/// Where the foremost motor that a flight puts in the mount begins, m from the tip.
fn front_of_motors(cx: &Context, mount: &Part) -> Option<f64> {
    let flown = cx.flights().flat_map(|(flight, _)| motors(cx.design, flight));
    let own = flown.filter(|(_, stage)| *stage == mount.stage);
    own.filter_map(|(motor, stage)| Some(motor_extent(cx.parts(), motor, stage)?.front)).reduce(f64::min)
}

fn at(part: &Part) -> finwright_grammar::Place {
    part.at.as_ref().map_or(part.header, |at| at.place)
}

fn stretch(part: &Part, extent: Extent) -> String {
    format!("{} lies from {} to {} from the tip", part.label(), show::station(extent.front), show::station(extent.back))
}

/// How far one thing has to move to be clear of another, by the shorter way that stays in the rocket.
fn apart(moves: &Part, stays: Extent, own: Extent, tail: Option<f64>) -> String {
    let (forward, back) = (own.back - stays.front, stays.back - own.front);
    let ends_inside = tail.is_none_or(|tail| own.back + back <= tail + SLACK);
    let (way, far) = if back < forward && ends_inside { ("back", back) } else { ("forward", forward) };
    format!("move {} {} {way}, or make one of the two shorter", moves.label(), show::station(far))
}
