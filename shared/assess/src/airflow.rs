//! What the air sees: normal force and centre of pressure, drag, and the side view.

use crate::unknown::{Measure, Needs, Subject};
use crate::weigh::{body_section, cluster, fin_shape, guide_offset, radius_of_parent};
use crate::Unknown;
use finwright_model::{Choice, Design, Extent, Fins, Part, PartId, PartKind, Stage, Surface};
use finwright_physics::aerodynamics::{Aerodynamics, Drag};
use finwright_physics::drag::{DragModel, Edge, FinDrag, Protrusion, RingSkin, BUTTON_CD, LUG_CD};
use finwright_physics::friction;
use finwright_physics::normal_force::{
    body, flat_face, total, FinCountRule, FinLift, FinSet, NormalForce, BODY_LIFT_K,
};
use finwright_physics::pressure_drag::{base_suction, stagnation};
use finwright_physics::ring_wing;
use finwright_physics::section::Section;
use std::f64::consts::PI;

/// What the air sees of the rocket. Stations from the tip in m; coefficients on the calibre's circle.
#[derive(Clone, Debug)]
pub struct Airflow {
    /// Reference area, m2.
    pub reference_area: f64,
    /// Each part's share of the normal force, by part number.
    pub parts: Vec<(PartId, NormalForce)>,
    /// The share of it that acts on a flat front, where there is no nose, with the part whose front that is.
    pub face: Option<(PartId, NormalForce)>,
    /// The normal-force slope and centre of pressure of the whole at small angles and low speed.
    pub total: NormalForce,
    /// Each set of fins and how its lift came about.
    pub fins: Vec<(PartId, FinLift)>,
    /// All of it at any speed and angle: normal force, body lift, drag term by term.
    pub aerodynamics: Aerodynamics,
    /// Area of the side view, m2: the body, and half of the fins, as they stand at a random angle; what rings and tubes
    /// show beside the body.
    pub side_area: f64,
    /// Centroid of the side view, m from the tip.
    pub side_centroid: f64,
}

/// What the air sees; `None` where the airframe's shape isn't known.
pub(crate) fn airflow(
    design: &Design,
    extents: &[Option<Extent>],
    calibre: f64,
    stages: &[Stage],
    unknown: &mut Vec<Unknown>,
) -> Option<Airflow> {
    let here = |part: &Part| stages.contains(&part.stage);
    let reference_area = PI * calibre * calibre / 4.0;
    let mut shares = Vec::new();
    let mut lifts = Vec::new();
    let mut pieces: Vec<(Section, f64)> = Vec::new();
    let mut whole = true;
    let (mut side_area, mut side_moment) = (0.0, 0.0);
    let mut sets = Vec::new();
    let mut rings = Vec::new();
    for (id, part) in design.parts.iter().enumerate().filter(|(_, p)| p.is_body() && here(p)) {
        let (Some(section), Some(extent)) = (body_section(part), extents.get(id).copied().flatten()) else {
            whole = false;
            unknown.push(lacks(id, part, Measure::Shape));
            continue;
        };
        let geometry = section.geometry();
        shares.push((id, body(&section, &geometry, extent.front, reference_area)));
        side_area += geometry.planform_area;
        side_moment += geometry.planform_area * (extent.front + geometry.planform_centroid);
        pieces.push((section, roughness(part)));
    }
    if !whole || pieces.is_empty() {
        return None;
    }
    let face = face(&pieces, &shares, extents, reference_area);
    if let (Some((_, force)), Some((_, share))) = (face, shares.first_mut()) {
        *share = total([*share, force]);
    }
    let body_shares: Vec<NormalForce> = shares.iter().map(|(_, share)| *share).collect();
    let (body_area, body_centroid) = (side_area, side_moment / side_area);
    let mut drag = DragModel::of_body(&pieces, reference_area);
    drag.jet_area = jet_area(design, stages);
    for (id, part) in design.parts.iter().enumerate().filter(|(_, p)| here(p)) {
        match &part.kind {
            PartKind::Fins(fins) => match fin_set(design, part, fins, extents, id) {
                Some(set) => {
                    match set.lift(0.0, reference_area) {
                        Ok(lift) => {
                            shares.push((id, lift.force));
                            lifts.push((id, lift));
                            sets.push(set);
                        }
                        Err(_) => {
                            whole = false;
                            unknown.push(Unknown { needs: Needs::ThreeFins, ..lacks(id, part, Measure::Lift) });
                        }
                    }
                    let half = 0.5 * f64::from(set.count) * set.fin.area;
                    side_area += half;
                    side_moment += half * (set.x + set.fin.centroid_x);
                    drag.fins.push(fin_drag(part, fins, &set));
                }
                None => {
                    whole = false;
                    unknown.push(lacks(id, part, Measure::Lift));
                }
            },
            PartKind::TubeFins { .. } | PartKind::RingFin { .. } => match ring(design, extents, id, reference_area) {
                Some(ring) => {
                    shares.push((id, ring.share));
                    rings.push(ring.share);
                    side_area += ring.side;
                    side_moment += ring.side * ring.middle;
                    drag.rings.push(ring.skin);
                    drag.protrusions.push(ring.edges);
                }
                None => {
                    whole = false;
                    unknown.push(lacks(id, part, Measure::Lift));
                }
            },
            PartKind::Lug { .. } | PartKind::Button { .. } | PartKind::RailGuide { .. } => {
                drag.protrusions.extend(protrusion(design, part));
            }
            _ => {}
        }
    }
    if !whole {
        return None;
    }
    Some(Airflow {
        reference_area,
        total: total(shares.iter().map(|(_, share)| *share)),
        parts: shares,
        face,
        fins: lifts,
        aerodynamics: Aerodynamics {
            reference_area,
            body: body_shares.into_iter().chain(rings).collect(),
            fins: sets,
            planform_area: body_area,
            planform_centroid: body_centroid,
            body_lift_k: BODY_LIFT_K,
            drag: Drag::BuildUp(drag),
        },
        side_area,
        side_centroid: side_moment / side_area,
    })
}

/// What acts on the flat front of the first stretch, where that doesn't begin with a tip.
fn face(
    pieces: &[(Section, f64)],
    shares: &[(PartId, NormalForce)],
    extents: &[Option<Extent>],
    reference_area: f64,
) -> Option<(PartId, NormalForce)> {
    let radius = pieces.first().map(|(section, _)| section.fore_radius()).filter(|radius| *radius > 0.0)?;
    let id = shares.first()?.0;
    let front = extents.get(id).copied().flatten()?.front;
    Some((id, flat_face(radius, front, reference_area)))
}

/// What a part's shape or lift lacks: its own fields, or something that is told at another part.
fn lacks(id: PartId, part: &Part, measure: Measure) -> Unknown {
    let needs = if !part.missing.is_empty() {
        Needs::Fields(part.missing.clone())
    } else if part.broken.is_empty() && part.is_body() && body_section(part).is_none() {
        Needs::FittingMeasures
    } else {
        Needs::Elsewhere
    };
    Unknown { subject: Subject::Part(id), measure, needs, place: part.header }
}

pub(crate) fn fin_set(
    design: &Design,
    part: &Part,
    fins: &Fins,
    extents: &[Option<Extent>],
    id: PartId,
) -> Option<FinSet> {
    let extent = extents.get(id).copied().flatten()?;
    Some(FinSet {
        fin: fin_shape(fins)?.geometry().ok()?,
        count: fins.count.as_ref()?.si as u32,
        body_radius: radius_of_parent(design, part, extents, extent.middle())?,
        x: extent.front,
        rule: FinCountRule::default(),
    })
}

/// What tubes beside the body or a ring around it do to the air. That each works as if alone in the stream is an estimate.
struct Ring {
    share: NormalForce,
    /// Inside and out.
    skin: RingSkin,
    /// The blunt edges.
    edges: Protrusion,
    /// What is seen of it beside the body, m2, and where its middle lies.
    side: f64,
    middle: f64,
}

fn ring(design: &Design, extents: &[Option<Extent>], id: PartId, reference_area: f64) -> Option<Ring> {
    let part = design.parts.get(id)?;
    let extent = extents.get(id).copied().flatten()?;
    let chord = extent.length();
    let (count, outer, inner, side) = match &part.kind {
        PartKind::TubeFins { count, outer, inner, .. } => {
            let (count, outer, inner) = (count.as_ref()?.si, outer.as_ref()?.si, inner.as_ref()?.si);
            (count, outer, inner, ring_wing::side_area(count, outer, chord))
        }
        PartKind::RingFin { outer, inner, .. } => {
            let (outer, inner) = (outer.as_ref()?.si, inner.as_ref()?.si);
            let body = 2.0 * radius_of_parent(design, part, extents, extent.middle())?;
            (1.0, outer, inner, (outer - body).max(0.0) * chord)
        }
        _ => return None,
    };
    let mean = 0.5 * (outer + inner);
    let cna = count * ring_wing::slope(mean, chord, reference_area);
    let area = count * PI * (outer + inner) * chord;
    let frontal_area = count * PI * (outer * outer - inner * inner) / 4.0;
    Some(Ring {
        share: NormalForce::at(cna, extent.front + ring_wing::centre(mean, chord)),
        skin: RingSkin { area, chord, thickness: 0.5 * (outer - inner), roughness: roughness(part) },
        edges: Protrusion { frontal_area, cd: stagnation(0.0) + base_suction(0.0) },
        side,
        middle: extent.middle(),
    })
}

fn fin_drag(part: &Part, fins: &Fins, set: &FinSet) -> FinDrag {
    FinDrag {
        fin: set.fin,
        count: set.count,
        thickness: fins.thickness.as_ref().map_or(0.0, |t| t.si),
        roughness: roughness(part),
        leading: edge(&fins.leading),
        trailing: edge(&fins.trailing),
    }
}

fn edge(choice: &Option<Choice>) -> Edge {
    match choice.as_ref().map(|c| c.word) {
        Some("rounded") => Edge::Rounded,
        Some("sharp") => Edge::Sharp,
        _ => Edge::Blunt,
    }
}

/// Roughness height, m: of a finish by word, as given, or of a normal coat of paint.
fn roughness(part: &Part) -> f64 {
    match &part.surface {
        Some(Surface::Roughness(amount)) => amount.si,
        Some(Surface::Finish(choice)) => match choice.word {
            "bare" => friction::BARE,
            "polished" => friction::POLISHED,
            _ => friction::PAINTED,
        },
        None => friction::PAINTED,
    }
}

/// What a guide shows to the stream. A rail's shoe shows the mouth's width times a height about as large.
fn protrusion(design: &Design, part: &Part) -> Option<Protrusion> {
    match &part.kind {
        PartKind::Lug { bore, wall, .. } => {
            let outer = bore.as_ref()?.si + 2.0 * wall.as_ref()?.si;
            Some(Protrusion { frontal_area: PI * outer * outer / 4.0, cd: LUG_CD })
        }
        PartKind::Button { .. } | PartKind::RailGuide { .. } => {
            let height = 2.0 * guide_offset(design, part);
            Some(Protrusion { frontal_area: height * height, cd: BUTTON_CD })
        }
        _ => None,
    }
}

/// The area that the burning motors' jets fill: those of the lowest stage.
fn jet_area(design: &Design, stages: &[Stage]) -> f64 {
    let lowest =
        if design.booster.is_some() && stages.contains(&Stage::Booster) { Stage::Booster } else { Stage::Upper };
    let bore = design.parts.iter().filter(|p| p.stage == lowest).find_map(|part| match &part.kind {
        PartKind::Mount { bore, .. } => bore.as_ref().map(|b| b.si),
        _ => None,
    });
    let (count, _) = cluster(design, lowest);
    bore.map_or(0.0, |d| count * PI * d * d / 4.0)
}
