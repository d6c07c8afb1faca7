//! A whole rocket in the air: normal force, damping and drag at any Mach number and angle.

use crate::air::Air;
use crate::drag::DragModel;
use crate::normal_force::{body_lift, total, FinLiftError, FinSet, NormalForce};

/// What the air does to a rocket, all on one reference area.
#[derive(Debug, Clone, PartialEq)]
pub struct Aerodynamics {
    /// Reference area in m².
    pub reference_area: f64,
    /// The body's pieces: see [`crate::normal_force::body`].
    pub body: Vec<NormalForce>,
    /// Sets of fins, each of three or more.
    pub fins: Vec<FinSet>,
    /// Area of the body's side view in m².
    pub planform_area: f64,
    /// Centroid of the body's side view in m from the tip.
    pub planform_centroid: f64,
    /// Constant of body lift: see [`body_lift`].
    pub body_lift_k: f64,
    /// Drag.
    pub drag: Drag,
}

/// Where the drag coefficient comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Drag {
    /// One coefficient for the whole flight, measured or assumed.
    Constant(f64),
    /// Built up from the parts at every speed and height.
    BuildUp(DragModel),
}

impl Drag {
    /// The drag coefficient at `speed` m/s through `air`, the motor `burning` or not.
    pub fn coefficient(&self, speed: f64, air: &Air, burning: bool) -> f64 {
        match self {
            Self::Constant(cd) => *cd,
            Self::BuildUp(model) => model.coefficient(speed, air, burning),
        }
    }
}

impl Aerodynamics {
    /// Every part's normal force at a Mach number (fins are held at Mach 0.8 above it).
    pub fn parts(&self, mach: f64) -> Result<Vec<NormalForce>, FinLiftError> {
        let mut parts = self.body.clone();
        for set in &self.fins {
            parts.push(set.lift(mach, self.reference_area)?.force);
        }
        Ok(parts)
    }

    /// The whole rocket's normal force at a Mach number and an angle of attack of `alpha` rad, body
    /// lift included; its station is the centre of pressure there.
    pub fn normal_force(&self, mach: f64, alpha: f64) -> Result<NormalForce, FinLiftError> {
        let lift = body_lift(self.planform_area, self.planform_centroid, alpha, self.body_lift_k, self.reference_area);
        Ok(total(self.parts(mach)?.into_iter().chain([lift])))
    }
}
