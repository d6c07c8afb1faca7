//! Mass, balance point and moments of inertia, and how they add up.

/// A rigid body's mass properties, taken as balanced about the rocket's axis.
///
/// A part that sits off the axis keeps its share of both inertias, but the sideways shift of the
/// balance point is not followed: the rocket as a whole is taken as balanced about its axis, and
/// transverse inertias are averaged around it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct MassProps {
    /// Mass in kg, not negative.
    pub mass: f64,
    /// Station of the centroid in m from the nose tip, positive aft.
    pub x: f64,
    /// Moment of inertia about the rocket's axis in kg m².
    pub i_axial: f64,
    /// Moment of inertia about a transverse axis through the body's own centroid in kg m².
    pub i_transverse: f64,
}

impl MassProps {
    /// Nothing at all: the neutral element of [`combine`].
    pub const ZERO: Self = Self { mass: 0.0, x: 0.0, i_axial: 0.0, i_transverse: 0.0 };

    /// A point of `mass` kg on the axis at station `x` m.
    pub fn point(mass: f64, x: f64) -> Self {
        Self { mass, x, ..Self::ZERO }
    }

    /// A point of `mass` kg at station `x` m, `radius` m off the axis.
    ///
    /// Its transverse inertia m r²/2 is the mean over all roll angles.
    pub fn point_off_axis(mass: f64, x: f64, radius: f64) -> Self {
        let i_axial = mass * radius * radius;
        Self { mass, x, i_axial, i_transverse: 0.5 * i_axial }
    }

    /// The same body with its own axis moved `radius` m sideways, parallel to the rocket's axis
    /// (a lug, a motor of a cluster). The transverse inertia is the mean over all roll angles.
    pub fn off_axis(self, radius: f64) -> Self {
        let added = self.mass * radius * radius;
        Self { i_axial: self.i_axial + added, i_transverse: self.i_transverse + 0.5 * added, ..self }
    }

    /// The same body moved aft by `dx` m.
    pub fn shifted(self, dx: f64) -> Self {
        Self { x: self.x + dx, ..self }
    }

    /// The same shape with `factor` times the density: mass and inertias scale, the centroid stays.
    pub fn scaled(self, factor: f64) -> Self {
        Self {
            mass: self.mass * factor,
            x: self.x,
            i_axial: self.i_axial * factor,
            i_transverse: self.i_transverse * factor,
        }
    }

    /// The transverse moment of inertia in kg m² about station `x` m, by the parallel-axis theorem.
    pub fn transverse_about(self, x: f64) -> f64 {
        self.i_transverse + self.mass * (x - self.x) * (x - self.x)
    }
}

/// One rigid body made of `parts`, by the parallel-axis theorem; [`MassProps::ZERO`] for no mass.
pub fn combine(parts: impl IntoIterator<Item = MassProps, IntoIter: Clone>) -> MassProps {
    let parts = parts.into_iter();
    let mass: f64 = parts.clone().map(|part| part.mass).sum();
    if mass == 0.0 {
        return MassProps::ZERO;
    }
    let x = parts.clone().map(|part| part.mass * part.x).sum::<f64>() / mass;
    MassProps {
        mass,
        x,
        i_axial: parts.clone().map(|part| part.i_axial).sum(),
        i_transverse: parts.map(|part| part.transverse_about(x)).sum(),
    }
}

/// Transverse inertia in kg m² of a rocket of `mass` kg hung level from two wires `wire` m long and
/// `apart` m apart that turns to and fro with a `period` in s: m g D² T²/(16 π² L).
///
/// The bifilar swing, small angles (formula from memory).
pub fn bifilar_inertia(mass: f64, apart: f64, wire: f64, period: f64) -> f64 {
    let turns = apart * period / (4.0 * std::f64::consts::PI);
    mass * crate::air::G0 * turns * turns / wire
}
