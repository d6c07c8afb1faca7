//! Room around a rod or rail: fins beside it, wide stretches of the airframe along it, guides in one line.

mod unused;

use super::pad::{GuideNumbers, OnPad};
use crate::hardware::guide_offset;
use crate::shape::Parts;
use finwright_model::{Design, Extent, Pad, Part, PartId, PartKind, Rail};
use finwright_physics::beside_rod::{angle_to_fin, rail_distance, rod_distance};
use std::f64::consts::PI;

pub use unused::UnusedGuide;

/// What stands in the way of a flight's rod or rail, and how far off it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Clearance {
    /// The guides in use, the frontmost first.
    pub guides: Vec<GuideLine>,
    /// Sets of fins beside the rod or rail, where the guides' angle is known.
    pub fins: Vec<FinRoom>,
    /// The stretch of the airframe that comes closest, where one is wider than the body under the guides.
    pub body: Option<BodyRoom>,
    /// Where around the body there is most room; `None` without fins beside the rod or rail.
    pub gap: Option<Gap>,
    /// Guides that the flight doesn't use, beside the rod or rail.
    pub unused: Vec<UnusedGuide>,
}

/// The angle around the body that is furthest from all fins, nearest to where the guides are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// The angle, rad.
    pub clock: f64,
    /// The least room beside fins that it leaves, m; negative where none is wide enough.
    pub room: f64,
}

/// Where a guide holds the rod or rail.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GuideLine {
    /// The guide.
    pub part: PartId,
    /// From the rocket's axis to that of its rod, or to the near face of its rail, m.
    pub distance: f64,
    /// Its angle around the body, rad, where the file says it.
    pub clock: Option<f64>,
}

/// How far a set of fins is off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FinRoom {
    /// The fins.
    pub fins: PartId,
    /// From the guides' angle to the nearest fin, rad.
    pub angle: f64,
    /// What is left beyond the room that the rod or rail needs, m; negative where a fin is in the way.
    pub room: f64,
    /// The least angle at which it would pass, rad; the middle of the gap where it doesn't even pass there.
    pub least_angle: f64,
}

/// A stretch of the airframe that is wider than the body under the guides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BodyRoom {
    /// The stretch.
    pub part: PartId,
    /// Its greatest radius beside the rod or rail, m.
    pub radius: f64,
    /// What is left beyond [`BODY_CLEARANCE`], m; negative where it's in the way.
    pub room: f64,
}

/// Air between a rod and a fin, m, and between rod or rail and a wide body (common practice, no source).
pub const FIN_CLEARANCE: f64 = 1.0e-3;
/// See [`FIN_CLEARANCE`].
pub const BODY_CLEARANCE: f64 = 2.0e-3;

/// Room to a nanometre: what is just enough in millimetres is so in inches too, whose rounding leaves a little less.
fn left_over(room: f64) -> f64 {
    (room * 1e9).round() / 1e9
}

/// The room around a flight's rod or rail; `None` where guides or rail aren't known.
pub(crate) fn clearance(parts: Parts, pad: &Pad, on_pad: &OnPad, lowest: f64) -> Option<Clearance> {
    let thing = Thing::on(parts.design, pad)?;
    let guides = on_pad.guides.iter().map(|guide| line(parts, guide, &thing)).collect::<Option<Vec<GuideLine>>>()?;
    if guides.is_empty() {
        return None;
    }
    let nearest = guides.iter().map(|g| g.distance).fold(f64::INFINITY, f64::min);
    // What lies ahead of the end at rest never comes beside the rod or rail: the rocket only moves away from it.
    let end = lowest + on_pad.stop.si - on_pad.rail_length;
    let sets = fin_sets(parts, end);
    let clock = guides.iter().find_map(|g| g.clock);
    let fins = clock.map_or_else(Vec::new, |clock| {
        sets.iter()
            .filter_map(|set| Some(set.room(nearest, angle_to_fin(clock, set.first, set.count)?, &thing)))
            .collect()
    });
    let body = widest(parts, end, &on_pad.guides, &thing, nearest);
    let gap = free_gap(parts, pad, (end, nearest, clock.unwrap_or(0.0)));
    let unused = unused::unused(parts, pad, &thing, &guides, end);
    Some(Clearance { guides, fins, body, gap, unused })
}

/// Where around the body a guide has most room, and how much, when it holds the rod or rail of `pad` `distance` m from
/// the axis ([`GuideLine::distance`]) and everything behind station `end` lies beside it; the nearest such angle to
/// `near` rad. `None` without fins there.
pub fn free_gap(parts: Parts, pad: &Pad, (end, distance, near): (f64, f64, f64)) -> Option<Gap> {
    let thing = Thing::on(parts.design, pad)?;
    let sets = fin_sets(parts, end);
    let clock = middle_of_gap(&sets, near)?;
    let rooms =
        sets.iter().filter_map(|set| Some(set.left(distance, angle_to_fin(clock, set.first, set.count)?, &thing)));
    Some(Gap { clock, room: rooms.reduce(f64::min)? })
}

/// What passes beside the rocket.
enum Thing {
    /// A rod of this radius, m.
    Rod(f64),
    /// A rail of this width, m.
    Rail(f64),
}

impl Thing {
    fn on(design: &Design, pad: &Pad) -> Option<Thing> {
        match pad.rail.as_ref()? {
            Rail::Rod { diameter, .. } => Some(Thing::Rod(diameter.as_ref()?.si / 2.0)),
            Rail::Slotted { slot, .. } => {
                Some(Thing::Rail(design.sections.get(slot.as_ref()?.value)?.width.as_ref()?.si))
            }
            Rail::Tower { .. } => None,
        }
    }
}

/// A set of flat fins that stands beside the rod or rail.
struct FinsBeside {
    id: PartId,
    first: f64,
    count: u32,
    thickness: f64,
    /// From the rocket's axis to the fins' tips, m.
    tips: f64,
}

impl FinsBeside {
    fn room(&self, distance: f64, angle: f64, thing: &Thing) -> FinRoom {
        let room = |angle: f64| self.left(distance, angle, thing);
        let middle = PI / f64::from(self.count.max(1));
        let (mut blocked, mut free) = (0.0, middle);
        // The room grows with the angle, so halving finds where it begins.
        for _ in 0..40 {
            let angle = 0.5 * (blocked + free);
            *(if room(angle) < 0.0 { &mut blocked } else { &mut free }) = angle;
        }
        FinRoom { fins: self.id, angle, room: room(angle), least_angle: free }
    }

    fn left(&self, distance: f64, angle: f64, thing: &Thing) -> f64 {
        let (needed, inside) = match thing {
            Thing::Rod(radius) => {
                (rod_distance(*radius, FIN_CLEARANCE, self.thickness, angle), distance - radius - FIN_CLEARANCE)
            }
            Thing::Rail(width) => (rail_distance(*width, self.thickness, angle), distance - FIN_CLEARANCE),
        };
        left_over((distance - needed).max(inside - self.tips))
    }
}

fn fin_sets(parts: Parts, end: f64) -> Vec<FinsBeside> {
    let beside = |(id, part, extent): (PartId, &Part, Extent)| {
        let PartKind::Fins(fins) = &part.kind else { return None };
        let span = parts.fin(id)?.geometry.span;
        Some(FinsBeside {
            id,
            first: part.clock.as_ref().map_or(0.0, |c| c.si),
            count: fins.count.as_ref()?.si as u32,
            thickness: fins.thickness.as_ref()?.si,
            tips: span + parts.radius_under(part, extent.middle())?,
        })
    };
    parts.placed().filter(|(.., extent)| extent.back > end).filter_map(beside).collect()
}

/// The angle furthest from every fin, of several such the one nearest to `near`, both in rad from 0 to a full turn.
fn middle_of_gap(sets: &[FinsBeside], near: f64) -> Option<f64> {
    // Of two gaps as near as each other, the one that counts up.
    let near = near + 1e-6;
    if let [only] = sets {
        let gap = 2.0 * PI / f64::from(only.count.max(1));
        let first = only.first + gap / 2.0;
        return Some((first + gap * ((near - first) / gap).round()).rem_euclid(2.0 * PI));
    }
    // Several sets at different angles: half a degree is finer than anyone marks.
    const STEPS: u32 = 720;
    let least = |clock: f64| sets.iter().filter_map(|set| angle_to_fin(clock, set.first, set.count)).reduce(f64::min);
    let away = |clock: f64| {
        let off = (clock - near).rem_euclid(2.0 * PI);
        off.min(2.0 * PI - off)
    };
    let mut best: Option<(f64, f64)> = None;
    for step in 0..STEPS {
        let clock = 2.0 * PI * f64::from(step) / f64::from(STEPS);
        let room = least(clock)?;
        let better = match best {
            None => true,
            Some((most, at)) => room > most + 1e-9 || (room > most - 1e-9 && away(clock) < away(at) - 1e-9),
        };
        if better {
            best = Some((room, clock));
        }
    }
    best.map(|(_, clock)| clock)
}

fn line(parts: Parts, guide: &GuideNumbers, thing: &Thing) -> Option<GuideLine> {
    let part = parts.part(guide.part)?;
    let radius = parts.radius_under(part, guide.extent.middle())?;
    let standoff = part.standoff().map_or(0.0, |s| s.si);
    let distance = match (thing, &part.kind) {
        (Thing::Rod(_), PartKind::Lug { .. }) => radius + guide_offset(parts.design, part),
        (Thing::Rail(_), PartKind::Button { .. } | PartKind::RailGuide { .. }) => radius + standoff,
        // What doesn't go on it holds it nowhere.
        _ => return None,
    };
    Some(GuideLine { part: guide.part, distance, clock: part.clock.as_ref().map(|c| c.si) })
}

fn widest(parts: Parts, end: f64, guides: &[GuideNumbers], thing: &Thing, nearest: f64) -> Option<BodyRoom> {
    let under = guides.iter().filter_map(|guide| parts.radius_under(parts.part(guide.part)?, guide.extent.middle()));
    let under = under.fold(f64::INFINITY, f64::min);
    let stretches = parts.placed().filter_map(|(id, _, extent)| {
        let section = &parts.body(id)?.section;
        // A nose or taper that stands beside it in part counts from there on.
        let from = (end - extent.front).clamp(0.0, section.length());
        let radius = if extent.back <= end { 0.0 } else { section.radius(from).max(section.radius(section.length())) };
        Some((id, radius))
    });
    let (part, radius) = stretches.reduce(|most, next| if next.1 > most.1 { next } else { most })?;
    if radius <= under + 1e-6 {
        return None;
    }
    let side = match thing {
        Thing::Rod(rod) => nearest - rod,
        Thing::Rail(_) => nearest,
    };
    // A lug lets the rod come nearer by its play.
    let play = match (thing, guides.first().and_then(|guide| parts.part(guide.part)).map(|part| &part.kind)) {
        (Thing::Rod(rod), Some(PartKind::Lug { bore: Some(bore), .. })) => (bore.si / 2.0 - rod).max(0.0),
        _ => 0.0,
    };
    Some(BodyRoom { part, radius, room: left_over(side - play - radius - BODY_CLEARANCE) })
}
