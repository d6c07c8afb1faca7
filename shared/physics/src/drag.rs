//! Drag at zero angle of attack, built up part by part.

use std::f64::consts::PI;

use crate::air::Air;
use crate::fins::FinGeometry;
use crate::friction::{compressibility, is_rough, skin_friction, BoundaryLayer};
use crate::section::Section;

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
    /// Lugs, buttons and whatever else sticks out.
    pub protrusions: Vec<Protrusion>,
    /// How the boundary layer runs.
    pub flow: BoundaryLayer,
}

/// A piece of the body's skin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Skin {
    /// Wetted area in m².
    pub area: f64,
    /// Height of the roughness in m: polished about 1e-6, painted 2e-5, bare wood or paper 6e-5
    /// (orders from Hoerner, from memory; bare is common practice).
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

/// The shape of a fin's edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Cut square.
    Blunt,
    /// Half round.
    Rounded,
    /// Brought to a thin edge.
    Sharp,
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
    /// Friction on the fins.
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
            protrusions: Vec::new(),
            flow: BoundaryLayer::default(),
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
        let mach = speed / air.sound_speed;
        let per_length = speed / air.kinematic_viscosity();
        let stagnation = stagnation(mach);
        let suction = base_suction(mach);
        let mut terms = DragTerms {
            body_friction: self.body_friction(mach, per_length),
            fore_pressure: self.front_face * stagnation,
            ..DragTerms::default()
        };
        for slope in &self.slopes {
            let sin = slope.angle.sin();
            terms.fore_pressure += 0.8 * sin * sin * slope.step;
        }
        for tail in &self.boat_tails {
            terms.boat_tail += suction * boat_tail_share(tail.fineness) * tail.step;
        }
        let jet = if burning { self.jet_area } else { 0.0 };
        terms.base = suction * (self.base_area - jet).max(0.0);
        for set in &self.fins {
            let front = f64::from(set.count) * set.fin.span * set.thickness;
            let cos = set.fin.leading_sweep.cos();
            terms.fin_friction += set.friction(mach, per_length, self.flow);
            terms.fin_leading += front * cos * cos * leading_pressure(set.leading, mach);
            terms.fin_trailing += front * suction * trailing_share(set.trailing);
        }
        for part in &self.protrusions {
            terms.protrusions += part.cd * part.frontal_area;
        }
        terms.scaled(1.0 / self.reference_area)
    }

    /// The drag coefficient at a `speed` in m/s; see [`DragModel::terms`].
    pub fn coefficient(&self, speed: f64, air: &Air, burning: bool) -> f64 {
        self.terms(speed, air, burning).total()
    }

    /// Form factor 1 + 1/(2 fB) for the body's fineness fB.
    fn body_friction(&self, mach: f64, per_length: f64) -> f64 {
        let form = 1.0 + 0.5 * self.diameter / self.length;
        let friction = |skin: &Skin| skin.area * friction(mach, per_length, self.length, skin.roughness, self.flow);
        form * self.skin.iter().map(friction).sum::<f64>()
    }
}

impl DragTerms {
    fn scaled(self, factor: f64) -> Self {
        Self {
            body_friction: self.body_friction * factor,
            fin_friction: self.fin_friction * factor,
            fore_pressure: self.fore_pressure * factor,
            boat_tail: self.boat_tail * factor,
            base: self.base * factor,
            fin_leading: self.fin_leading * factor,
            fin_trailing: self.fin_trailing * factor,
            protrusions: self.protrusions * factor,
        }
    }
}

impl FinDrag {
    /// Friction on both sides on the mean chord area/span, with the form factor 1 + 2 t/c.
    fn friction(&self, mach: f64, per_length: f64, flow: BoundaryLayer) -> f64 {
        let chord = self.fin.area / self.fin.span;
        let form = 1.0 + 2.0 * self.thickness / chord;
        let wetted = 2.0 * f64::from(self.count) * self.fin.area;
        wetted * form * friction(mach, per_length, chord, self.roughness, flow)
    }
}

/// Friction coefficient of a surface `length` m long; `per_length` is the Reynolds number per m.
fn friction(mach: f64, per_length: f64, length: f64, roughness: f64, flow: BoundaryLayer) -> f64 {
    let reynolds = per_length * length;
    let relative = roughness / length;
    skin_friction(reynolds, relative, flow) * compressibility(mach, is_rough(reynolds, relative))
}

/// Pressure on a face square to the stream: 0.85 (1 + M²/4 + M⁴/40) below Mach 1, and Barrowman's
/// series above it (from memory).
pub fn stagnation(mach: f64) -> f64 {
    let m2 = mach * mach;
    if mach < 1.0 {
        0.85 * (1.0 + m2 / 4.0 + m2 * m2 / 40.0)
    } else {
        0.85 * (1.84 - 0.76 / m2 + 0.166 / (m2 * m2) + 0.035 / (m2 * m2 * m2))
    }
}

/// Suction on a base: 0.12 + 0.13 M² below Mach 1, 0.25/M above (from memory).
pub fn base_suction(mach: f64) -> f64 {
    if mach < 1.0 {
        0.12 + 0.13 * mach * mach
    } else {
        0.25 / mach
    }
}

/// Pressure on an unswept front edge, on its frontal area. Rounded: (1 − M²)^−0.417 − 1 up to
/// Mach 0.9, then Barrowman's continuation (from memory); sharp: none.
pub fn leading_pressure(edge: Edge, mach: f64) -> f64 {
    let m2 = mach * mach;
    match edge {
        Edge::Blunt => stagnation(mach),
        Edge::Sharp => 0.0,
        Edge::Rounded if mach < 0.9 => (1.0 - m2).powf(-0.417) - 1.0,
        Edge::Rounded if mach < 1.0 => 1.0 - 1.785 * (mach - 0.9),
        Edge::Rounded => 1.214 - 0.502 / m2 + 0.1095 / (m2 * m2),
    }
}

/// Share of the base suction on a back edge: rounded half (common practice, no source).
fn trailing_share(edge: Edge) -> f64 {
    match edge {
        Edge::Blunt => 1.0,
        Edge::Rounded => 0.5,
        Edge::Sharp => 0.0,
    }
}

/// Share of the base suction on a boat-tail: whole up to a fineness of 1, none from 3 on, straight
/// between (after Hoerner, from memory).
fn boat_tail_share(fineness: f64) -> f64 {
    (0.5 * (3.0 - fineness)).clamp(0.0, 1.0)
}
