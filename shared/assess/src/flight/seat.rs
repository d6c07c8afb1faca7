//! What a guide sits on: the stretch of the airframe, its edges, and what is behind the wall.

use crate::shape::Parts;
use crate::stage::cluster;
use finwright_model::{Extent, Part, PartId, PartKind};

/// Where a guide is fixed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// The stretch of the airframe that it sits on.
    pub on: PartId,
    /// Whether that stretch is a taper, whose surface leans.
    pub on_taper: bool,
    /// How far the guide reaches beyond that stretch, m, and whether it does at its front.
    pub over_edge: Option<(f64, bool)>,
    /// What stands behind the wall there: a ring, a bulkhead, a coupler, a shoulder.
    pub backing: Option<PartId>,
    /// From the outside of the body inward to the mount, where the guide sits over it, m.
    pub depth: Option<f64>,
}

/// Half the width of what a screw needs behind it, m: a small nut or washer (common practice, no source).
const NUT: f64 = 4.0e-3;

/// What a guide at this stretch sits on; `None` where it isn't on a stretch of the airframe whose place is known.
pub fn seat(parts: Parts, guide: PartId, extent: Extent) -> Option<Seat> {
    let on = parts.part(guide)?.parent?;
    let (part, stretch) = (parts.part(on)?, parts.extent(on)?);
    let (ahead, behind) = (stretch.front - extent.front, extent.back - stretch.back);
    let over_edge = if ahead > 1e-9 {
        Some((ahead, true))
    } else if behind > 1e-9 {
        Some((behind, false))
    } else {
        None
    };
    let middle = extent.middle();
    let backing = parts.placed().find(|placed| backs(parts, *placed, on, middle)).map(|(id, ..)| id);
    let depth = parts.radius(on, middle).and_then(|radius| Some(radius - mount_radius(parts, on, middle)?));
    Some(Seat { on, on_taper: matches!(part.kind, PartKind::Taper { .. }), over_edge, backing, depth })
}

/// Where something solid stands behind a stretch's wall, each by its middle in m from the tip, with the part that it
/// is.
pub fn solid_stations(parts: Parts, on: PartId) -> Vec<(f64, PartId)> {
    let Some(stretch) = parts.extent(on) else { return Vec::new() };
    let mut found = Vec::new();
    for (id, part, extent) in parts.placed() {
        match part.kind {
            PartKind::Rings { .. } => {
                found.extend(ring_stretches(part, extent).into_iter().map(|ring| (ring.middle(), id)));
            }
            PartKind::Coupler { .. } | PartKind::Bulkhead { .. } => found.push((extent.middle(), id)),
            _ => {}
        }
    }
    found.retain(|(station, _)| stretch.front < *station && *station < stretch.back);
    found
}

/// The solid stretches of a part's rings along its mount; the outer two are flush with its ends.
pub fn ring_stretches(part: &Part, mount: Extent) -> Vec<Extent> {
    let PartKind::Rings { count: Some(count), thickness: Some(thickness) } = &part.kind else { return Vec::new() };
    let (count, thickness) = (count.si as u32, thickness.si);
    let step = if count > 1 { (mount.length() - thickness) / f64::from(count - 1) } else { 0.0 };
    let first = if count > 1 { mount.front } else { mount.middle() - thickness / 2.0 };
    (0..count)
        .map(|n| {
            let front = first + step * f64::from(n);
            Extent { front, back: front + thickness }
        })
        .collect()
}

fn backs(parts: Parts, (_, part, extent): (PartId, &Part, Extent), on: PartId, station: f64) -> bool {
    let covers = |e: Extent| e.front - NUT <= station && station <= e.back + NUT;
    // A coupler or a shoulder is inside two stretches of the airframe and belongs to one of them.
    let inside = parts.extent(on).is_some_and(|e| extent.front < e.back && e.front < extent.back);
    match part.kind {
        PartKind::Coupler { .. } | PartKind::Shoulder { .. } => inside && covers(extent),
        PartKind::Bulkhead { .. } => part.parent == Some(on) && covers(extent),
        PartKind::Rings { .. } => inside && ring_stretches(part, extent).into_iter().any(covers),
        _ => false,
    }
}

/// The outer radius of the mount at a station, m; `None` where there is none, or a cluster whose tubes stand apart.
fn mount_radius(parts: Parts, on: PartId, station: f64) -> Option<f64> {
    parts.placed().find_map(|(_, part, extent)| {
        let PartKind::Mount { outer: Some(outer), .. } = &part.kind else { return None };
        let here = part.parent == Some(on) && extent.front <= station && station <= extent.back;
        (here && cluster(parts.design, part.stage).0 <= 1.0).then_some(outer.si / 2.0)
    })
}
