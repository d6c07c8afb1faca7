//! What a flight's numbers rest on that the file doesn't say.

use crate::airframe::Airframe;
use crate::assumed::Assumed;
use crate::flight::path::Path;
use crate::flight::stiffness::{RAIL_MATERIAL, ROD_MATERIAL};
use crate::flight::FlightNumbers;
use crate::motor::labelled;
use crate::weigh::{FILLET_MATERIAL, LUG_MATERIAL};
use finwright_model::{Design, Part, PartKind, Rail};

/// Every default behind a flight's numbers.
pub fn assumed(design: &Design, airframe: &Airframe, numbers: &FlightNumbers, path: Option<&Path>) -> Vec<Assumed> {
    let mut found: Vec<Assumed> = airframe.weights.iter().filter_map(|weight| weight.as_ref()?.assumed).collect();
    found.extend(methods(design, airframe));
    found.extend(of_pad(numbers));
    let without_site = design.flights.get(numbers.flight).is_some_and(|flight| flight.site.is_none());
    found.extend(without_site.then_some(Assumed::NoSite));
    found.extend(labelled(design, numbers.flight).into_iter().map(Assumed::FlatThrust));
    let guides_taken = design.flights.get(numbers.flight).is_some_and(|flight| flight.guides_taken);
    found.extend(guides_taken.then_some(Assumed::GuidesTaken(numbers.flight)));
    found.extend(numbers.stiffness.iter().flat_map(|stiffness| &stiffness.assumed));
    found.extend(numbers.loads.iter().flat_map(|loads| &loads.assumed));
    let usual_drag = numbers.sinking.as_ref().filter(|sinking| sinking.is_usual_drag);
    found.extend(usual_drag.map(|sinking| Assumed::CanopyDrag(sinking.part, sinking.drag)));
    found.extend(path.iter().flat_map(|path| &path.assumed));
    found
}

/// The same in words.
pub fn defaults(design: &Design, airframe: &Airframe, numbers: &FlightNumbers, path: Option<&Path>) -> Vec<String> {
    assumed(design, airframe, numbers, path).into_iter().map(|assumed| assumed.in_words(design)).collect()
}

fn of_pad(numbers: &FlightNumbers) -> Vec<Assumed> {
    let Some(on_pad) = &numbers.on_pad else { return Vec::new() };
    let mut found: Vec<Assumed> = on_pad.in_tower.map(|_| Assumed::TowerStands).into_iter().collect();
    let each = [
        (on_pad.friction, Assumed::Friction(on_pad.friction.si)),
        (on_pad.stop, Assumed::NoStop),
        (on_pad.tilt, Assumed::Upright),
    ];
    found.extend(each.into_iter().filter(|(taken, _)| taken.is_default).map(|(_, assumed)| assumed));
    found
}

/// Which of several published methods the lift of fins rests on, where it isn't the usual one.
fn methods(design: &Design, airframe: &Airframe) -> Vec<Assumed> {
    let Some(airflow) = &airframe.airflow else { return Vec::new() };
    let many = airflow.fins.iter().filter(|(_, lift)| lift.count_factor != 1.0);
    let mut found: Vec<Assumed> = many.map(|(id, lift)| Assumed::CountFactor(*id, lift.count_factor)).collect();
    found.extend(airflow.face.map(|(id, _)| Assumed::FlatFront(id)));
    let is_ring = |part: &Part| matches!(part.kind, PartKind::TubeFins { .. } | PartKind::RingFin { .. });
    let rings = design.parts.iter().enumerate().filter(|(_, part)| is_ring(part));
    found.extend(rings.map(|(id, _)| Assumed::RingLift(id)));
    found
}

/// The materials that are taken where a part, a rod or a rail says none, by number in the design.
pub fn usual_materials(design: &Design) -> Vec<usize> {
    let unsaid = |part: &Part| part.material.is_none() && part.density.is_none() && part.mass.is_none();
    let of_part = |part: &Part| match &part.kind {
        PartKind::Lug { .. } if unsaid(part) => Some(LUG_MATERIAL),
        PartKind::Fins(fins) if fins.fillet.is_some() && part.mass.is_none() => Some(FILLET_MATERIAL),
        _ => None,
    };
    let of_rail = |rail: &Rail| match rail {
        Rail::Rod { material: None, .. } => Some(ROD_MATERIAL),
        Rail::Slotted { slot: Some(slot), .. } => {
            let section = design.sections.get(slot.value)?;
            section.material.is_none().then_some(RAIL_MATERIAL)
        }
        _ => None,
    };
    let of_rails = design.pads.iter().filter_map(|pad| of_rail(pad.rail.as_ref()?));
    let names = design.parts.iter().filter_map(of_part).chain(of_rails);
    names.filter_map(|name| design.material_named(name)).collect()
}
