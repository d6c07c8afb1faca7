//! Walls, discs, clusters, masses and balance points that there is no room for.

use super::{least, most, Fault, Misfit, SAME};
use crate::shape::Parts;
use crate::stage::touching_circle;
use finwright_model::{Amount, Anchor, Extent, Part, PartId, PartKind};

pub(super) fn sizes(parts: Parts) -> Vec<Misfit> {
    let mut found = Vec::new();
    for (id, part) in parts.all() {
        let faults =
            [wall(part), cluster(part), off_axis(parts, part, id), disc(parts, part, id), balance(parts, part, id)];
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

fn cluster(part: &Part) -> Found<'_> {
    let PartKind::Mount { outer, motors, circle, .. } = &part.kind else { return None };
    let (outer, circle) = (outer.as_ref()?, circle.as_ref()?);
    let count = motors.as_ref()?.si;
    let meets = count > 1.0 && touching_circle(least(outer), count) > most(circle) + SAME;
    meets.then(|| (Fault::MountsMeet { circle: circle.si, least: touching_circle(outer.si, count) }, circle))
}

/// How far what is glued to a body's outside may have its middle beyond the surface, where the body is thin, m: a
/// camera on a pencil of a rocket (common practice, no source).
const BESIDE: f64 = 50e-3;

fn off_axis<'d>(parts: Parts<'d>, part: &'d Part, id: PartId) -> Found<'d> {
    let off = part.off_axis.as_ref()?;
    let at = parts.extent(id)?.middle();
    let (on, radius) = body_around(parts, part, at)?;
    // A load may be carried on the outside; ballast is inside.
    let reach = if matches!(part.kind, PartKind::Load { .. }) { radius + radius.max(BESIDE) } else { radius };
    (least(off) > reach + SAME).then_some((Fault::OffAxis { off: off.si, most: reach, on }, off))
}

/// The stretch of the body around a part, and its radius at a station.
fn body_around(parts: Parts, part: &Part, at: f64) -> Option<(PartId, f64)> {
    let mut home = part.parent?;
    while !parts.part(home)?.is_body() {
        home = parts.part(home)?.parent?;
    }
    parts.extent(home)?;
    Some((home, parts.radius(home, at)?))
}

fn disc<'d>(parts: Parts<'d>, part: &'d Part, id: PartId) -> Found<'d> {
    let PartKind::Bulkhead { outer, .. } = &part.kind else { return None };
    let (outer, home) = (outer.as_ref()?, part.parent?);
    let room = match &parts.part(home)?.kind {
        PartKind::Tube { inner, .. } => most(inner.as_ref()?),
        // On the end of a coupler it may be as wide as that.
        PartKind::Coupler { outer, .. } => most(outer.as_ref()?),
        PartKind::Nose { wall, .. } | PartKind::Taper { wall, .. } => {
            let own = parts.extent(id)?;
            parts.extent(home)?;
            let wall = wall.as_ref().map_or(0.0, least);
            2.0 * (parts.radius(home, own.front)?.max(parts.radius(home, own.back)?) - wall)
        }
        _ => return None,
    };
    (least(outer) > room + SAME).then_some((Fault::TooWide { wide: outer.si, room, home }, outer))
}

fn balance<'d>(parts: Parts<'d>, part: &'d Part, id: PartId) -> Found<'d> {
    let distance = &part.balance.as_ref()?.distance;
    let own = parts.extent(id)?;
    let length = own.length();
    // What is only a point as far as places go may balance anywhere near.
    if length <= 0.0 {
        return None;
    }
    let at = match part.balance.as_ref()?.anchor {
        Anchor::Back => length - distance.si,
        _ => distance.si,
    };
    let room = reach(parts, id, own);
    let give = distance.spread.total() + REACH;
    let outside = at < room.front - give || at > room.back + give;
    outside.then_some((Fault::BalanceOutside { at, room }, distance))
}

/// A measured balance point may lie this far outside of a part, m: nobody measures closer.
const REACH: f64 = 1e-3;

/// How far a part reaches with what is in it, from its own front: a shoulder is weighed with its nose, and a fin's tip
/// may lie behind its root.
fn reach(parts: Parts, id: PartId, own: Extent) -> Extent {
    let mut room = Extent { front: 0.0, back: own.length() };
    for (_, _, extent) in parts.placed().filter(|(_, part, _)| part.parent == Some(id)) {
        room.front = room.front.min(extent.front - own.front);
        room.back = room.back.max(extent.back - own.front);
    }
    if let Some(fin) = parts.fin(id) {
        let heights = (0..=20).map(|i| fin.geometry.span * f64::from(i) / 20.0);
        for (front, back) in heights.filter_map(|height| fin.plan.edges_at(height)) {
            room.front = room.front.min(front);
            room.back = room.back.max(back);
        }
    }
    room
}
