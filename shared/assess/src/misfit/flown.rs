//! What can't be about a flight: a motor without room, two guides in one place, air that no such field has.

use super::{least, most, SAME};
use crate::shape::Parts;
use finwright_grammar::Place;
use finwright_model::{Amount, Design, Extent, Flight, Motor, Part, PartId, PartKind, Site};
use finwright_physics::air::Atmosphere;

/// Something that can't be about a flight. Nothing of it is computed then.
#[derive(Clone, Debug, PartialEq)]
pub enum FlightMisfit {
    /// A motor that reaches into what is solid, or out of the tip.
    Motor {
        /// The motor, by its number in the design.
        motor: usize,
        /// By how much, m.
        by: f64,
        /// What is solid there; `None` out of the tip.
        into: Option<PartId>,
        /// Its length in the text.
        place: Place,
    },
    /// Two guides in one place.
    Guides {
        /// One of them.
        first: PartId,
        /// The other one.
        second: PartId,
        /// Where that one is named in the flight.
        place: Place,
    },
    /// A pressure that the air hasn't got at such a height.
    Pressure {
        /// The site, by its number in the design.
        site: usize,
        /// As said, Pa.
        said: f64,
        /// As in the standard atmosphere, Pa.
        usual: f64,
        /// The pressure in the text.
        place: Place,
    },
}

impl FlightMisfit {
    /// Where it's said.
    pub fn place(&self) -> Place {
        match self {
            FlightMisfit::Motor { place, .. }
            | FlightMisfit::Guides { place, .. }
            | FlightMisfit::Pressure { place, .. } => *place,
        }
    }
}

/// What is in the way of a motor that lies at `own`, with how far it reaches into that; `None` as the part where it's
/// the open air ahead of the tip.
pub(crate) fn motor(parts: Parts, motor: &Motor, own: Extent) -> Option<(f64, Option<PartId>)> {
    let front = own.front + motor.length.as_ref().map_or(0.0, |length| length.spread.total()) + SLACK;
    let of_nose = |(id, part, extent): (PartId, &Part, Extent)| {
        if front >= extent.back {
            return None;
        }
        let is_weighed = part.mass.is_some();
        match &part.kind {
            PartKind::Shoulder { wall: None, .. } if !is_weighed => Some((extent.back - own.front, Some(id))),
            PartKind::Nose { wall: None, .. } if !is_weighed => Some((extent.back - own.front, Some(id))),
            PartKind::Nose { wall, .. } => {
                let wide = least(motor.diameter.as_ref()?);
                let room = 2.0 * (parts.radius(id, front)? - wall.as_ref().map_or(0.0, least));
                (wide > room + SAME).then_some((extent.back - own.front, Some(id)))
            }
            _ => None,
        }
    };
    if front < 0.0 {
        return Some((-own.front, None));
    }
    parts.placed().filter_map(of_nose).max_by(|a, b| a.0.total_cmp(&b.0))
}

/// What only touches doesn't reach in, m.
const SLACK: f64 = 1e-3;

/// Two guides of a flight that are in one place: they share a stretch, at one angle around the body.
pub(crate) fn guides(design: &Design, flight: &Flight, guides: &[(PartId, Extent)]) -> Option<FlightMisfit> {
    let overlap = |(_, a): &(PartId, Extent), (_, b): &(PartId, Extent)| {
        let shared = a.overlap(*b);
        // Buttons are points as far as places go.
        let is_point = a.length().min(b.length()) <= 0.0;
        shared > SLACK || (is_point && shared > -SLACK)
    };
    let clock = |(id, _): &(PartId, Extent)| design.parts.get(*id).and_then(|part| part.clock.as_ref());
    let in_line = |a: &(PartId, Extent), b: &(PartId, Extent)| match (clock(a), clock(b)) {
        (Some(a), Some(b)) => {
            let turn = (a.si - b.si).rem_euclid(std::f64::consts::TAU);
            turn.min(std::f64::consts::TAU - turn) < IN_LINE
        }
        _ => true,
    };
    let both = guides.iter().enumerate().find_map(|(number, second)| {
        let first = guides.iter().take(number).find(|first| overlap(first, second) && in_line(first, second))?;
        Some((first.0, second.0))
    });
    let (first, second) = both?;
    let named = flight.guided_by.iter().rev().find(|named| [first, second].contains(&named.value))?;
    let (first, second) = if named.value == first { (second, first) } else { (first, second) };
    Some(FlightMisfit::Guides { first, second, place: named.place })
}

/// Guides within this angle are in line as far as they're in each other's way, rad.
const IN_LINE: f64 = 0.2;

/// A pressure that is off the standard atmosphere's at the site's elevation by more than the weather makes it.
pub(crate) fn pressure(number: usize, site: &Site) -> Option<FlightMisfit> {
    let (elevation, said): (&Amount, &Amount) = (site.elevation.as_ref()?, site.pressure.as_ref()?);
    let standard = |height: f64| Atmosphere::standard(height).at(0.0).pressure;
    let usual = standard(elevation.si);
    let (low, high) = (standard(most(elevation)) * (1.0 - WEATHER), standard(least(elevation)) * (1.0 + WEATHER));
    let is_off = most(said) < low || least(said) > high;
    is_off.then_some(FlightMisfit::Pressure { site: number, said: said.si, usual, place: said.place })
}

/// How far the weather moves the air's pressure off the standard atmosphere's, as a share: the deepest lows and highest
/// highs on record at sea level outside of tropical storms lie within 7 %, and a hot or cold day adds a per cent on a
/// high field (common practice, no source).
const WEATHER: f64 = 0.08;
