//! The speed at which each set of fins would flutter, in the air at the site.

use super::air::Air;
use crate::shape::Parts;
use finwright_model::{Fins, Part, PartId, PartKind};
use finwright_physics::plate::Plate;

/// A set of fins and its flutter speed: an estimate for flat plates of one material, alike in all directions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flutter {
    /// The set.
    pub part: PartId,
    /// Its fin as a plate.
    pub plate: Plate,
    /// The speed at which it flutters in the air at the ground of the site, m/s.
    pub speed: f64,
}

/// The flutter speed of every set whose material has a shear modulus.
pub(crate) fn flutter(parts: Parts, air: &Air) -> Vec<Flutter> {
    let at_the_ground = air.atmosphere.at(0.0);
    let sets = parts.all().filter(|(_, part)| part.broken.is_empty());
    sets.filter_map(|(id, part)| {
        let PartKind::Fins(fins) = &part.kind else { return None };
        let plate = plate(parts, id, part, fins)?;
        let speed = plate.flutter_speed(&at_the_ground);
        speed.is_finite().then_some(Flutter { part: id, plate, speed })
    })
    .collect()
}

/// A fin as a plate; fillets and tabs, which stiffen it, are left out.
fn plate(parts: Parts, id: PartId, part: &Part, fins: &Fins) -> Option<Plate> {
    let shear = parts.design.materials.get(part.material.as_ref()?.value)?.shear.as_ref()?.si;
    let geometry = &parts.fin(id)?.geometry;
    let (root, span, area) = (geometry.root, geometry.span, geometry.area);
    Some(Plate { shear, thickness: fins.thickness.as_ref()?.si, root, span, area })
}
