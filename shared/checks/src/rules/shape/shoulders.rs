//! `shape/tight-shoulder`, `shape/loose-shoulder` and `shape/short-shoulder`: shoulders and couplers in their tubes.

use crate::common::rounded::{down, mm, up, MILLIMETRE, SLIDES, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_model::fit::SAME;
use finwright_model::{Amount, Part, PartId, PartKind};
use finwright_units::{show, Dimension};

/// The most play of a shoulder or coupler.
pub static SHOULDER_PLAY: Threshold = Threshold::new(
    "shoulder_play",
    Dimension::LENGTH,
    1.0e-3,
    "the most play of a shoulder or coupler in its tube, across the diameter",
);
/// The least length of a shoulder.
pub static SHOULDER_LENGTH: Threshold = Threshold::new(
    "shoulder_length",
    Dimension::CALIBRES,
    0.5,
    "the least length of a shoulder or coupler in its tube, in diameters of that tube",
);

/// Too wide.
pub static TIGHT_SHOULDER: Rule = Rule {
    name: "shape/tight-shoulder",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a shoulder or coupler wider than the inside of its tube",
    why: "It doesn't go in; a nose that is forced in doesn't come off when the parachute should come out.",
    prose: include_str!("tight_shoulder.md"),
    thresholds: &[],
    example: Example::new("shoulder { length: 20 mm; outer: 23.9 mm }", "shoulder { length: 20 mm; outer: 24.3 mm }"),
    check: Some(|cx, out| each(cx, out, tight)),
};

/// Too narrow.
pub static LOOSE_SHOULDER: Rule = Rule {
    name: "shape/loose-shoulder",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a shoulder or coupler much narrower than its tube",
    why: "A loose nose sits crooked and falls off early; a loose joint bends under thrust.",
    prose: include_str!("loose_shoulder.md"),
    thresholds: &[&SHOULDER_PLAY],
    example: Example::new("shoulder { length: 20 mm; outer: 23.9 mm }", "shoulder { length: 20 mm; outer: 22.5 mm }"),
    check: Some(|cx, out| each(cx, out, loose)),
};

/// Too short.
pub static SHORT_SHOULDER: Rule = Rule {
    name: "shape/short-shoulder",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Note,
    summary: "a shoulder or coupler that reaches less than half a diameter into its tube",
    why: "A short joint tilts: the same play over half the length is twice the angle.",
    prose: include_str!("short_shoulder.md"),
    thresholds: &[&SHOULDER_LENGTH],
    example: Example::new("shoulder { length: 20 mm; outer: 23.9 mm }", "shoulder { length: 8 mm; outer: 23.9 mm }"),
    check: Some(|cx, out| each(cx, out, short)),
};

/// A shoulder or coupler where it goes into a tube.
struct Joint<'a> {
    part: &'a Part,
    outer: &'a Amount,
    tube: &'a Part,
    inner: &'a Amount,
    /// The tube's outer diameter, m.
    wide: f64,
    /// How far it reaches into the tube, m.
    depth: f64,
}

fn each(cx: &Context, out: &mut Vec<Finding>, check: fn(&Context, &Joint) -> Option<Finding>) {
    for (id, part) in cx.design.parts.iter().enumerate() {
        let (PartKind::Shoulder { outer: Some(outer), .. } | PartKind::Coupler { outer: Some(outer), .. }) = &part.kind
        else {
            continue;
        };
        let extent = |id: PartId| cx.parts().extent(id);
        let Some(own) = extent(id) else { continue };
        let joints = cx.design.parts.iter().enumerate().filter_map(|(tube_id, tube)| {
            let PartKind::Tube { inner: Some(inner), outer: Some(wide), .. } = &tube.kind else { return None };
            let depth = own.overlap(extent(tube_id)?);
            // A tube without a wall has no inside to speak of.
            if inner.si >= wide.si {
                return None;
            }
            (depth > LEAST_DEPTH).then_some(Joint { part, outer, tube, inner, wide: wide.si, depth })
        });
        // A coupler that goes into two equal tubes is told once.
        out.extend(joints.filter_map(|joint| check(cx, &joint)).next());
    }
}

/// What reaches less far into a tube only touches it, m.
const LEAST_DEPTH: f64 = 0.5e-3;

fn tight(_: &Context, joint: &Joint) -> Option<Finding> {
    let more = joint.outer.si - joint.inner.si;
    (more > SAME).then(|| {
        let [wide, room] = show::lengths_apart(joint.outer.si, joint.inner.si);
        let message = format!("{} is {wide} wide and {} is {room} inside", joint.part.label(), joint.tube.label());
        sliding(joint, TIGHT_SHOULDER.finding(joint.outer.place, message))
    })
}

fn loose(cx: &Context, joint: &Joint) -> Option<Finding> {
    let play = joint.inner.si - joint.outer.si;
    (play > cx.limit(&SHOULDER_PLAY) + SAME).then(|| {
        sliding(
            joint,
            LOOSE_SHOULDER.finding(
                joint.outer.place,
                format!("{} has {} of play in {}", joint.part.label(), show::length(play), joint.tube.label()),
            ),
        )
    })
}

/// With the width that slides in, where the part is still a ring then.
fn sliding(joint: &Joint, finding: Finding) -> Finding {
    let wanted = down(joint.inner.si - SLIDES, TENTH);
    let finding = finding
        .help(format!("{} slides in", mm(wanted)))
        .label(joint.inner.place, format!("{} inside", show::length(joint.inner.si)));
    let hole = match &joint.part.kind {
        PartKind::Coupler { inner: Some(inner), .. } => inner.si,
        PartKind::Shoulder { wall: Some(wall), .. } => 2.0 * wall.si,
        _ => 0.0,
    };
    if wanted > hole + SAME {
        finding.fix(format!("make it {} wide", mm(wanted)), joint.outer.place, mm(wanted))
    } else {
        finding
    }
}

fn short(cx: &Context, joint: &Joint) -> Option<Finding> {
    let least = cx.limit(&SHOULDER_LENGTH) * joint.wide;
    if joint.depth >= least - SAME {
        return None;
    }
    let length = joint.part.length()?;
    let finding = SHORT_SHOULDER
        .finding(
            length.place,
            format!(
                "{} reaches {} into {}, {} of its diameter",
                joint.part.label(),
                show::length(joint.depth),
                joint.tube.label(),
                show::number(joint.depth / joint.wide)
            ),
        )
        .label(joint.tube.header, format!("{} wide", show::length(joint.wide)));
    let more = up(least - joint.depth, MILLIMETRE);
    Some(match &joint.part.kind {
        PartKind::Shoulder { .. } => {
            let wanted = mm(up(length.si + least - joint.depth, MILLIMETRE));
            finding.help(format!("make it {wanted} or longer")).fix(
                format!("make it {wanted} long"),
                length.place,
                wanted,
            )
        }
        _ => finding.help(format!("put it {} further in, or make it longer", mm(more))),
    })
}
