//! What a flight's numbers rest on that the file doesn't say.

use crate::flight::friction;
use crate::path::Path;
use crate::stiffness::{RAIL_MATERIAL, ROD_MATERIAL};
use crate::weigh::{FILLET_MATERIAL, LUG_MATERIAL};
use crate::{Assessment, FlightNumbers};
use finwright_model::{Design, Part, PartKind, Rail};

/// Every default behind a flight's numbers, in words.
pub fn defaults(design: &Design, assessment: &Assessment, numbers: &FlightNumbers, path: Option<&Path>) -> Vec<String> {
    let mut found: Vec<String> = design
        .parts
        .iter()
        .zip(&assessment.weights)
        .filter_map(|(part, weight)| {
            let default = &weight.as_ref()?.default;
            (!default.is_empty()).then(|| format!("{} has {default}", part.label()))
        })
        .collect();
    found.extend(methods(design, assessment));
    let Some(flight) = design.flights.get(numbers.flight) else { return found };
    if let Some(pad) = design.pad_of(flight) {
        if pad.friction.is_none() {
            found.push(format!("friction {}", friction(pad)));
        }
    }
    if flight.site.is_none() {
        found.push("sea level, standard air, no wind".to_string());
    }
    found.extend(numbers.stiffness.iter().flat_map(|s| s.defaults.iter().cloned()));
    found.extend(numbers.loads.iter().flat_map(|l| l.defaults.iter().cloned()));
    let usual_drag = numbers.sinking.as_ref().filter(|sinking| sinking.is_usual_drag);
    found.extend(usual_drag.and_then(|s| Some(format!("{} has drag {}", design.parts.get(s.part)?.label(), s.drag))));
    found.extend(path.iter().flat_map(|p| p.defaults.iter().cloned()));
    found
}

/// Which of several published methods the lift of fins rests on, where it isn't the usual one.
fn methods(design: &Design, assessment: &Assessment) -> Vec<String> {
    let Some(airflow) = &assessment.airflow else { return Vec::new() };
    let label = |id: usize| design.parts.get(id).map_or(String::new(), |part| part.label());
    let flat = airflow.face.map(|(id, _)| format!("{} has a flat front, since there is no nose", label(id)));
    let many = airflow.fins.iter().filter(|(_, lift)| lift.count_factor != 1.0);
    let mut found: Vec<String> = many
        .map(|(id, lift)| {
            format!("{}' lift times {} for their number (MIL-HDBK-762, from memory)", label(*id), lift.count_factor)
        })
        .collect();
    found.extend(flat);
    let is_ring = |part: &Part| matches!(part.kind, PartKind::TubeFins { .. } | PartKind::RingFin { .. });
    found.extend(
        design
            .parts
            .iter()
            .filter(|part| is_ring(part))
            .map(|part| format!("{}' lift between slender-body and strip theory, by a form of our own", part.label())),
    );
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
