//! `shape/loose-bulkhead`: a bulkhead much narrower than the tube around it.

use crate::common::rounded::{down, mm, SLIDES, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::Parts;
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
    for (_, part, own) in cx.parts().placed() {
        let PartKind::Bulkhead { outer: Some(outer), .. } = &part.kind else { continue };
        let Some(Around { part: around, inner, place }) = around(cx.parts(), part, own) else { continue };
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
                .label(place, format!("{room} inside"))
                .fix(format!("make it {wanted} wide"), outer.place, wanted),
        );
    }
}

/// What a disc sits in.
struct Around<'d> {
    part: &'d Part,
    /// How wide a disc may be in it, m, and where that's said.
    inner: f64,
    place: Place,
}

/// The narrowest tube, coupler or shoulder around a part; `None` beside a mount, whose end a disc may close.
fn around<'d>(parts: Parts<'d>, part: &Part, own: Extent) -> Option<Around<'d>> {
    let beside = || parts.placed().filter(|(_, other, _)| other.stage == part.stage);
    let closes = |(_, mount, extent): (PartId, &Part, Extent)| {
        matches!(mount.kind, PartKind::Mount { .. }) && own.overlap(extent) > -SAME
    };
    if beside().any(closes) {
        return None;
    }
    let holds = |(_, around, extent): (PartId, &'d Part, Extent)| {
        let (width, wall, shared) = match &around.kind {
            PartKind::Tube { inner, .. } | PartKind::Coupler { inner, .. } => (inner.as_ref()?, 0.0, SAME),
            PartKind::Shoulder { outer, wall, .. } => (outer.as_ref()?, wall.as_ref()?.si, -SAME),
            _ => return None,
        };
        let inner = width.si - 2.0 * wall;
        (own.overlap(extent) > shared).then_some(Around { part: around, inner, place: width.place })
    };
    beside().filter_map(holds).min_by(|one, other| one.inner.total_cmp(&other.inner))
}
