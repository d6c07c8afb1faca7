//! The rocket's swing about its flight path after release.
//!
//! Source: Mandell, Caporaso & Bengen, Topics in Advanced Model Rocketry, 1973 (formulas from
//! memory).

use std::f64::consts::PI;

use crate::normal_force::NormalForce;

/// The flow at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stream {
    /// Air density in kg/m³.
    pub density: f64,
    /// Airspeed in m/s.
    pub speed: f64,
    /// Reference area in m².
    pub reference_area: f64,
}

/// Corrective moment C1 in N m per rad: ρ v² A CNα (x_pressure − x_balance)/2. Negative is
/// unstable.
pub fn corrective_moment(stream: &Stream, total: NormalForce, balance: f64) -> f64 {
    let q = 0.5 * stream.density * stream.speed * stream.speed;
    q * stream.reference_area * (total.moment - total.cna * balance)
}

/// Aerodynamic damping C2A in N m s: ρ v A Σ CNα_i (x_i − x_balance)²/2.
pub fn aerodynamic_damping(stream: &Stream, parts: impl IntoIterator<Item = NormalForce>, balance: f64) -> f64 {
    let lever = |part: NormalForce| part.x().map_or(0.0, |x| part.cna * (x - balance) * (x - balance));
    let sum: f64 = parts.into_iter().map(lever).sum();
    0.5 * stream.density * stream.speed * stream.reference_area * sum
}

/// Jet damping C2R in N m s: ṁ (x_nozzle − x_balance)², for a `mass_flow` in kg/s.
pub fn jet_damping(mass_flow: f64, nozzle: f64, balance: f64) -> f64 {
    mass_flow * (nozzle - balance) * (nozzle - balance)
}

/// The swing of a stable rocket: I α″ + C2 α′ + C1 α = 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swing {
    /// Undamped angular frequency in rad/s.
    pub natural: f64,
    /// Damping ratio; below 1 the rocket swings, from 0.05 to 0.30 in practice (from memory).
    pub damping_ratio: f64,
    /// Decay rate C2/2I in 1/s.
    pub decay: f64,
}

impl Swing {
    /// From the corrective moment C1, the damping C2 and the transverse inertia I in kg m²; `None`
    /// where C1 isn't positive: no swing, the rocket turns over.
    pub fn new(c1: f64, c2: f64, inertia: f64) -> Option<Self> {
        (c1 > 0.0 && inertia > 0.0).then(|| Self {
            natural: (c1 / inertia).sqrt(),
            damping_ratio: c2 / (2.0 * (c1 * inertia).sqrt()),
            decay: c2 / (2.0 * inertia),
        })
    }

    /// Damped angular frequency in rad/s; `None` from a damping ratio of 1 on.
    pub fn damped(&self) -> Option<f64> {
        let z = self.damping_ratio;
        (z < 1.0).then(|| self.natural * (1.0 - z * z).sqrt())
    }

    /// Period in s.
    pub fn period(&self) -> Option<f64> {
        self.damped().map(|damped| 2.0 * PI / damped)
    }

    /// Length of path in m flown during a swing at `speed` m/s; hardly depends on the speed.
    pub fn wavelength(&self, speed: f64) -> Option<f64> {
        self.period().map(|period| speed * period)
    }

    /// The first opposite peak as a share of the first angle: exp(−πζ/√(1 − ζ²)).
    pub fn overshoot(&self) -> Option<f64> {
        let z = self.damping_ratio;
        (z < 1.0).then(|| (-PI * z / (1.0 - z * z).sqrt()).exp())
    }
}

/// Angle of attack in rad at release: atan(w/v), for a wind across the path.
pub fn angle_of_attack(wind: f64, speed: f64) -> f64 {
    wind.atan2(speed)
}
