//! Normal force and centre of pressure at small angles of attack.

use std::f64::consts::PI;

use crate::fins::FinGeometry;
use crate::section::{Section, SectionGeometry};

/// A normal-force slope and its moment about the nose tip.
///
/// Moments, not stations, are stored: a cylinder has neither force nor moment, and a shoulder
/// right before an equal boat-tail has a moment without a force.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct NormalForce {
    /// Normal-force slope CNα per rad, on the reference area.
    pub cna: f64,
    /// CNα times its station: m per rad.
    pub moment: f64,
}

impl NormalForce {
    /// A slope of `cna` per rad acting at station `x` m.
    pub fn at(cna: f64, x: f64) -> Self {
        Self { cna, moment: cna * x }
    }

    /// Where the force acts, in m from the nose tip; `None` where there is no force.
    pub fn x(self) -> Option<f64> {
        (self.cna != 0.0).then(|| self.moment / self.cna)
    }
}

/// The sum of `parts`; its [`NormalForce::x`] is the centre of pressure.
pub fn total(parts: impl IntoIterator<Item = NormalForce>) -> NormalForce {
    let mut sum = NormalForce::default();
    for part in parts {
        sum.cna += part.cna;
        sum.moment += part.moment;
    }
    sum
}

/// A piece of body whose fore end lies at station `x` m, for a `reference_area` in m².
///
/// CNα = 2 (S_aft − S_fore)/A acting at x + (L S_aft − V)/(S_aft − S_fore).
/// Slender bodies at small angles. Source: Munk, NACA TR 184, 1924 (from memory).
pub fn body(section: &Section, geometry: &SectionGeometry, x: f64, reference_area: f64) -> NormalForce {
    let fore = PI * section.fore_radius() * section.fore_radius();
    let aft = PI * section.aft_radius() * section.aft_radius();
    let own_moment = section.length() * aft - geometry.volume;
    NormalForce {
        cna: 2.0 * (aft - fore) / reference_area,
        moment: 2.0 * (x * (aft - fore) + own_moment) / reference_area,
    }
}

/// The flat face of a body that begins with a radius of `radius` m at station `x` m, for a `reference_area` in m².
///
/// What a nose of vanishing length has: [`body`] with a cross-section that grows to all of it at once, CNα = 2 S/A
/// acting at the face. Air that breaks away at its edge isn't in it.
pub fn flat_face(radius: f64, x: f64, reference_area: f64) -> NormalForce {
    NormalForce::at(2.0 * PI * radius * radius / reference_area, x)
}

/// Which rule lowers the lift of a set of five or more fins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FinCountRule {
    /// A multiplier for the whole set: 5 fins 0.948, 6 0.913, 7 0.854, 8 0.810, more 0.750.
    /// Source: MIL-HDBK-762 (from memory). The rule this crate uses unless told otherwise.
    #[default]
    Multiplier,
    /// Half the body's share: K = 1 + R/(2(S + R)). Published for 6 fins, used here from 5.
    /// Source: Barrowman & Barrowman 1966 (from memory).
    HalvedBodyShare,
}

/// A set of equal fins on the body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinSet {
    /// One fin's plan-form.
    pub fin: FinGeometry,
    /// How many, evenly spaced; 3 or more.
    pub count: u32,
    /// Body radius at the fins in m.
    pub body_radius: f64,
    /// Station of the roots' leading edge in m.
    pub x: f64,
    /// The rule for five or more fins.
    pub rule: FinCountRule,
}

/// The lift of a set of fins, with what it was made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinLift {
    /// The set's slope and moment.
    pub force: NormalForce,
    /// The body's share K on the fins.
    pub body_factor: f64,
    /// The multiplier for the number of fins: 1 for 3 and 4.
    pub count_factor: f64,
    /// Whether the Mach number lay outside 0..0.8 and the value at the nearer end stands instead.
    pub mach_limited: bool,
}

/// Why a set of fins has no lift by this theory.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FinLiftError {
    /// One or two fins leave a plane without lift; the number given.
    TooFewFins(u32),
}

impl FinSet {
    /// The set's lift at a Mach number of 0 to 0.8, for a `reference_area` in m².
    ///
    /// CNα = K (N/2) 2π (S²/A) / (1 + √(1 + (S²/Af)² (β² + tan² Γ))), β² = 1 − M², acting at the
    /// quarter of the mean aerodynamic chord. At Mach 0 that is Barrowman's form with S²/(Af cos Γ);
    /// with the Mach number the sweep stays outside of β, since stretching by 1/β sweeps the fin
    /// further. Sources: Barrowman 1967; Lowry & Polhamus, NACA TN 3911, 1957 (both from memory).
    /// At Mach 0.8 within −4.3 to 0 % of a vortex lattice stretched so: tests/reference.
    pub fn lift(&self, mach: f64, reference_area: f64) -> Result<FinLift, FinLiftError> {
        if self.count < 3 {
            return Err(FinLiftError::TooFewFins(self.count));
        }
        let limited = mach.clamp(0.0, MOST_MACH);
        let fin = &self.fin;
        let square = fin.span * fin.span;
        let beta2 = 1.0 - limited * limited;
        let root = self.stretch(beta2);
        let one_fin = 2.0 * PI * square / reference_area / (1.0 + root);
        let body_factor = self.body_factor();
        let count_factor = self.count_factor();
        let cna = body_factor * count_factor * 0.5 * f64::from(self.count) * one_fin;
        Ok(FinLift {
            force: NormalForce::at(cna, self.x + fin.quarter_chord_x),
            body_factor,
            count_factor,
            mach_limited: limited != mach,
        })
    }

    /// √(1 + (S²/Af)² (β² + tan² Γ)): see [`FinSet::lift`].
    pub(crate) fn stretch(&self, beta2: f64) -> f64 {
        let aspect = self.fin.span * self.fin.span / self.fin.area;
        let tan = self.fin.mid_chord_sweep.tan();
        (1.0 + aspect * aspect * (beta2 + tan * tan)).sqrt()
    }

    /// K = 1 + R/(S + R), or half that share for many fins where the rule says so.
    pub fn body_factor(&self) -> f64 {
        let share = self.body_radius / (self.fin.span + self.body_radius);
        match self.rule {
            FinCountRule::HalvedBodyShare if self.count > 4 => 1.0 + 0.5 * share,
            FinCountRule::HalvedBodyShare | FinCountRule::Multiplier => 1.0 + share,
        }
    }

    /// The multiplier for the number of fins, 1 for 3 and 4; see [`FinCountRule`].
    pub fn count_factor(&self) -> f64 {
        match (self.rule, self.count) {
            (FinCountRule::HalvedBodyShare, _) | (_, 0..=4) => 1.0,
            (_, 5) => 0.948,
            (_, 6) => 0.913,
            (_, 7) => 0.854,
            (_, 8) => 0.810,
            (_, _) => 0.750,
        }
    }
}

/// Body lift at an angle of attack of `alpha` rad, as an extra slope at the side view's centroid.
///
/// CNα = K (A_plan/A) sin²α/|α|; 0 at α = 0. `k` is usually 1.1, published from 1.1 to 1.5.
/// Valid to about 15 degrees. Source: Galejs' form of the cross-flow term (from memory).
pub fn body_lift(planform_area: f64, planform_centroid: f64, alpha: f64, k: f64, reference_area: f64) -> NormalForce {
    if alpha == 0.0 {
        return NormalForce::default();
    }
    let sin = alpha.sin();
    NormalForce::at(k * planform_area / reference_area * sin * sin / alpha.abs(), planform_centroid)
}

/// The published usual constant of [`body_lift`] (from memory).
pub const BODY_LIFT_K: f64 = 1.1;

/// The side view's centroid of a whole rocket: the "cardboard cut-out" point, in m; `None` for no
/// area. Each part is (area in m², centroid in m). Very conservative: it lies well ahead of the
/// centre of pressure at small angles. Source: NASA Glenn, "Determining Center of Pressure".
pub fn cut_out_centre(parts: impl IntoIterator<Item = (f64, f64)>) -> Option<f64> {
    let (mut area, mut moment) = (0.0, 0.0);
    for (a, x) in parts {
        area += a;
        moment += a * x;
    }
    (area > 0.0).then(|| moment / area)
}

/// Above this Mach number the subsonic compressibility factor isn't used.
pub(crate) const MOST_MACH: f64 = 0.8;
