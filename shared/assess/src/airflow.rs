//! What the air sees: normal force and centre of pressure, drag, and the side view.

use crate::hardware::guide_offset;
use crate::shape::Parts;
use crate::stage::cluster;
use crate::unknown::{Measure, Needs, Subject};
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

/// Drag coefficient of the side view in the wind: a long cylinder across the flow (Aeronautical Engineer's Data Book,
/// infinite cylinder 1.20).
pub const SIDE_DRAG: f64 = 1.2;

impl Airflow {
    /// The wind's side force in N on the rocket as it stands, at the side view's centroid.
    pub(crate) fn side_force(&self, density: f64, wind: f64) -> f64 {
        0.5 * density * wind * wind * SIDE_DRAG * self.side_area
    }
}

/// What the air sees; `None` where the airframe's shape isn't known.
pub(crate) fn airflow(parts: Parts, calibre: f64, stages: &[Stage], unknown: &mut Vec<Unknown>) -> Option<Airflow> {
    let reference_area = PI * calibre * calibre / 4.0;
    let here = |part: &Part| stages.contains(&part.stage);
    let bodies = bodies(parts, reference_area, here, unknown)?;
    let mut drag = DragModel::of_body(&bodies.pieces, reference_area);
    drag.jet_area = jet_area(parts.design, stages);
    drag.factor = parts.design.drag_factor_or_one();
    let mut surfaces = Surfaces::with(drag);
    let mut whole = true;
    for (id, part) in parts.all().filter(|(_, part)| here(part)) {
        if let Err(needs) = surfaces.add(parts, id, part, reference_area) {
            whole = false;
            unknown.push(needs.map_or_else(
                || lacks(parts, id, part, Measure::Lift),
                |needs| Unknown { needs, ..lacks(parts, id, part, Measure::Lift) },
            ));
        }
    }
    if !whole {
        return None;
    }
    let body_shares: Vec<NormalForce> = bodies.shares.iter().map(|(_, share)| *share).collect();
    let shares: Vec<(PartId, NormalForce)> = bodies.shares.into_iter().chain(surfaces.shares).collect();
    let side = [bodies.side, surfaces.side];
    let (side_area, side_moment) = side.iter().fold((0.0, 0.0), |sum, side| (sum.0 + side.area, sum.1 + side.moment));
    Some(Airflow {
        reference_area,
        total: total(shares.iter().map(|(_, share)| *share)),
        parts: shares,
        face: bodies.face,
        fins: surfaces.lifts,
        aerodynamics: Aerodynamics {
            reference_area,
            body: body_shares.into_iter().chain(surfaces.rings).collect(),
            fins: surfaces.sets,
            planform_area: bodies.side.area,
            planform_centroid: bodies.side.moment / bodies.side.area,
            body_lift_k: BODY_LIFT_K,
            drag: Drag::BuildUp(surfaces.drag),
        },
        side_area,
        side_centroid: side_moment / side_area,
    })
}

/// The same without guides that fall away: what the air sees when the rocket has left its rod or rail.
pub(crate) fn without_fallen(design: &Design, aerodynamics: &Aerodynamics) -> Option<Aerodynamics> {
    let fallen: Vec<Protrusion> =
        design.parts.iter().filter(|part| part.falls_away()).filter_map(|part| protrusion(design, part)).collect();
    if fallen.is_empty() {
        return None;
    }
    let mut left = aerodynamics.clone();
    if let Drag::BuildUp(model) = &mut left.drag {
        for gone in fallen {
            if let Some(at) = model.protrusions.iter().position(|one| *one == gone) {
                model.protrusions.remove(at);
            }
        }
    }
    Some(left)
}

/// An area of the side view and its moment about the tip.
#[derive(Clone, Copy, Default)]
struct Side {
    area: f64,
    moment: f64,
}

impl Side {
    fn add(&mut self, area: f64, at: f64) {
        self.area += area;
        self.moment += area * at;
    }
}

/// The stretches of the airframe as the air sees them.
struct Bodies {
    shares: Vec<(PartId, NormalForce)>,
    pieces: Vec<(Section, f64)>,
    face: Option<(PartId, NormalForce)>,
    side: Side,
}

fn bodies(
    parts: Parts,
    reference_area: f64,
    here: impl Fn(&Part) -> bool,
    unknown: &mut Vec<Unknown>,
) -> Option<Bodies> {
    let mut shares = Vec::new();
    let mut pieces: Vec<(Section, f64)> = Vec::new();
    let mut side = Side::default();
    let mut whole = true;
    for (id, part) in parts.all().filter(|(_, part)| part.is_body() && here(part)) {
        let (Some(shape), Some(extent)) = (parts.body(id), parts.extent(id)) else {
            whole = false;
            unknown.push(lacks(parts, id, part, Measure::Shape));
            continue;
        };
        shares.push((id, body(&shape.section, &shape.geometry, extent.front, reference_area)));
        side.add(shape.geometry.planform_area, extent.front + shape.geometry.planform_centroid);
        pieces.push((shape.section, roughness(part)));
    }
    if !whole || pieces.is_empty() {
        return None;
    }
    let face = face(&pieces, &shares, parts.extents, reference_area);
    if let (Some((_, force)), Some((_, share))) = (face, shares.first_mut()) {
        *share = total([*share, force]);
    }
    Some(Bodies { shares, pieces, face, side })
}

/// What stands out of the airframe as the air sees it.
struct Surfaces {
    shares: Vec<(PartId, NormalForce)>,
    lifts: Vec<(PartId, FinLift)>,
    sets: Vec<FinSet>,
    rings: Vec<NormalForce>,
    side: Side,
    drag: DragModel,
}

impl Surfaces {
    fn with(drag: DragModel) -> Surfaces {
        let (shares, lifts, sets, rings) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        Surfaces { shares, lifts, sets, rings, side: Side::default(), drag }
    }

    /// Adds a part; the error is what it needs, or nothing where that is told by its own fields.
    fn add(&mut self, parts: Parts, id: PartId, part: &Part, reference_area: f64) -> Result<(), Option<Needs>> {
        match &part.kind {
            PartKind::Fins(fins) => {
                let set = fin_set(parts, id, part, fins).ok_or(None)?;
                let half = 0.5 * f64::from(set.count) * set.fin.area;
                self.side.add(half, set.x + set.fin.centroid_x);
                self.drag.fins.push(fin_drag(part, fins, &set));
                let lift = set.lift(0.0, reference_area).map_err(|_| Some(Needs::ThreeFins))?;
                self.shares.push((id, lift.force));
                self.lifts.push((id, lift));
                self.sets.push(set);
            }
            PartKind::TubeFins { .. } | PartKind::RingFin { .. } => {
                let ring = ring(parts, id, part, reference_area).ok_or(None)?;
                self.shares.push((id, ring.share));
                self.rings.push(ring.share);
                self.side.add(ring.side, ring.middle);
                self.drag.rings.push(ring.skin);
                self.drag.protrusions.push(ring.edges);
            }
            PartKind::Lug { .. } | PartKind::Button { .. } | PartKind::RailGuide { .. } => {
                self.drag.protrusions.extend(protrusion(parts.design, part));
            }
            _ => {}
        }
        Ok(())
    }
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
fn lacks(parts: Parts, id: PartId, part: &Part, measure: Measure) -> Unknown {
    let needs = if !part.missing.is_empty() {
        Needs::Fields(part.missing.clone())
    } else if part.broken.is_empty() && part.is_body() && parts.body(id).is_none() {
        Needs::FittingMeasures
    } else {
        Needs::Elsewhere
    };
    Unknown { subject: Subject::Part(id), measure, needs, place: part.header }
}

/// A set of fins as the air sees it.
pub(crate) fn fin_set(parts: Parts, id: PartId, part: &Part, fins: &Fins) -> Option<FinSet> {
    let extent = parts.extent(id)?;
    Some(FinSet {
        fin: parts.fin(id)?.geometry,
        count: fins.count.as_ref()?.si as u32,
        body_radius: parts.radius_under(part, extent.middle())?,
        x: extent.front,
        rule: FinCountRule::default(),
    })
}

/// What tubes beside the body or a ring around it do to the air. That each works as if alone in the stream is an
/// estimate.
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

fn ring(parts: Parts, id: PartId, part: &Part, reference_area: f64) -> Option<Ring> {
    let extent = parts.extent(id)?;
    let chord = extent.length();
    let (count, outer, inner, side) = match &part.kind {
        PartKind::TubeFins { count, outer, inner, .. } => {
            let (count, outer, inner) = (count.as_ref()?.si, outer.as_ref()?.si, inner.as_ref()?.si);
            (count, outer, inner, ring_wing::side_area(count, outer, chord))
        }
        PartKind::RingFin { outer, inner, .. } => {
            let (outer, inner) = (outer.as_ref()?.si, inner.as_ref()?.si);
            let body = 2.0 * parts.radius_under(part, extent.middle())?;
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
