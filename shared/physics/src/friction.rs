//! Skin friction of a flat plate on one side, by Reynolds number and roughness.

/// How the boundary layer runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BoundaryLayer {
    /// Turbulent from the front: what joints, paint and a rough launch make likely. On the safe
    /// side (common practice, no source).
    #[default]
    Turbulent,
    /// Laminar up to a Reynolds number of 5e5, then mixed.
    Natural,
}

/// Height of the roughness in m of wood planed or sanded and left so; wound paper counts as alike, with no source.
/// Source: Hoerner, Fluid-Dynamic Drag, 1965, table of grain sizes: planed wood 15 µm (from memory). Wood as sawn has
/// thirty times as much.
pub const BARE: f64 = 15e-6;
/// The same of paint as a spray can lays it: no smoother than planed wood. Sources: Hoerner, 20 µm for sprayed paint
/// (from memory); Nicolai & Carichner, Fundamentals of Aircraft and Airship Design, table 13.1 (read as quoted
/// elsewhere): 10 µm put on with average care, 30 µm in series.
pub const PAINTED: f64 = 20e-6;
/// The same of a coat that was filled, sanded and polished. Source: Nicolai & Carichner, as above: polished metal or
/// wood 0.5 to 2 µm; Hoerner, 0.5 µm (from memory).
pub const POLISHED: f64 = 1e-6;

/// Friction coefficient of a plate at a `reynolds` number on its length, its roughness being
/// `relative_roughness` times that length, at low speed.
///
/// Above [`critical_reynolds`] the roughness alone decides. Reynolds numbers below 1e4 count as
/// 1e4. Sources: Barrowman 1967; Hoerner, Fluid-Dynamic Drag, 1965 (both from memory).
pub fn skin_friction(reynolds: f64, relative_roughness: f64, flow: BoundaryLayer) -> f64 {
    Plate::new(1.0, relative_roughness).friction(reynolds, reynolds.ln(), flow).0
}

/// A surface with its roughness worked out beforehand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Plate {
    length: f64,
    ln_length: f64,
    rough: f64,
    critical: f64,
    /// The logarithm of the Reynolds number per m above which roughness decides.
    ln_critical: f64,
}

impl Plate {
    /// A plate `length` m long with a roughness `height` in m.
    pub fn new(length: f64, height: f64) -> Self {
        let relative = height / length;
        let is_rough = relative > 0.0;
        let critical = if is_rough { critical_reynolds(relative) } else { f64::INFINITY };
        Self {
            length,
            ln_length: length.ln(),
            rough: if is_rough { rough(relative) } else { 0.0 },
            critical,
            // Reynolds numbers are at least the least: a rougher plate is always rough.
            ln_critical: if critical < LEAST_REYNOLDS { f64::NEG_INFINITY } else { critical.ln() - length.ln() },
        }
    }

    pub fn ln_critical(&self) -> f64 {
        self.ln_critical
    }

    /// Whether roughness decides the friction at this logarithm of the Reynolds number per m.
    #[inline]
    pub fn is_rough(&self, ln_per_length: f64) -> bool {
        ln_per_length > self.ln_critical
    }

    /// Friction coefficient where roughness decides it.
    pub fn rough(&self) -> f64 {
        self.rough
    }

    /// Friction coefficient of a smooth plate whose layer is turbulent throughout.
    #[inline]
    pub fn turbulent(&self, ln_per_length: f64) -> f64 {
        turbulent_by_ln((ln_per_length + self.ln_length).max(LN_LEAST_REYNOLDS))
    }

    /// Friction coefficient at a Reynolds number per m, given with its logarithm because many
    /// plates share it, and whether roughness decides it.
    pub fn friction(&self, per_length: f64, ln_per_length: f64, flow: BoundaryLayer) -> (f64, bool) {
        let reynolds = (per_length * self.length).max(LEAST_REYNOLDS);
        if reynolds > self.critical {
            return (self.rough, true);
        }
        let ln = if reynolds > LEAST_REYNOLDS { ln_per_length + self.ln_length } else { reynolds.ln() };
        let smooth = match flow {
            BoundaryLayer::Turbulent => turbulent_by_ln(ln),
            BoundaryLayer::Natural if reynolds < TRANSITION => laminar(reynolds),
            BoundaryLayer::Natural => prandtl_schlichting_by_ln(ln) - 1700.0 / reynolds,
        };
        (smooth, false)
    }
}

/// Factor on the friction for the square of a Mach number, `rough` where roughness decides. Source: Hoerner
/// (from memory).
pub fn compressibility(square: f64, rough: bool) -> f64 {
    if square < 1.0 {
        return 1.0 - 0.1 * square;
    }
    supersonic(square, rough)
}

/// Kept out of line: the compiler would otherwise work the power out at every speed and throw it
/// away below Mach 1.
#[cold]
#[inline(never)]
fn supersonic(square: f64, rough: bool) -> f64 {
    if rough {
        1.0 / (1.0 + 0.18 * square)
    } else {
        (1.0 + 0.15 * square).powf(-0.58)
    }
}

/// Laminar plate, Blasius: 1.328/√Re (from memory).
pub fn laminar(reynolds: f64) -> f64 {
    1.328 / reynolds.sqrt()
}

/// Turbulent plate in Barrowman's form: 1/(1.50 ln Re − 5.6)² (from memory). Re above 1e3.
pub fn turbulent(reynolds: f64) -> f64 {
    turbulent_by_ln(reynolds.ln())
}

fn turbulent_by_ln(ln_reynolds: f64) -> f64 {
    let root = 1.50 * ln_reynolds - 5.6;
    1.0 / (root * root)
}

/// Turbulent plate, Prandtl–Schlichting: 0.455/(log10 Re)^2.58 (from memory).
pub fn prandtl_schlichting(reynolds: f64) -> f64 {
    prandtl_schlichting_by_ln(reynolds.ln())
}

fn prandtl_schlichting_by_ln(ln_reynolds: f64) -> f64 {
    0.455 / (ln_reynolds / std::f64::consts::LN_10).powf(2.58)
}

/// Rough plate: 0.032 (Rs/L)^0.2 (Hoerner, from memory).
pub fn rough(relative_roughness: f64) -> f64 {
    0.032 * relative_roughness.powf(0.2)
}

/// The Reynolds number above which roughness decides: 51 (Rs/L)^−1.039 (Hoerner, from memory).
pub fn critical_reynolds(relative_roughness: f64) -> f64 {
    51.0 * relative_roughness.powf(-1.039)
}

const TRANSITION: f64 = 5e5;
const LEAST_REYNOLDS: f64 = 1e4;
const LN_LEAST_REYNOLDS: f64 = 4.0 * std::f64::consts::LN_10;
