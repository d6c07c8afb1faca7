//! The rod or rail as a beam clamped at its foot: lean, slope, stress and first frequency.
//!
//! Small deflections. Sources: Roark; Timoshenko (beams); Blevins (frequencies), all from memory.

use std::f64::consts::PI;

use crate::roots::bracketed;

/// A straight cantilever of even section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cantilever {
    /// Free length in m, positive.
    pub length: f64,
    /// Young's modulus E in Pa, positive.
    pub modulus: f64,
    /// Second moment of area I in m⁴, positive.
    pub second_moment: f64,
    /// Mass per length in kg/m, 0 or more.
    pub mass_per_length: f64,
}

/// How a load bends a cantilever. Loads on the same beam add up, term by term.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bend {
    /// Sideways movement of the tip in m.
    pub tip: f64,
    /// Slope of the tip in rad.
    pub slope: f64,
    /// Bending moment at the clamp in N m.
    pub root_moment: f64,
}

impl std::ops::Add for Bend {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            tip: self.tip + other.tip,
            slope: self.slope + other.slope,
            root_moment: self.root_moment + other.root_moment,
        }
    }
}

impl Cantilever {
    /// Flexural stiffness EI in N m².
    pub fn stiffness(&self) -> f64 {
        self.modulus * self.second_moment
    }

    /// Bend under a side `load` in N at the tip: y = P L³/3EI, slope P L²/2EI.
    pub fn tip_load(&self, load: f64) -> Bend {
        self.load_at(load, self.length)
    }

    /// Bend under a side `load` in N, `a` m from the clamp, 0 <= a <= L: tip P a² (3L − a)/6EI,
    /// slope P a²/2EI.
    pub fn load_at(&self, load: f64, a: f64) -> Bend {
        let stiffness = self.stiffness();
        Bend {
            tip: load * a * a * (3.0 * self.length - a) / (6.0 * stiffness),
            slope: load * a * a / (2.0 * stiffness),
            root_moment: load * a,
        }
    }

    /// Sideways movement in m of the loaded point itself: P a³/3EI.
    pub fn movement_at_load(&self, load: f64, a: f64) -> f64 {
        load * a * a * a / (3.0 * self.stiffness())
    }

    /// Bend under an even side load of `per_length` N/m: y = w L⁴/8EI, slope w L³/6EI.
    pub fn even_load(&self, per_length: f64) -> Bend {
        let (length, stiffness) = (self.length, self.stiffness());
        let cube = length * length * length;
        Bend {
            tip: per_length * cube * length / (8.0 * stiffness),
            slope: per_length * cube / (6.0 * stiffness),
            root_moment: 0.5 * per_length * length * length,
        }
    }

    /// Bend under its own weight at a `tilt` in rad from the vertical.
    pub fn own_weight(&self, tilt: f64) -> Bend {
        self.even_load(self.mass_per_length * crate::air::G0 * tilt.sin())
    }

    /// Stress in Pa at the clamp for a moment in N m, at `half_depth` m from the neutral axis.
    pub fn stress(&self, root_moment: f64, half_depth: f64) -> f64 {
        root_moment * half_depth / self.second_moment
    }

    /// First bending frequency in Hz with a `tip_mass` in kg, 0 for the bare beam.
    ///
    /// Exact root of 1 + cos b cosh b + b r (cos b sinh b − sin b cosh b) = 0, r = M/(μL);
    /// f = b²/2π √(EI/μL⁴). A beam without mass follows √(3EI/ML³)/2π.
    pub fn first_frequency(&self, tip_mass: f64) -> f64 {
        let cube = self.length * self.length * self.length;
        let beam_mass = self.mass_per_length * self.length;
        if beam_mass == 0.0 {
            return (3.0 * self.stiffness() / (tip_mass * cube)).sqrt() / (2.0 * PI);
        }
        let ratio = tip_mass / beam_mass;
        let equation = |b: f64| {
            let (sin, cos) = b.sin_cos();
            let (cosh, sinh) = (b.cosh(), b.sinh());
            1.0 + cos * cosh + b * ratio * (cos * sinh - sin * cosh)
        };
        // Rayleigh's root, by the bend under a load at the tip, lies a little above the true one. The bare beam's root
        // bounds every loaded one.
        let rayleigh = (3.0 / (ratio + 33.0 / 140.0)).powf(0.25).min(BARE_ROOT);
        let near = bracketed(0.98 * rayleigh, rayleigh, equation);
        let b = near.or_else(|| bracketed(1e-9, BARE_ROOT, equation)).unwrap_or(BARE_ROOT);
        b * b / (2.0 * PI) * (self.stiffness() / (beam_mass * cube)).sqrt()
    }

    /// Whether a tip movement in m is too large for this linear theory: over a tenth of the length.
    pub fn is_beyond_linear(&self, tip: f64) -> bool {
        tip.abs() > 0.1 * self.length
    }
}

/// Second moment of area in m⁴ of a round rod of `diameter` m: π d⁴/64.
pub fn round_second_moment(diameter: f64) -> f64 {
    PI * diameter.powi(4) / 64.0
}

/// Second moment of area in m⁴ of a round tube: π (D⁴ − d⁴)/64.
pub fn tube_second_moment(outer: f64, inner: f64) -> f64 {
    round_second_moment(outer) - round_second_moment(inner)
}

/// Second moment of area in m⁴ of a solid square of `side` m: s⁴/12.
pub fn square_second_moment(side: f64) -> f64 {
    side.powi(4) / 12.0
}

/// Side load per length in N/m of `wind` m/s on a beam `width` m across: ρ w²/2 · Cd · width.
pub fn wind_load(density: f64, wind: f64, cd: f64, width: f64) -> f64 {
    0.5 * density * wind * wind * cd * width
}

/// Drag of a long cylinder across the wind (Aeronautical Engineer's Data Book, p. 95).
pub const ROUND_CD: f64 = 1.2;
/// Drag of a long flat plate across the wind, for a rail's broad side (same table).
pub const FLAT_CD: f64 = 1.98;

/// A little above the first root of 1 + cos b cosh b = 0.
const BARE_ROOT: f64 = 1.876;
