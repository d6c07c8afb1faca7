//! `shape/loose-bulkhead`: a bulkhead much narrower than the tube around it.

use crate::common::rounded::{down, mm, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_grammar::Place;
use finwright_model::fit::SAME;
use finwright_model::{Extent, Part, PartId, PartKind};
use finwright_units::{show, Dimension};

/// The most room beside a bulkhead.
pub static BULKHEAD_PLAY: Threshold = Threshold::new(
    "bulkhead_play",
    Dimension::LENGTH,
    2.0e-3,
    "how much narrower than its tube a bulkhead may be, across the diameter",
);

/// The rule.
pub static LOOSE_BULKHEAD: Rule = Rule {
    name: "shape/loose-bulkhead",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a bulkhead much narrower than the tube around it",
    why: "Glue doesn't bridge the gap, and what hangs on the bulkhead comes off with it.",
    prose: include_str!("loose_bulkhead.md"),
    thresholds: &[&BULKHEAD_PLAY],
    example: Example::new(
        "    cord { length: 600 mm",
        "    bulkhead { outer: 19 mm; thickness: 3 mm; material: \
        plywood; at: 20 mm from front }\n    cord { length: 600 mm",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&BULKHEAD_PLAY);
    for (id, part) in cx.design.parts.iter().enumerate() {
        let PartKind::Bulkhead { outer: Some(outer), .. } = &part.kind else { continue };
        let Some(Around { part: around, inner, place }) = around(cx, id, part) else { continue };
        let play = inner - outer.si;
        if play <= most + SAME {
            continue;
        }
        let [wide, room] = show::lengths_apart(outer.si, inner);
        let wanted = mm(down(inner - SLIDES, TENTH));
        let message = format!("{} is {wide} wide, and {} is {room} inside", part.label(), around.label());
        out.push(
            LOOSE_BULKHEAD
                .finding(outer.place, message)
                .help(format!("{} all round is more than glue bridges; {wanted} sits in it", show::length(0.5 * play)))
                .label(place, format!("{} inside", show::length(inner)))
                .fix(format!("make it {wanted} wide"), outer.place, wanted),
        );
    }
}

/// How much narrower a disc goes in well, m.
const SLIDES: f64 = 0.2e-3;

/// What a disc sits in.
struct Around<'d> {
    part: &'d Part,
    /// How wide a disc may be in it, m, and where that's said.
    inner: f64,
    place: Place,
}

/// The narrowest tube, coupler or shoulder around a part; `None` beside a mount, whose end a disc may close.
fn around<'d>(cx: &Context<'d>, id: PartId, part: &Part) -> Option<Around<'d>> {
    let extent = |id: PartId| cx.assessment.airframe.extents.get(id).copied().flatten();
    let own = extent(id)?;
    let parts = || cx.design.parts.iter().enumerate().filter(|(_, other)| other.stage == part.stage);
    let closes = |(other, mount): (PartId, &Part)| {
        matches!(mount.kind, PartKind::Mount { .. }) && extent(other).is_some_and(|mount| overlap(own, mount) > -SAME)
    };
    if parts().any(closes) {
        return None;
    }
    let holds = |(other, around): (PartId, &'d Part)| {
        let (width, wall, shared) = match &around.kind {
            PartKind::Tube { inner, .. } | PartKind::Coupler { inner, .. } => (inner.as_ref()?, 0.0, SAME),
            PartKind::Shoulder { outer, wall, .. } => (outer.as_ref()?, wall.as_ref()?.si, -SAME),
            _ => return None,
        };
        let meets = overlap(own, extent(other)?) > shared;
        meets.then_some(Around { part: around, inner: width.si - 2.0 * wall, place: width.place })
    };
    parts().filter_map(holds).min_by(|one, other| one.inner.total_cmp(&other.inner))
}

/// How far two stretches share their way, m; below 0 what lies between them.
fn overlap(one: Extent, other: Extent) -> f64 {
    one.back.min(other.back) - one.front.max(other.front)
}
