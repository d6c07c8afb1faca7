//! `shape/outside-parent`: something inside that reaches out of what it's in.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_model::{Extent, PartId, PartKind};
use finwright_units::{show, Dimension};

/// How far something inside may reach out.
pub static REACHES_OUT: Threshold =
    Threshold::new("reaches_out", Dimension::LENGTH, 1.0e-3, "how far something inside may reach out of what it's in");

/// The rule.
pub static OUTSIDE_PARENT: Rule = Rule {
    name: "shape/outside-parent",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "something inside that reaches out of the part it's in",
    why: "It sits in another part than the one that it's written in, or outside of the rocket: its place is off, and \
        so is the balance point.",
    prose: include_str!("outside_parent.md"),
    thresholds: &[&REACHES_OUT],
    example: Example::new("ballast { mass: 1 g; at: 50 mm from front }", "ballast { mass: 1 g; at: 100 mm from tip }"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let extent = |id: PartId| cx.parts().extent(id);
    for (id, part) in cx.design.parts.iter().enumerate() {
        let inside = matches!(
            part.kind,
            PartKind::Bulkhead { .. }
                | PartKind::Load { .. }
                | PartKind::Ballast
                | PartKind::Parachute { .. }
                | PartKind::Streamer { .. }
                | PartKind::Cord { .. }
        );
        let (Some(parent), Some(own), Some(at)) = (part.parent.filter(|_| inside), extent(id), &part.at) else {
            continue;
        };
        let (Some(home), Some(room)) = (cx.design.parts.get(parent), room(cx, parent)) else { continue };
        let (ahead, behind) = (room.front - own.front, own.back - room.back);
        let (off, word) = if ahead >= behind { (ahead, "ahead of") } else { (behind, "behind") };
        if off <= cx.limit(&REACHES_OUT) {
            continue;
        }
        let message = if own.length() > 0.0 {
            format!("{} reaches {} {word} {}", part.label(), show::station(off), home.label())
        } else {
            format!("{} sits {} {word} {}", part.label(), show::station(off), home.label())
        };
        let half = if part.placed_by_middle() { 0.5 * own.length() } else { 0.0 };
        let most = room.length() - own.length();
        let finding = OUTSIDE_PARENT.finding(at.place, message).label(
            home.header,
            format!("from {} to {} from the tip", show::station(room.front), show::station(room.back)),
        );
        out.push(if most < 0.0 {
            finding.help(format!(
                "it's {} long, and there is room for {}",
                show::station(own.length()),
                show::station(room.length())
            ))
        } else if home.is_body() && extent(parent) == Some(room) {
            finding.help(format!(
                "in {} its `at` may be from {} to {} from front; or write it in the part that it sits in",
                home.label(),
                show::si::station(half),
                show::si::station(half + most)
            ))
        } else {
            finding.help("measure it from an edge of the part that it sits in, or write it in that part")
        });
    }
}

/// The stretch of a part and of the couplers that stand in it.
fn room(cx: &Context, id: PartId) -> Option<Extent> {
    let extent = |id: PartId| cx.parts().extent(id);
    let own = extent(id)?;
    let couplers = cx
        .design
        .parts
        .iter()
        .enumerate()
        .filter(|(_, part)| part.parent == Some(id) && matches!(part.kind, PartKind::Coupler { .. }));
    Some(
        couplers
            .filter_map(|(coupler, _)| extent(coupler))
            .fold(own, |room, more| Extent { front: room.front.min(more.front), back: room.back.max(more.back) }),
    )
}
