//! Fins that don't fit on their body, or beside each other.

use super::{least, most, Fault, Misfit, SAME};
use crate::shape::Parts;
use crate::stage::cluster;
use finwright_grammar::Place;
use finwright_model::{Amount, Extent, Fins, Part, PartId, PartKind};
use std::f64::consts::{PI, TAU};

pub(super) fn fins(parts: Parts) -> Vec<Misfit> {
    let mut found = Vec::new();
    let sets: Vec<Set> = parts.placed().filter_map(|(id, part, extent)| set(parts, id, part, extent)).collect();
    for (number, set) in sets.iter().enumerate() {
        let mut add = |fault: Fault, place: Place| found.push(Misfit { part: set.id, fault, place });
        if let PartKind::Fins(fins) = &set.part.kind {
            let own = [tab(parts, set, fins), fillet(parts, set, fins)];
            own.into_iter().flatten().for_each(|(fault, amount)| add(fault, amount.place));
        }
        if let Some((fault, place)) = crowded(set) {
            add(fault, place);
        }
        let crossed = sets.iter().take(number).find_map(|other| Some((other.id, crossing(other, set)?)));
        if let Some((other, shared)) = crossed {
            add(Fault::Crossing { other, shared }, set.part.at.as_ref().map_or(set.part.header, |at| at.place));
        }
    }
    found
}

/// A set of fins or tubes around the body.
struct Set<'d> {
    id: PartId,
    part: &'d Part,
    extent: Extent,
    count: &'d Amount,
    /// The body's radius under it, m.
    radius: f64,
}

fn set<'d>(parts: Parts<'d>, id: PartId, part: &'d Part, extent: Extent) -> Option<Set<'d>> {
    if !part.broken.is_empty() {
        return None;
    }
    let count = match &part.kind {
        PartKind::Fins(fins) => fins.count.as_ref()?,
        PartKind::TubeFins { count, .. } => count.as_ref()?,
        _ => return None,
    };
    let radius = parts.radius_under(part, extent.middle()).filter(|radius| *radius > 0.0)?;
    Some(Set { id, part, extent, count, radius })
}

type Found<'d> = Option<(Fault, &'d Amount)>;

fn tab<'d>(parts: Parts, set: &Set, fins: &'d Fins) -> Found<'d> {
    let (length, root) = (fins.tab_length.as_ref()?, fins.root.as_ref()?);
    if least(length) > most(root) + SAME {
        return Some((Fault::TabTooLong { tab: length.si, root: root.si }, length));
    }
    let depth = fins.tab_depth.as_ref()?;
    let middle = set.extent.middle();
    let own = Extent { front: middle - length.si / 2.0, back: middle + length.si / 2.0 };
    let (room, against) = mount_beside(parts, set, own)
        .map(|(id, outer)| (set.radius - outer / 2.0, id))
        .unwrap_or((set.radius, set.part.parent?));
    (least(depth) > room + TAB_PLAY).then_some((Fault::TabTooDeep { tab: depth.si, room, against }, depth))
}

/// A tab is sanded to fit: what it's too deep by less than this, m, isn't told.
const TAB_PLAY: f64 = 0.5e-3;

/// The single mount that a tab runs against, and its outer diameter.
fn mount_beside(parts: Parts, set: &Set, tab: Extent) -> Option<(PartId, f64)> {
    let beside = |extent: Extent| tab.overlap(extent) > SAME;
    parts.placed().find_map(|(id, part, extent)| match &part.kind {
        PartKind::Mount { outer: Some(outer), .. }
            if part.stage == set.part.stage && cluster(parts.design, part.stage).0 <= 1.0 && beside(extent) =>
        {
            Some((id, least(outer)))
        }
        _ => None,
    })
}

fn fillet<'d>(parts: Parts, set: &Set, fins: &'d Fins) -> Found<'d> {
    let fillet = fins.fillet.as_ref()?;
    let span = parts.fin(set.id)?.geometry.span;
    // From the middle of one root to the middle between two of them.
    let meet = set.radius * (PI / set.count.si).sin();
    if least(fillet) > span + SAME {
        return Some((Fault::FilletOverSpan { fillet: fillet.si, span }, fillet));
    }
    let meets = set.count.si >= 2.0 && least(fillet) > meet + SAME;
    meets.then_some((Fault::FilletsMeet { fillet: fillet.si, most: meet }, fillet))
}

/// Plates side by side around the body, or tubes that touch it and each other.
fn crowded(set: &Set) -> Option<(Fault, Place)> {
    let room = match &set.part.kind {
        PartKind::Fins(fins) => TAU * set.radius / least(fins.thickness.as_ref()?),
        PartKind::TubeFins { outer, .. } => {
            // The tubes' middles lie on a circle, two neighbours a tube's width apart: (R + r) sin(π/n) ≥ r.
            let r = least(outer.as_ref()?) / 2.0;
            PI / ((r - TUBE_PLAY) / (set.radius + r)).clamp(0.0, 1.0).asin()
        }
        _ => return None,
    };
    let most = room.floor();
    (set.count.si > most).then_some((Fault::Crowded { count: set.count.si, most }, set.count.place))
}

/// Tubes of thin card give by as much, m.
const TUBE_PLAY: f64 = 0.15e-3;

/// The stretch that two sets share, where their fins stand at the same angles. Of two sets of tubes the angles don't
/// count: each takes all of the way around that its own need.
fn crossing(one: &Set, other: &Set) -> Option<f64> {
    let shared = one.extent.overlap(other.extent);
    let meet = match (&one.part.kind, &other.part.kind) {
        (PartKind::Fins(a), PartKind::Fins(b)) => {
            let thick = 0.5 * (a.thickness.as_ref()?.si + b.thickness.as_ref()?.si);
            apart(one, other) * one.radius.min(other.radius) < thick - SAME
        }
        (PartKind::TubeFins { .. }, PartKind::TubeFins { .. }) => true,
        _ => false,
    };
    (meet && shared > SHARED).then_some(shared)
}

/// Roots that share less than this touch, m.
const SHARED: f64 = 1e-3;

/// The least angle between a fin of one set and a fin of another, rad.
fn apart(one: &Set, other: &Set) -> f64 {
    let angles = |set: &Set| -> Vec<f64> {
        let first = set.part.clock.as_ref().map_or(0.0, |clock| clock.si);
        (0..set.count.si as u32).map(|fin| first + TAU * f64::from(fin) / set.count.si).collect()
    };
    let between = |a: f64, b: f64| {
        let turn = (a - b).rem_euclid(TAU);
        turn.min(TAU - turn)
    };
    let others = angles(other);
    angles(one).iter().flat_map(|a| others.iter().map(|b| between(*a, *b))).fold(f64::INFINITY, f64::min)
}
