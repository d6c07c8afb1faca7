//! `recovery/tight-packing`: more parachute and cord than the tube has room for.

use crate::common::rounded::{up, MILLIMETRE};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::{mounted::motor_extent, stage::motors};
use finwright_model::{Extent, Part, PartId, PartKind};
use finwright_units::{show, Dimension};
use std::f64::consts::PI;

/// How densely a parachute is packed that still comes out.
pub static PACKED_DENSITY: Threshold = Threshold::new(
    "packed_density",
    Dimension::DENSITY,
    200.0,
    "how densely a parachute, streamer and cord are packed that still come out",
);

/// The rule.
pub static TIGHT_PACKING: Rule = Rule {
    name: "recovery/tight-packing",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a parachute and cord with too little room in their tube",
    why: "A parachute that is stuffed in stays in, or comes out as a ball that doesn't open.",
    prose: include_str!("tight_packing.md"),
    thresholds: &[&PACKED_DENSITY],
    example: Example::new("parachute { diameter: 300 mm; mass: 4 g", "parachute { diameter: 300 mm; mass: 14 g"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (tube, part) in cx.design.parts.iter().enumerate() {
        let PartKind::Tube { inner: Some(inner), .. } = &part.kind else { continue };
        let packed: Vec<PartId> = inside(cx, tube);
        let (Some(first), Some(room)) = (packed.first(), room(cx, tube, &packed)) else { continue };
        let masses: Option<Vec<f64>> = packed.iter().map(|id| mass(cx, *id)).collect();
        let Some(mass) = masses.map(|m| m.iter().sum::<f64>()) else { continue };
        let density = cx.limit(&PACKED_DENSITY);
        let area = PI * inner.si * inner.si / 4.0;
        let (needs, has) = (mass / density, area * room.length());
        if needs <= has {
            continue;
        }
        let Some(holds) = cx.design.parts.get(*first) else { continue };
        let longer = up((needs - has) / area, MILLIMETRE);
        let place = holds.mass.as_ref().map_or(holds.header, |m| m.place);
        out.push(
            TIGHT_PACKING
                .finding(
                    place,
                    format!(
                        "{} take about {} packed, and {} has {} free",
                        joined(cx, &packed),
                        show::volume(needs),
                        part.label(),
                        show::volume(has)
                    ),
                )
                .help(format!(
                    "a tube {} longer has the room; so does one that is wider, or a thinner parachute",
                    show::length_at_least(longer)
                ))
                .label(
                    part.header,
                    format!(
                        "free from {} to {} from the tip, {} wide",
                        show::station(room.front),
                        show::station(room.back),
                        show::length(inner.si)
                    ),
                ),
        );
    }
}

/// What is packed into a tube.
fn inside(cx: &Context, tube: PartId) -> Vec<PartId> {
    let soft =
        |p: &Part| matches!(p.kind, PartKind::Parachute { .. } | PartKind::Streamer { .. } | PartKind::Cord { .. });
    let parts = cx.design.parts.iter().enumerate();
    parts.filter(|(_, part)| part.parent == Some(tube) && soft(part)).map(|(id, _)| id).collect()
}

fn mass(cx: &Context, id: PartId) -> Option<f64> {
    Some(cx.assessment.airframe.weights.get(id)?.as_ref()?.own.mass)
}

/// The free stretch around what is packed: between the nearest things ahead and behind that fill the tube. `None` where
/// nothing bounds it, or something stands in the middle of it.
fn room(cx: &Context, tube: PartId, packed: &[PartId]) -> Option<Extent> {
    let extent = |id: PartId| cx.parts().extent(id);
    let own = extent(tube)?;
    let places: Option<Vec<Extent>> = packed.iter().map(|id| extent(*id)).collect();
    let places = places?;
    let first = places.iter().map(|e| e.front).reduce(f64::min)?;
    let last = places.iter().map(|e| e.back).reduce(f64::max)?;
    let mut front = Some(own.front).filter(|_| follows_the_nose(cx, tube));
    let mut back: Option<f64> = None;
    for filled in filling(cx) {
        let touches = filled.back > own.front - TOUCH && filled.front < own.back + TOUCH;
        if !touches {
            continue;
        }
        if filled.back <= first {
            front = Some(front.map_or(filled.back, |x| x.max(filled.back)));
        } else if filled.front >= last {
            back = Some(back.map_or(filled.front, |x| x.min(filled.front)));
        } else {
            return None;
        }
    }
    // Nothing is longer than the tube: what lies beyond its end isn't this room.
    let room = Extent { front: front?.max(own.front), back: back?.min(own.back) };
    (room.length() > 0.0).then_some(room)
}

/// What only touches a tube's end bounds it too, m.
const TOUCH: f64 = 0.1e-3;

/// Whether a tube stands right behind a nose, whose base closes it.
fn follows_the_nose(cx: &Context, tube: PartId) -> bool {
    let mut ahead = cx.design.parts.iter().take(tube).filter(|part| part.is_body());
    matches!(ahead.next_back().map(|part| &part.kind), Some(PartKind::Nose { .. }))
}

/// The stretches that are filled: shoulders, couplers, bulkheads, loads, mounts and the motors in them.
fn filling(cx: &Context) -> Vec<Extent> {
    let parts = cx.design.parts.iter().zip(&cx.assessment.airframe.extents).filter(|(part, _)| {
        matches!(
            part.kind,
            PartKind::Shoulder { .. }
                | PartKind::Coupler { .. }
                | PartKind::Bulkhead { .. }
                | PartKind::Load { length: Some(_) }
                | PartKind::Mount { .. }
        )
    });
    let mut found: Vec<Extent> = parts.filter_map(|(_, extent)| *extent).collect();
    for (motor, stage) in cx.flights().flat_map(|(flight, _)| motors(cx.design, flight)) {
        found.extend(motor_extent(cx.parts(), motor, stage));
    }
    found
}

fn joined(cx: &Context, ids: &[PartId]) -> String {
    let names: Vec<String> = ids.iter().filter_map(|id| cx.design.parts.get(*id)).map(Part::label).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
