//! `fins/off-body`: fins whose root reaches beyond what they stand on.

use crate::common::limits::STEP;
use crate::common::rounded::mm;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::{Part, PartId, PartKind};
use finwright_units::show;

/// The rule.
pub static OFF_BODY: Rule = Rule {
    name: "fins/off-body",
    family: Family::Fins,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "fins whose root reaches beyond the body",
    why: "A root without body under it isn't glued to anything there, and the fin breaks off at the edge.",
    prose: include_str!("off_body.md"),
    thresholds: &[],
    example: Example::new("material: balsa; at: 0 mm from back", "material: balsa; at: -15 mm from back"),
    check: Some(check),
};

/// Less than a tenth of a millimetre is a rounding, not a place, m.
const SLACK: f64 = 0.1e-3;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (id, part) in cx.design.parts.iter().enumerate() {
        let PartKind::Fins(fins) = &part.kind else { continue };
        let extent = |id: PartId| cx.parts().extent(id);
        let Some((parent, Some(own), Some(at))) = part.parent.map(|p| (p, extent(id), &part.at)) else { continue };
        let (Some(body), Some(on)) = (extent(parent), cx.design.parts.get(parent)) else { continue };
        let (ahead, behind) = (body.front - own.front, own.back - body.back);
        let goes_on = |back: bool| goes_on(cx, parent, back);
        let (off, edge, word) = if behind > SLACK && !goes_on(true) {
            (behind, "back", "behind")
        } else if ahead > SLACK && !goes_on(false) {
            (ahead, "front", "ahead of")
        } else {
            continue;
        };
        let finding = OFF_BODY
            .finding(
                at.place,
                format!("the root of {} reaches {} {word} {}", part.label(), show::station(off), on.label()),
            )
            .label(on.header, format!("{} long", show::length(body.length())));
        out.push(if own.length() <= body.length() + SLACK {
            let flush = format!("0 mm from {edge}");
            finding.help(format!("`at: {flush}` puts it flush with the {edge}")).fix(
                format!("put the fins {flush}"),
                at.place,
                flush,
            )
        } else {
            let finding = finding.help(format!(
                "the root is {} long: make it {} or less, or the body longer",
                show::length(own.length()),
                mm(body.length())
            ));
            match &fins.root {
                Some(root) => finding.label(root.place, "the root"),
                None => finding,
            }
        });
    }
}

/// Whether the body goes on beyond this stretch's end with the same diameter.
fn goes_on(cx: &Context, id: PartId, back: bool) -> bool {
    let bodies: Vec<(PartId, &Part)> = cx.design.parts.iter().enumerate().filter(|(_, p)| p.is_body()).collect();
    let Some(here) = bodies.iter().position(|(body, _)| *body == id) else { return false };
    let next = if back { bodies.get(here + 1) } else { here.checked_sub(1).and_then(|before| bodies.get(before)) };
    let (Some((other, next)), Some((_, own))) = (next, bodies.get(here)) else { return false };
    let both_tubes = matches!((&own.kind, &next.kind), (PartKind::Tube { .. }, PartKind::Tube { .. }));
    let radius = |id: PartId| cx.parts().body(id).map(|body| body.section.aft_radius());
    let same = radius(id).zip(radius(*other)).is_some_and(|(a, b)| 2.0 * (a - b).abs() <= cx.limit(&STEP));
    both_tubes && same && own.stage == next.stage
}
