//! Where each part sits along the rocket, from the tip (0) to the tail.

use crate::design::{Anchor, Design, Part, PartId, PartKind};

/// A part's stretch along the rocket, m from the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Its front edge.
    pub front: f64,
    /// Its back edge.
    pub back: f64,
}

impl Extent {
    /// Its middle.
    pub fn middle(self) -> f64 {
        0.5 * (self.front + self.back)
    }
    /// Its length.
    pub fn length(self) -> f64 {
        self.back - self.front
    }
}

/// Place every part whose place is known; `balance` gives the balance point that a part is placed from, where one is
/// known already.
///
/// A part placed from another may stand before it on the page, so placing is repeated until nothing more moves; what is
/// left without a place lacks a length or an `at`, or its placement goes in a circle.
pub fn place_parts(design: &Design, balance: impl Fn(PartId) -> Option<f64>) -> Vec<Option<Extent>> {
    let mut placed: Vec<Option<Extent>> = vec![None; design.parts.len()];
    let mut end = Some(0.0);
    for (id, part) in design.parts.iter().enumerate().filter(|(_, p)| p.is_body()) {
        let stretch = end.zip(part.length().map(|l| l.si)).map(|(front, l)| Extent { front, back: front + l });
        end = stretch.map(|e| e.back);
        if let Some(slot) = placed.get_mut(id) {
            *slot = stretch;
        }
    }
    let tail = end;
    for _ in 0..design.parts.len() {
        let mut moved = false;
        for id in 0..design.parts.len() {
            if placed.get(id).copied().flatten().is_none() {
                let found = place_one(design, id, &placed, tail, balance(id));
                moved |= found.is_some();
                if let Some(slot) = placed.get_mut(id) {
                    *slot = found;
                }
            }
        }
        if !moved {
            break;
        }
    }
    placed
}

/// The station of a placement's distance from its anchor, without regard to the part's own length.
pub fn station_of(
    anchor: &Anchor,
    distance: f64,
    parent: Option<Extent>,
    placed: &[Option<Extent>],
    tail: Option<f64>,
    balance: Option<f64>,
) -> Option<f64> {
    let of = |id: &PartId| placed.get(*id).copied().flatten();
    Some(match anchor {
        Anchor::Front => parent?.front + distance,
        Anchor::Back => parent?.back - distance,
        Anchor::Tip => distance,
        Anchor::Tail => tail? - distance,
        Anchor::PartFront(id) => of(id)?.front + distance,
        Anchor::PartBack(id) => of(id)?.back - distance,
        Anchor::AheadOfBalance => balance? - distance,
        Anchor::BehindBalance => balance? + distance,
    })
}

fn place_one(
    design: &Design,
    id: PartId,
    placed: &[Option<Extent>],
    tail: Option<f64>,
    balance: Option<f64>,
) -> Option<Extent> {
    let part = design.parts.get(id)?;
    if part.is_body() || part.broken.contains(&"at") {
        return None;
    }
    let parent = part.parent.and_then(|p| placed.get(p).copied().flatten());
    let length = own_length(part)?;
    let Some(at) = &part.at else { return default_place(part, parent?, length) };
    let station = station_of(&at.anchor, at.distance.si, parent, placed, tail, balance)?;
    Some(if part.placed_by_middle() {
        Extent { front: station - length / 2.0, back: station + length / 2.0 }
    } else if matches!(at.anchor, Anchor::Back | Anchor::Tail | Anchor::PartBack(_)) {
        Extent { front: station - length, back: station }
    } else {
        Extent { front: station, back: station + length }
    })
}

/// Where a part goes that doesn't say: a shoulder behind its part, a mount flush with the back, rings along their mount.
/// Anything else has no place until it says one.
fn default_place(part: &Part, parent: Extent, length: f64) -> Option<Extent> {
    match part.kind {
        PartKind::Shoulder { .. } => Some(Extent { front: parent.back, back: parent.back + length }),
        PartKind::Mount { .. } => Some(Extent { front: parent.back - length, back: parent.back }),
        PartKind::Rings { .. } => Some(parent),
        PartKind::ThrustRing { .. } => Some(Extent { front: parent.front, back: parent.front + length }),
        PartKind::Hook { .. } => Some(Extent { front: parent.back - length, back: parent.back }),
        _ => None,
    }
}

fn own_length(part: &Part) -> Option<f64> {
    match &part.kind {
        PartKind::Ballast | PartKind::Parachute { .. } | PartKind::Streamer { .. } | PartKind::Cord { .. } => Some(0.0),
        PartKind::Button { .. } | PartKind::Rings { .. } => Some(0.0),
        PartKind::Load { length } => Some(length.as_ref().map_or(0.0, |l| l.si)),
        _ => part.length().map(|l| l.si),
    }
}
