//! Motors in the rocket: where they sit, and what the rocket weighs with them in.

use crate::misfit;
use crate::shape::Parts;
use crate::stage::{motor_mass, mount, WHOLE};
use crate::weigh::Weight;
use finwright_model::{Extent, Motor, PartId, PartKind, Stage};
use finwright_physics::mass::{combine, MassProps};

/// Where a motor sits in its stage's mount; `None` also where there is no room for it.
pub fn motor_extent(parts: Parts, motor: &Motor, stage: Stage) -> Option<Extent> {
    room_of_motor(parts, motor, stage).filter(|_| motor_misfit(parts, motor, stage).is_none())
}

/// By how much in m a motor reaches into what leaves it no room, and into what: see [`crate::misfit`].
pub(crate) fn motor_misfit(parts: Parts, motor: &Motor, stage: Stage) -> Option<(f64, Option<PartId>)> {
    misfit::motor(parts, motor, room_of_motor(parts, motor, stage)?)
}

fn room_of_motor(parts: Parts, motor: &Motor, stage: Stage) -> Option<Extent> {
    let (id, part) = mount(parts.design, stage)?;
    let PartKind::Mount { sticks_out, .. } = &part.kind else { return None };
    let back = parts.extent(id)?.back + sticks_out.as_ref().map_or(0.0, |a| a.si);
    Some(Extent { front: back - motor.length.as_ref()?.si, back })
}

/// Whether every part's mass and place are known: the mass of a rocket with a part left out isn't the rocket's mass.
pub(crate) fn is_whole(parts: Parts, weights: &[Option<Weight>]) -> bool {
    !weights.is_empty() && weights.iter().zip(parts.extents).all(|(weight, at)| weight.is_some() && at.is_some())
}

/// The mass properties without a motor of the parts of some stages; the parts whose mass or place isn't known are left
/// out, and the caller must not take the result for the whole then.
pub fn bare(parts: Parts, weights: &[Option<Weight>], stages: &[Stage]) -> MassProps {
    let own = parts.placed().filter(|(_, part, _)| stages.contains(&part.stage));
    let own = own.filter_map(|(id, _, extent)| Some(weights.get(id)?.as_ref()?.own.shifted(extent.front)));
    combine(own.collect::<Vec<_>>())
}

/// The whole rocket with these motors in, as computed.
pub(crate) fn with_motors(parts: Parts, weights: &[Option<Weight>], motors: &[(&Motor, Stage)]) -> Option<MassProps> {
    let of = |(motor, stage): &(&Motor, Stage)| {
        let (own, _) = motor_mass(parts.design, motor, *stage)?;
        Some(own.shifted(motor_extent(parts, motor, *stage)?.front))
    };
    let motors: Vec<MassProps> = motors.iter().map(of).collect::<Option<_>>()?;
    if motors.is_empty() {
        return None;
    }
    Some(combine(std::iter::once(bare(parts, weights, WHOLE)).chain(motors).collect::<Vec<_>>()))
}

/// The airframe's aft end, m from the tip.
pub(crate) fn tail(parts: Parts) -> Option<f64> {
    let (id, _) = parts.all().filter(|(_, part)| part.is_body()).last()?;
    parts.extent(id).map(|extent| extent.back)
}
