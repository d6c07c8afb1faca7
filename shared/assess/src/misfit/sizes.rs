//! Walls, discs, masses and balance points that the part around them has no room for.

use super::{least, most, Fault, Misfit, SAME};
use crate::weigh::{body_section, fin_shape};
use finwright_model::{Amount, Anchor, Design, Extent, Part, PartId, PartKind};

pub(super) fn sizes(design: &Design, extents: &[Option<Extent>]) -> Vec<Misfit> {
    let mut found = Vec::new();
    for (id, part) in design.parts.iter().enumerate() {
        let faults = [
            wall(part),
            off_axis(design, part, extents, id),
            disc(design, part, extents, id),
            balance(design, part, extents, id),
        ];
        let of_part = faults.into_iter().flatten();
        found.extend(of_part.map(|(fault, amount)| Misfit { part: id, fault, place: amount.place }));
    }
    found
}

type Found<'d> = Option<(Fault, &'d Amount)>;

fn wall(part: &Part) -> Found<'_> {
    let (wall, width) = match &part.kind {
        PartKind::Nose { wall, base, .. } => (wall.as_ref()?, base.as_ref()?),
        PartKind::Shoulder { wall, outer, .. } => (wall.as_ref()?, outer.as_ref()?),
        PartKind::Taper { wall, front, back, .. } => {
            let (front, back) = (front.as_ref()?, back.as_ref()?);
            (wall.as_ref()?, if front.si > back.si { front } else { back })
        }
        _ => return None,
    };
    let radius = width.si / 2.0;
    (least(wall) >= most(width) / 2.0).then_some((Fault::ThickWall { wall: wall.si, radius }, wall))
}

/// How far what is glued to a body's outside may have its middle beyond the surface, where the body is thin, m: a camera
/// on a pencil of a rocket (common practice, no source).
const BESIDE: f64 = 50e-3;

fn off_axis<'d>(design: &Design, part: &'d Part, extents: &[Option<Extent>], id: PartId) -> Found<'d> {
    let off = part.off_axis.as_ref()?;
    let at = extents.get(id).copied().flatten()?.middle();
    let (on, radius) = body_around(design, part, extents, at)?;
    // A load may be carried on the outside; ballast is inside.
    let reach = if matches!(part.kind, PartKind::Load { .. }) { radius + radius.max(BESIDE) } else { radius };
    (least(off) > reach + SAME).then_some((Fault::OffAxis { off: off.si, most: reach, on }, off))
}

/// The stretch of the body around a part, and its radius at a station.
fn body_around(design: &Design, part: &Part, extents: &[Option<Extent>], at: f64) -> Option<(PartId, f64)> {
    let mut home = part.parent?;
    while !design.parts.get(home)?.is_body() {
        home = design.parts.get(home)?.parent?;
    }
    let section = body_section(design.parts.get(home)?)?;
    let front = extents.get(home).copied().flatten()?.front;
    Some((home, section.radius((at - front).clamp(0.0, section.length()))))
}

fn disc<'d>(design: &Design, part: &'d Part, extents: &[Option<Extent>], id: PartId) -> Found<'d> {
    let PartKind::Bulkhead { outer, .. } = &part.kind else { return None };
    let (outer, home) = (outer.as_ref()?, part.parent?);
    let around = design.parts.get(home)?;
    let room = match &around.kind {
        PartKind::Tube { inner, .. } => most(inner.as_ref()?),
        // On the end of a coupler it may be as wide as that.
        PartKind::Coupler { outer, .. } => most(outer.as_ref()?),
        PartKind::Nose { wall, .. } | PartKind::Taper { wall, .. } => {
            let (section, own) = (body_section(around)?, extents.get(id).copied().flatten()?);
            let front = extents.get(home).copied().flatten()?.front;
            let radius = |at: f64| section.radius((at - front).clamp(0.0, section.length()));
            let wall = wall.as_ref().map_or(0.0, least);
            2.0 * (radius(own.front).max(radius(own.back)) - wall)
        }
        _ => return None,
    };
    (least(outer) > room + SAME).then_some((Fault::TooWide { wide: outer.si, room, home }, outer))
}

fn balance<'d>(design: &Design, part: &'d Part, extents: &[Option<Extent>], id: PartId) -> Found<'d> {
    let distance = &part.balance.as_ref()?.distance;
    let own = extents.get(id).copied().flatten()?;
    let length = own.length();
    // What is only a point as far as places go may balance anywhere near.
    if length <= 0.0 {
        return None;
    }
    let at = match part.balance.as_ref()?.anchor {
        Anchor::Back => length - distance.si,
        _ => distance.si,
    };
    let room = reach(design, extents, id, own);
    let give = distance.spread.total() + REACH;
    let outside = at < room.front - give || at > room.back + give;
    outside.then_some((Fault::BalanceOutside { at, room }, distance))
}

/// A measured balance point may lie this far outside of a part, m: nobody measures closer.
const REACH: f64 = 1e-3;

/// How far a part reaches with what is in it, from its own front: a shoulder is weighed with its nose, and a fin's tip may lie
/// behind its root.
fn reach(design: &Design, extents: &[Option<Extent>], id: PartId, own: Extent) -> Extent {
    let mut room = Extent { front: 0.0, back: own.length() };
    let inside = design.parts.iter().zip(extents).filter(|(part, _)| part.parent == Some(id));
    for extent in inside.filter_map(|(_, extent)| *extent) {
        room.front = room.front.min(extent.front - own.front);
        room.back = room.back.max(extent.back - own.front);
    }
    if let Some(PartKind::Fins(fins)) = design.parts.get(id).map(|part| &part.kind) {
        let (shape, heights) = (fin_shape(fins), 0..=20);
        let span = shape.as_ref().and_then(|shape| shape.geometry().ok()).map_or(0.0, |fin| fin.span);
        for (front, back) in heights.filter_map(|i| shape.as_ref()?.edges_at(span * f64::from(i) / 20.0)) {
            room.front = room.front.min(front);
            room.back = room.back.max(back);
        }
    }
    room
}
