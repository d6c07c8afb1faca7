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

/// What turns a free rocket and what carries it sideways, at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swinging {
    /// C1 in N m per rad: see [`corrective_moment`].
    pub corrective: f64,
    /// C2 in N m s: see [`aerodynamic_damping`] and [`jet_damping`].
    pub damping: f64,
    /// Transverse inertia about the balance point in kg m².
    pub inertia: f64,
    /// Normal force L in N per rad: see [`normal_slope`].
    pub normal: f64,
    /// Mass in kg.
    pub mass: f64,
    /// Airspeed in m/s.
    pub speed: f64,
}

/// Normal force L in N per rad of angle of attack: q A CNα.
pub fn normal_slope(stream: &Stream, total: NormalForce) -> f64 {
    0.5 * stream.density * stream.speed * stream.speed * stream.reference_area * total.cna
}

/// The swing of a stable rocket: α″ + 2ζω α′ + ω² α = 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swing {
    /// Undamped angular frequency in rad/s.
    pub natural: f64,
    /// Damping ratio; below 1 the rocket swings, from 0.05 to 0.30 in practice (from memory).
    pub damping_ratio: f64,
    /// Decay rate ζω in 1/s.
    pub decay: f64,
}

impl Swing {
    /// The swing of a free rocket; `None` where C1 isn't positive, so that it turns over, or mass, inertia or speed
    /// isn't.
    ///
    /// A free rocket also gives way sideways: with the path's direction γ, I θ″ + C2 θ′ + C1 α = 0, m v γ′ = L α and
    /// α = θ − γ make ζω = (C2/I + L/(m v))/2 and ω² = (C1 + L C2/(m v))/I. Derived here; as in any textbook of flight
    /// dynamics on the short period (from memory). The form for a rocket pinned at its balance point, without L, has a
    /// third to a half less damping. That thrust turns the path and the speed grows is left out: both damp further.
    pub fn of(body: &Swinging) -> Option<Self> {
        let sound = [body.corrective, body.inertia, body.mass, body.speed].iter().all(|value| *value > 0.0);
        if !sound {
            return None;
        }
        let gives_way = body.normal / (body.mass * body.speed);
        let square = (body.corrective + gives_way * body.damping) / body.inertia;
        let decay = 0.5 * (body.damping / body.inertia + gives_way);
        Some(Self { natural: square.sqrt(), damping_ratio: decay / square.sqrt(), decay })
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
