//! Drag at zero angle of attack, built up part by part.

mod quick;

use std::f64::consts::PI;

use crate::air::Air;
use crate::fins::FinGeometry;
use crate::friction::{compressibility, BoundaryLayer, Plate};
use crate::pressure_drag::{base_suction, boat_tail_share, leading_pressure, stagnation, trailing_share};
use crate::section::Section;

pub use crate::pressure_drag::Edge;
pub(crate) use quick::{Held, QuickDrag};

/// What the air sees of a rocket.
///
/// [`DragModel::of_body`] fills in the body; fins and protrusions are added to the lists.
#[derive(Debug, Clone, PartialEq)]
pub struct DragModel {
    /// Area in m² on which all coefficients stand.
    pub reference_area: f64,
    /// Whole length of the body in m.
    pub length: f64,
    /// Greatest diameter in m.
    pub diameter: f64,
    /// The body's skin, one entry a piece.
    pub skin: Vec<Skin>,
    /// Flat area in m² at the very front; 0 for a pointed or round nose.
    pub front_face: f64,
    /// Nose and shoulders, by the angle at which they end.
    pub slopes: Vec<Slope>,
    /// Pieces that narrow towards the tail.
    pub boat_tails: Vec<BoatTail>,
    /// Area of the flat aft end in m².
    pub base_area: f64,
    /// The part of that area in m² which the jet fills while the motor burns.
    pub jet_area: f64,
    /// Sets of fins.
    pub fins: Vec<FinDrag>,
    /// Rings and tubes that work as fins.
    pub rings: Vec<RingSkin>,
    /// Lugs, buttons and whatever else sticks out.
    pub protrusions: Vec<Protrusion>,
    /// How the boundary layer runs.
    pub flow: BoundaryLayer,
    /// What every term is multiplied by: 1, unless flights have shown another drag.
    pub factor: f64,
}

/// A piece of the body's skin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Skin {
    /// Wetted area in m².
    pub area: f64,
    /// Height of the roughness in m: see [`crate::friction::PAINTED`] and its neighbours.
    pub roughness: f64,
}

/// A piece that widens towards the tail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slope {
    /// Growth of the cross-section in m².
    pub step: f64,
    /// Angle of the outline at its aft end in rad; 0 where it meets the body without a corner.
    pub angle: f64,
}

/// A piece that narrows towards the tail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoatTail {
    /// Loss of cross-section in m².
    pub step: f64,
    /// Length over the loss of diameter.
    pub fineness: f64,
}

/// A set of fins as the air sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinDrag {
    /// One fin's plan-form.
    pub fin: FinGeometry,
    /// How many.
    pub count: u32,
    /// Thickness in m.
    pub thickness: f64,
    /// Height of the roughness in m.
    pub roughness: f64,
    /// The front edge.
    pub leading: Edge,
    /// The back edge.
    pub trailing: Edge,
}

/// The skin of a ring fin or of a set of tube fins, whose friction counts among the fins'.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingSkin {
    /// Wetted area in m², inside and out, of all of them.
    pub area: f64,
    /// Chord in m.
    pub chord: f64,
    /// Thickness of the wall in m.
    pub thickness: f64,
    /// Height of the roughness in m.
    pub roughness: f64,
}

/// Something small that sticks out into the stream.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Protrusion {
    /// Area in m² seen from the front, bores counted as solid.
    pub frontal_area: f64,
    /// Drag coefficient on that area: [`LUG_CD`], [`BUTTON_CD`] or a measured one.
    pub cd: f64,
}

/// Drag of a lug on its full frontal circle: a blunt tube's end (common practice, no source).
pub const LUG_CD: f64 = 1.2;
/// Drag of a button on its frontal area: a short cylinder on a wall (common practice, no source).
pub const BUTTON_CD: f64 = 0.7;

/// Every term of the drag coefficient.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DragTerms {
    /// Friction on the body.
    pub body_friction: f64,
    /// Friction on the fins, rings and tubes.
    pub fin_friction: f64,
    /// Pressure on the nose, on shoulders and on a flat front.
    pub fore_pressure: f64,
    /// Suction on boat-tails.
    pub boat_tail: f64,
    /// Suction on the flat aft end.
    pub base: f64,
    /// Pressure on the fins' front edges.
    pub fin_leading: f64,
    /// Suction on the fins' back edges.
    pub fin_trailing: f64,
    /// Lugs, buttons and the like.
    pub protrusions: f64,
}

impl DragTerms {
    /// The drag coefficient.
    pub fn total(&self) -> f64 {
        self.body_friction
            + self.fin_friction
            + self.fore_pressure
            + self.boat_tail
            + self.base
            + self.fin_leading
            + self.fin_trailing
            + self.protrusions
    }
}

impl DragModel {
    /// The bare body: pieces from nose to tail, each with its skin's roughness in m.
    pub fn of_body(pieces: &[(Section, f64)], reference_area: f64) -> Self {
        let disc = |radius: f64| PI * radius * radius;
        let mut model = Self {
            reference_area,
            length: 0.0,
            diameter: 0.0,
            skin: Vec::new(),
            front_face: pieces.first().map_or(0.0, |p| disc(p.0.fore_radius())),
            slopes: Vec::new(),
            boat_tails: Vec::new(),
            base_area: pieces.last().map_or(0.0, |p| disc(p.0.aft_radius())),
            jet_area: 0.0,
            fins: Vec::new(),
            rings: Vec::new(),
            protrusions: Vec::new(),
            flow: BoundaryLayer::default(),
            factor: 1.0,
        };
        for (piece, roughness) in pieces {
            let (fore, aft) = (piece.fore_radius(), piece.aft_radius());
            model.length += piece.length();
            model.diameter = model.diameter.max(2.0 * fore.max(aft));
            model.skin.push(Skin { area: piece.geometry().wetted_area, roughness: *roughness });
            if aft > fore {
                model
                    .slopes
                    .push(Slope { step: disc(aft) - disc(fore), angle: piece.slope(piece.length()).max(0.0).atan() });
            } else if aft < fore {
                model
                    .boat_tails
                    .push(BoatTail { step: disc(fore) - disc(aft), fineness: 0.5 * piece.length() / (fore - aft) });
            }
        }
        model
    }

    /// All terms at a `speed` in m/s through `air`, with the motor `burning` or not.
    ///
    /// Meant for Mach 0 to 0.9; above that the wave drag of the nose is missing.
    /// Sources: Barrowman 1967; Hoerner, Fluid-Dynamic Drag, 1965 (both from memory).
    pub fn terms(&self, speed: f64, air: &Air, burning: bool) -> DragTerms {
        PreparedDrag::new(self).terms(speed, air, burning)
    }

    /// The drag coefficient at a `speed` in m/s; see [`DragModel::terms`].
    pub fn coefficient(&self, speed: f64, air: &Air, burning: bool) -> f64 {
        self.terms(speed, air, burning).total()
    }
}

/// A drag model with everything worked out that depends on neither speed nor air.
#[derive(Debug, Clone)]
pub(crate) struct PreparedDrag {
    body: Vec<(f64, Plate)>,
    fins: Vec<(f64, Plate)>,
    /// Coefficient of the faces that don't change with speed.
    sloped: f64,
    // Areas as shares of the reference area.
    front_face: f64,
    boat_tails: f64,
    base: f64,
    base_burning: f64,
    leading: Vec<(f64, Edge)>,
    trailing: f64,
    protrusions: f64,
    flow: BoundaryLayer,
}

impl PreparedDrag {
    pub fn new(model: &DragModel) -> Self {
        let share = model.factor / model.reference_area;
        // Form factor 1 + 1/(2 fB) of a body of fineness fB.
        let form = 1.0 + 0.5 * model.diameter / model.length;
        let skin = |skin: &Skin| (share * form * skin.area, Plate::new(model.length, skin.roughness));
        let fins = model.fins.iter().map(|set| set.plate(share));
        let rings = model.rings.iter().map(|ring| ring.plate(share));
        let edge = |set: &FinDrag| share * f64::from(set.count) * set.fin.span * set.thickness;
        Self {
            body: model.skin.iter().map(skin).collect(),
            fins: fins.chain(rings).collect(),
            sloped: share * model.slopes.iter().map(Slope::pressure_area).sum::<f64>(),
            front_face: share * model.front_face,
            boat_tails: share * model.boat_tails.iter().map(BoatTail::suction_area).sum::<f64>(),
            base: share * model.base_area,
            base_burning: share * (model.base_area - model.jet_area).max(0.0),
            leading: model
                .fins
                .iter()
                .map(|set| {
                    let cos = set.fin.leading_sweep.cos();
                    (edge(set) * cos * cos, set.leading)
                })
                .collect(),
            trailing: model.fins.iter().map(|set| edge(set) * trailing_share(set.trailing)).sum(),
            protrusions: share * model.protrusions.iter().map(|part| part.cd * part.frontal_area).sum::<f64>(),
            flow: model.flow,
        }
    }

    pub fn terms(&self, speed: f64, air: &Air, burning: bool) -> DragTerms {
        let per_length = speed * air.density / air.viscosity;
        self.at(speed / air.sound_speed, per_length, per_length.ln(), burning)
    }

    /// By Mach number and by Reynolds number per m and its logarithm.
    fn at(&self, mach: f64, per_length: f64, ln_per_length: f64, burning: bool) -> DragTerms {
        let friction = |surfaces: &[(f64, Plate)]| -> f64 {
            let mut sum = 0.0;
            for (area, plate) in surfaces {
                let (cf, rough) = plate.friction(per_length, ln_per_length, self.flow);
                sum += area * cf * compressibility(mach * mach, rough);
            }
            sum
        };
        let suction = base_suction(mach);
        let base = if burning { self.base_burning } else { self.base };
        DragTerms {
            body_friction: friction(&self.body),
            fin_friction: friction(&self.fins),
            fore_pressure: self.sloped + self.front_face * stagnation(mach),
            boat_tail: self.boat_tails * suction,
            base: base * suction,
            fin_leading: self.leading.iter().map(|(area, edge)| area * leading_pressure(*edge, mach)).sum(),
            fin_trailing: self.trailing * suction,
            protrusions: self.protrusions,
        }
    }
}

impl FinDrag {
    /// Both sides of all fins on the mean chord area/span.
    fn plate(&self, share: f64) -> (f64, Plate) {
        let chord = self.fin.area / self.fin.span;
        let area = 2.0 * f64::from(self.count) * self.fin.area;
        RingSkin { area, chord, thickness: self.thickness, roughness: self.roughness }.plate(share)
    }
}

impl RingSkin {
    /// With the form factor 1 + 2 t/c of a thin profile.
    fn plate(&self, share: f64) -> (f64, Plate) {
        let form = 1.0 + 2.0 * self.thickness / self.chord;
        (share * form * self.area, Plate::new(self.chord, self.roughness))
    }
}

impl Slope {
    /// Growth of the cross-section times 0.8 sin² of the angle.
    fn pressure_area(&self) -> f64 {
        let sin = self.angle.sin();
        0.8 * sin * sin * self.step
    }
}

impl BoatTail {
    fn suction_area(&self) -> f64 {
        boat_tail_share(self.fineness) * self.step
    }
}
