//! Parts in places where nothing can be.

use super::{Fault, Misfit};
use crate::shape::Parts;
use finwright_grammar::Place;
use finwright_model::{Extent, Part, PartId, PartKind};

pub(super) fn places(parts: Parts) -> Vec<Misfit> {
    let bodies: Vec<PartId> = parts.all().filter(|(_, part)| part.is_body()).map(|(id, _)| id).collect();
    let tail = bodies.last().and_then(|id| parts.extent(*id)).map(|extent| extent.back);
    let of = |(id, part): (PartId, &Part)| {
        let fault = if part.is_guide() {
            off_rocket(parts.extent(id)?, tail?, part.at.as_ref().map_or(0.0, |at| at.distance.spread.total()))?
        } else if is_packed(part) {
            in_solid(parts, parts.extent(id)?)?
        } else {
            let at = bodies.iter().position(|body| *body == id).filter(|_| is_nose(part))?;
            Fault::NoseBehind { ahead: *bodies.get(at.checked_sub(1)?)? }
        };
        Some(Misfit { part: id, fault, place: at(part) })
    };
    parts.all().filter_map(of).collect()
}

/// A guide that only overhangs an end is still on the rocket.
fn off_rocket(own: Extent, tail: f64, give: f64) -> Option<Fault> {
    let give = give + SLACK;
    if own.front > tail + give {
        return Some(Fault::OffRocket { gap: own.front - tail, behind: true });
    }
    (own.back < -give).then_some(Fault::OffRocket { gap: -own.back, behind: false })
}

/// What is packed lies in something solid where its middle does.
fn in_solid(parts: Parts, own: Extent) -> Option<Fault> {
    let around = |extent: Extent| own.middle() > extent.front + SLACK && own.middle() < extent.back - SLACK;
    let (solid, ..) = parts.placed().find(|(_, part, extent)| is_solid(part) && around(*extent))?;
    Some(Fault::InSolid { solid })
}

/// What only touches isn't inside, m.
const SLACK: f64 = 1e-3;

/// Whether a part fills its stretch. One that was weighed may be hollow: its wall isn't needed.
fn is_solid(part: &Part) -> bool {
    let unsaid = part.mass.is_none() && part.broken.is_empty();
    match &part.kind {
        PartKind::Bulkhead { .. } => true,
        PartKind::Nose { wall: None, .. } | PartKind::Shoulder { wall: None, .. } => unsaid,
        _ => false,
    }
}

fn is_packed(part: &Part) -> bool {
    matches!(part.kind, PartKind::Parachute { .. } | PartKind::Streamer { .. } | PartKind::Cord { .. })
}

fn is_nose(part: &Part) -> bool {
    matches!(part.kind, PartKind::Nose { .. })
}

fn at(part: &Part) -> Place {
    part.at.as_ref().map_or(part.header, |at| at.place)
}
