//! What the lugs, buttons and rail guides of a flight carry, whether they can lock, and what they may bear.

use super::air::Air;
use super::pad::{GuideNumbers, OnPad};
use crate::airflow::Airflow;
use crate::assumed::Assumed;
use crate::bought::kit;
use crate::hardware::{guide_offset, section_of_width};
use crate::shape::Parts;
use finwright_model::{Amount, Design, Pad, Part, PartId, PartKind, Rail};
use finwright_physics::air::G0;
use finwright_physics::guided::Passage;
use finwright_physics::mass::MassProps;
use finwright_physics::reactions::{binding_spacing, easy_spacing, lifted_level, slop_angle, two_guides, Reactions};
use finwright_physics::stability::angle_of_attack;
use finwright_physics::thread::SCREW_YIELD;
use std::f64::consts::PI;

/// The loads of a flight's guides. Forces in N, lengths in m, angles in rad.
#[derive(Clone, Debug, PartialEq)]
pub struct Loads {
    /// The frontmost and the rearmost guide, or a lone one.
    pub guides: Vec<GuideLoad>,
    /// From the front edge of the first guide to the back edge of the last one; of a lone one its length.
    pub spacing: f64,
    /// From the rocket's axis to the guides', the larger where they differ.
    pub offset: f64,
    /// The spacing at and below which they lock by friction: the drawer rule.
    pub locks_at: f64,
    /// The spacing that leaves a margin of two.
    pub runs_easily_from: f64,
    /// How far the rocket can lean within its guides; `None` where the play isn't known.
    pub slop: Option<f64>,
    /// What was taken as a default.
    pub assumed: Vec<Assumed>,
}

/// What one guide carries, sideways, whichever way: the greatest of its ends for a lone guide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GuideLoad {
    /// The guide.
    pub part: PartId,
    /// On the pad in the steady wind, with the weight's share at the tilt.
    pub pad_wind: f64,
    /// On the pad in a gust.
    pub pad_gust: f64,
    /// While the rocket hangs level from its guides, as when a lowered rod or rail is raised.
    pub level: f64,
    /// When the front guide is about to leave, in the steady wind; `None` where it doesn't.
    pub run_wind: Option<f64>,
    /// The same in a gust.
    pub run_gust: Option<f64>,
    /// What it may bear.
    pub capacity: Option<f64>,
}

impl GuideLoad {
    /// The greatest of its loads.
    pub fn most(&self) -> f64 {
        let run = self.run_gust.or(self.run_wind).unwrap_or(0.0);
        self.pad_gust.max(self.level).max(run)
    }
}

/// Strength of a bond of lug or rail guide in peel, on its foot's area, Pa: conservative, because paper parts before
/// glue does (common practice, no source).
pub const BOND_STRENGTH: f64 = 0.3e6;
/// Strength of a body tube in shear around a button's screw, Pa, nothing behind the wall: conservative for wound paper
/// (common practice, no source).
pub const WALL_STRENGTH: f64 = 4.0e6;
/// Play of a button's neck or a shoe in its slot, m (common practice, no source).
pub const SLOT_PLAY: f64 = 0.4e-3;

/// The loads of the guides of a rocket of mass `loaded` on its pad, and when the front guide is `released`, where it
/// is.
pub(crate) fn loads(
    parts: Parts,
    (airflow, air): (&Airflow, &Air),
    pad: &Pad,
    (on_pad, loaded, released): (&OnPad, MassProps, Option<Passage>),
) -> Option<Loads> {
    let (front, rear) = on_pad.ends()?;
    let alone = on_pad.guides.len() == 1;
    let (fore, aft) = on_pad.held_at()?;
    let weight = two_guides(loaded.mass * G0 * on_pad.tilt.si.sin(), loaded.x, fore, aft);
    let at_rest = |wind: f64| {
        Some(add(weight?, two_guides(airflow.side_force(air.density, wind), airflow.side_centroid, fore, aft)?))
    };
    let in_run = |wind: f64| {
        let passage = released?;
        let pressure = 0.5 * air.density * (passage.speed * passage.speed + wind * wind);
        let slope = pressure * airflow.reference_area * airflow.total.cna;
        let force = slope * angle_of_attack(wind, passage.speed);
        let lift = two_guides(force, airflow.total.x()?, fore, aft)?;
        let share = passage.mass / loaded.mass;
        let weight = weight?;
        Some(add(Reactions { front: share * weight.front, aft: share * weight.aft }, lift))
    };
    let level = lifted_level(loaded.mass, loaded.x, fore, aft);
    let (pad_wind, pad_gust) = (at_rest(air.wind)?, at_rest(air.gust)?);
    let (run_wind, run_gust) = (in_run(air.wind), in_run(air.gust));
    let mut assumed = Vec::new();
    let spacing = rear.extent.back - front.extent.front;
    let slop = play(parts.design, pad, [front, rear], &mut assumed).map(|play| slop_angle(play, spacing));
    let mut of = |guide: &GuideNumbers, side: fn(&Reactions) -> f64| {
        let share = |held: Reactions| if alone { held.front.abs().max(held.aft.abs()) } else { side(&held).abs() };
        Some(GuideLoad {
            part: guide.part,
            pad_wind: share(pad_wind),
            pad_gust: share(pad_gust),
            level: share(level?),
            run_wind: run_wind.map(share),
            run_gust: run_gust.map(share),
            capacity: parts.part(guide.part).and_then(|part| capacity(parts.design, part, &mut assumed)),
        })
    };
    let mut guides = vec![of(front, |held| held.front)?];
    if !alone {
        guides.push(of(rear, |held| held.aft)?);
    }
    let offset = [front, rear].iter().filter_map(|guide| axis_distance(parts, guide)).fold(0.0, f64::max);
    let friction = on_pad.friction.si;
    Some(Loads {
        guides,
        spacing,
        offset,
        locks_at: binding_spacing(friction, offset),
        runs_easily_from: easy_spacing(friction, offset),
        slop,
        assumed,
    })
}

fn add(one: Reactions, other: Reactions) -> Reactions {
    Reactions { front: one.front + other.front, aft: one.aft + other.aft }
}

/// Two guides rest on the same default once.
fn assume(assumed: &mut Vec<Assumed>, one: Assumed) {
    if !assumed.contains(&one) {
        assumed.push(one);
    }
}

fn axis_distance(parts: Parts, guide: &GuideNumbers) -> Option<f64> {
    let part = parts.part(guide.part)?;
    let radius = parts.radius_under(part, guide.extent.middle())?;
    Some(radius + guide_offset(parts.design, part))
}

/// The mean play of the front and rear guide on the rod or in the slot, m.
fn play(design: &Design, pad: &Pad, guides: [&GuideNumbers; 2], assumed: &mut Vec<Assumed>) -> Option<f64> {
    let mut sum = 0.0;
    for guide in guides {
        sum += match (&design.parts.get(guide.part)?.kind, pad.rail.as_ref()?) {
            (PartKind::Lug { bore, .. }, Rail::Rod { diameter, .. }) => bore.as_ref()?.si - diameter.as_ref()?.si,
            (PartKind::Button { .. } | PartKind::RailGuide { .. }, Rail::Slotted { .. }) => {
                assume(assumed, Assumed::SlotPlay);
                SLOT_PLAY
            }
            _ => return None,
        };
    }
    // A lug too tight for its rod has no play; that it is too tight is another's to say.
    Some((0.5 * sum).max(0.0))
}

/// What a guide's fixing bears: as the file says, else by a conservative default.
fn capacity(design: &Design, part: &Part, assumed: &mut Vec<Assumed>) -> Option<f64> {
    if let Some(bears) = &part.bears {
        return Some(bears.si);
    }
    let mouth = |profile: &Option<Amount>| Some(section_of_width(design, profile)?.1.mouth.as_ref()?.si);
    let (force, usual) = match &part.kind {
        PartKind::Lug { bore, length, wall, .. } => {
            // Half its width touches the body, fillet included.
            let foot = 0.5 * (bore.as_ref()?.si + 2.0 * wall.as_ref()?.si);
            (BOND_STRENGTH * foot * length.as_ref()?.si, Assumed::BondStrength)
        }
        PartKind::RailGuide { profile, length, .. } => {
            (BOND_STRENGTH * mouth(profile)? * length.as_ref()?.si, Assumed::BondStrength)
        }
        PartKind::Button { profile, .. } => {
            let wall = wall_of(design.parts.get(part.parent?)?)?;
            let of_wall = WALL_STRENGTH * PI * mouth(profile)? * wall;
            let screw = kit(design, profile).map(|kit| kit.metric);
            let lever = guide_offset(design, part);
            match screw.map(|screw| (screw, screw.bears_across(lever, SCREW_YIELD))) {
                Some((screw, force)) if force < of_wall => (force, Assumed::Screw(screw.name)),
                _ => (of_wall, Assumed::WallStrength),
            }
        }
        _ => return None,
    };
    assume(assumed, usual);
    Some(force)
}

fn wall_of(part: &Part) -> Option<f64> {
    match &part.kind {
        PartKind::Tube { outer, inner, .. } => Some(0.5 * (outer.as_ref()?.si - inner.as_ref()?.si)),
        PartKind::Nose { wall, .. } | PartKind::Taper { wall, .. } => wall.as_ref().map(|w| w.si),
        _ => None,
    }
}
