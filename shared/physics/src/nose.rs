//! Nose outlines: the radius of each shape along its length.

use std::f64::consts::PI;

/// The outline of a nose from its tip (radius 0) to its base.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoseShape {
    /// Straight sides.
    Cone,
    /// A circular arc that meets the body without a corner. Length at least the base radius.
    Ogive,
    /// Half an ellipsoid of revolution; a hemisphere where length equals base radius.
    Ellipsoid,
    /// Parabolic series r = R (2t − K't²)/(2 − K'), t = x/L, with 0 <= K' <= 1.
    Parabola {
        /// K': 0 is a cone, 1 meets the body without a corner.
        k: f64,
    },
    /// Power series r = R (x/L)^n, with 0 < n <= 1.
    Power {
        /// The exponent n: 1 is a cone, 1/2 a paraboloid.
        n: f64,
    },
    /// Haack series, least wave drag, with 0 <= C <= 2/3.
    Haack {
        /// C: 0 for given length and diameter (von Kármán), 1/3 for given length and volume.
        c: f64,
    },
}

/// Why a nose can't have the shape asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoseError {
    /// Length or base radius isn't a positive number; the values given, in m.
    Size {
        /// Length in m.
        length: f64,
        /// Base radius in m.
        base_radius: f64,
    },
    /// A tangent ogive shorter than its base radius would have a flat face, not a tip.
    OgiveTooShort {
        /// Length in m.
        length: f64,
        /// Base radius in m.
        base_radius: f64,
    },
    /// The shape's number lies outside its range.
    Parameter {
        /// The value given.
        value: f64,
        /// The least allowed value.
        least: f64,
        /// The greatest allowed value.
        greatest: f64,
    },
}

impl NoseShape {
    /// Whether a nose of this shape, `length` m long on a base of radius `base_radius` m, exists.
    pub fn check(self, length: f64, base_radius: f64) -> Result<(), NoseError> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        if !positive(length) || !positive(base_radius) {
            return Err(NoseError::Size { length, base_radius });
        }
        match self {
            Self::Cone | Self::Ellipsoid => Ok(()),
            Self::Ogive if length < base_radius => Err(NoseError::OgiveTooShort { length, base_radius }),
            Self::Ogive => Ok(()),
            Self::Parabola { k } => within(k, 0.0, 1.0),
            Self::Power { n } => within(n, LEAST_POWER, 1.0),
            Self::Haack { c } => within(c, 0.0, 2.0 / 3.0),
        }
    }

    /// The radius in m at `x` m behind the tip, and the slope dr/dx there.
    ///
    /// Valid for 0 <= x <= length; the slope of a blunt tip is infinite at x = 0.
    /// Sources: elementary geometry; power, parabolic and Haack series as commonly published
    /// (Haack 1941 from memory).
    pub fn outline(self, x: f64, length: f64, base_radius: f64) -> (f64, f64) {
        let (l, r) = (length, base_radius);
        let t = (x / l).clamp(0.0, 1.0);
        match self {
            Self::Cone => (r * t, r / l),
            Self::Ogive => {
                let rho = (r * r + l * l) / (2.0 * r);
                let ahead = l - t * l;
                let height = (rho * rho - ahead * ahead).max(0.0).sqrt();
                (height + r - rho, ahead / height)
            }
            Self::Ellipsoid => {
                let y = (t * (2.0 - t)).sqrt();
                (r * y, r / l * (1.0 - t) / y)
            }
            Self::Parabola { k } => (r * t * (2.0 - k * t) / (2.0 - k), r / l * 2.0 * (1.0 - k * t) / (2.0 - k)),
            Self::Power { n } => (r * t.powf(n), r / l * n * t.powf(n - 1.0)),
            Self::Haack { c } => haack(c, t, l, r),
        }
    }

    /// The radius in m at `x` m behind the tip; see [`NoseShape::outline`].
    pub fn radius(self, x: f64, length: f64, base_radius: f64) -> f64 {
        self.outline(x, length, base_radius).0
    }

    /// The second derivative d²r/dx² in 1/m at `x` m behind the tip; not above 0, and infinite at
    /// some tips.
    pub fn bend(self, x: f64, length: f64, base_radius: f64) -> f64 {
        let (l, r) = (length, base_radius);
        let t = (x / l).clamp(0.0, 1.0);
        let scale = r / (l * l);
        match self {
            Self::Cone => 0.0,
            Self::Ogive => {
                let rho = (r * r + l * l) / (2.0 * r);
                let ahead = l - t * l;
                let height = (rho * rho - ahead * ahead).max(0.0).sqrt();
                -(rho / height) * (rho / height) / height
            }
            Self::Ellipsoid => -scale / (t * (2.0 - t)).powf(1.5),
            Self::Parabola { k } => -2.0 * k * scale / (2.0 - k),
            Self::Power { n } => scale * n * (n - 1.0) * t.powf(n - 2.0),
            Self::Haack { c } => {
                // From (r²)'' = 2 r'² + 2 r r''.
                let (y, slope) = haack(c, t, l, r);
                let (sin, cos) = (2.0 * t.sqrt().asin()).sin_cos();
                let square = 4.0 * r * scale / PI * (2.0 * cos + 3.0 * c * (cos * cos - sin * sin)) / sin;
                (0.5 * square - slope * slope) / y
            }
        }
    }
}

/// Below this exponent a power-series nose is a flat plate for every practical purpose.
const LEAST_POWER: f64 = 0.1;

fn within(value: f64, least: f64, greatest: f64) -> Result<(), NoseError> {
    if value >= least && value <= greatest {
        Ok(())
    } else {
        Err(NoseError::Parameter { value, least, greatest })
    }
}

/// r² = R²/π (θ − sin 2θ / 2 + C sin³θ) with cos θ = 1 − 2t.
fn haack(c: f64, t: f64, l: f64, r: f64) -> (f64, f64) {
    // Half-angle form: exact near the tip, where acos(1 - 2t) would lose half its digits.
    let theta = 2.0 * t.sqrt().asin();
    let sin = theta.sin();
    let sin2 = sin * sin;
    // θ − sin θ cos θ cancels near the tip; its series is 2θ³/3 − 2θ⁵/15 + 4θ⁷/315.
    let lens = if theta < 0.05 {
        let t2 = theta * theta;
        theta * t2 * (2.0 / 3.0 - t2 * (2.0 / 15.0 - t2 * 4.0 / 315.0))
    } else {
        theta - sin * theta.cos()
    };
    let square = (lens + c * sin2 * sin) / PI;
    let y = square.sqrt();
    // dθ/dx = 2 / (L sin θ);  d(r²)/dθ = R²/π (2 sin²θ + 3 C sin²θ cos θ).
    let slope = r / l * sin * (2.0 + 3.0 * c * theta.cos()) / (PI * y);
    (r * y, slope)
}
