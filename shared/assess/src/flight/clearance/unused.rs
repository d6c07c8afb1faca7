//! Guides of the rocket that a flight doesn't use, beside the rod or rail that it does: a second set on the other side.

use super::{GuideLine, Thing, BODY_CLEARANCE};
use crate::hardware::guide_offset;
use crate::shape::Parts;
use finwright_model::{fit, Extent, Pad, Part, PartId, PartKind};

/// A guide that isn't in use, and how far off the rod or rail it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnusedGuide {
    /// The guide.
    pub part: PartId,
    /// What is left beyond [`BODY_CLEARANCE`], m; negative where it's in the way. `None` where its angle around the body
    /// or that of the guides in use isn't said.
    pub room: Option<f64>,
}

/// The guides beside the rod or rail that don't run on it.
pub(super) fn unused(parts: Parts, pad: &Pad, thing: &Thing, used: &[GuideLine], end: f64) -> Vec<UnusedGuide> {
    let is_used = |id: PartId| used.iter().any(|line| line.part == id);
    let beside = |(id, part, extent): (PartId, &Part, Extent)| {
        let is_beside = part.is_guide() && !is_used(id) && extent.back > end;
        is_beside.then(|| UnusedGuide { part: id, room: room(parts, pad, thing, used, (part, extent)) })
    };
    let all: Vec<UnusedGuide> = parts.placed().filter_map(beside).collect();
    // One that would run on it, in line with those that do, is only not counted.
    let runs_along = |unused: &UnusedGuide| {
        let part = parts.part(unused.part);
        let clock = part.and_then(|part| part.clock.as_ref()).map(|clock| clock.si);
        let runs = part.is_some_and(|part| fit::runs_on(parts.design, part, pad, f64::INFINITY));
        let in_line = |line: &GuideLine| match (line.clock, clock) {
            (Some(one), Some(other)) => (one - other).abs() < ONE_LINE,
            (one, other) => one == other,
        };
        runs && used.iter().any(in_line)
    };
    all.into_iter().filter(|unused| !runs_along(unused)).collect()
}

/// Angles that differ by no more than rounding, rad, are one line.
const ONE_LINE: f64 = 1e-6;

fn room(parts: Parts, pad: &Pad, thing: &Thing, used: &[GuideLine], (part, extent): (&Part, Extent)) -> Option<f64> {
    let distance = used.iter().map(|line| line.distance).fold(f64::INFINITY, f64::min);
    let angle = part.clock.as_ref()?.si - used.iter().find_map(|line| line.clock)?;
    let surface = parts.radius_under(part, extent.middle())?;
    let (out, size) = size(parts, part)?;
    // Across from the rod or rail in use: x towards it, y beside.
    let (x, y) = ((surface + out) * angle.cos(), (surface + out) * angle.sin());
    Some(match thing {
        Thing::Rod(rod) => {
            let apart = (x - distance).hypot(y);
            match &part.kind {
                // The rod passes through it.
                PartKind::Lug { bore: Some(bore), .. } if pad.has_rod() && apart + rod <= bore.si / 2.0 => {
                    return Some(bore.si / 2.0 - apart - rod);
                }
                _ => apart - rod - size - BODY_CLEARANCE,
            }
        }
        Thing::Rail(width) => {
            let beyond = (y.abs() - width / 2.0).max(0.0);
            let before = (distance - x).max(x - distance - width).max(0.0);
            before.hypot(beyond) - size - BODY_CLEARANCE
        }
    })
}

/// How far off the body's surface the middle of a guide is, and how far it reaches from there, m. A button or shoe is
/// about half as wide and as high as its rail (common practice, no source).
fn size(parts: Parts, part: &Part) -> Option<(f64, f64)> {
    match &part.kind {
        PartKind::Lug { bore, wall, .. } => {
            let half = bore.as_ref()?.si / 2.0 + wall.as_ref().map_or(0.0, |wall| wall.si);
            Some((guide_offset(parts.design, part), half))
        }
        PartKind::Button { profile, standoff, .. } | PartKind::RailGuide { profile, standoff, .. } => {
            let quarter = profile.as_ref()?.si / 4.0;
            Some((standoff.as_ref().map_or(0.0, |standoff| standoff.si) + quarter, quarter))
        }
        _ => None,
    }
}
