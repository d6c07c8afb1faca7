//! Air and wind over a site as the integration of one flight asks for them, thousands of times.

use super::bump::Bump;
use super::profile::Profile;
use crate::air::{Atmosphere, Wind};
use std::sync::LazyLock;

/// What the forces need of the air at one height.
#[derive(Clone, Copy)]
pub(crate) struct Local {
    /// Density in kg/m³.
    pub density: f64,
    /// One over the speed of sound, s/m.
    pub per_sound: f64,
    /// The logarithm of density over viscosity, s/m².
    pub ln_thin: f64,
}

/// The air as it is, or fitted once for a flight.
pub(crate) struct Sky<'a> {
    atmosphere: &'a Atmosphere,
    wind: &'a Wind,
    fit: Option<Fit>,
    profile: Option<Profile>,
    /// A gust on top of the wind.
    pub bump: Option<Bump>,
}

/// Polynomials over the height between two bounds, by powers of a variable from −1 to 1.
struct Fit {
    middle: f64,
    per_half: f64,
    powers: [[f64; 3]; POINTS],
}

impl<'a> Sky<'a> {
    /// Worked out anew at every height.
    pub fn exact(atmosphere: &'a Atmosphere, wind: &'a Wind) -> Self {
        Self { atmosphere, wind, fit: None, profile: None, bump: None }
    }

    /// Fitted from a little below the ground to `top` m or to where the atmosphere's next layer begins, if that is
    /// lower; exact beyond. Over the whole of the lowest layer density and sound are within 1e-7 of themselves, over
    /// two kilometres within 1e-10.
    pub fn fitted(atmosphere: &'a Atmosphere, wind: &'a Wind, top: f64) -> Self {
        let (low, high) = (-BELOW, top.min(atmosphere.smooth_to()));
        let fit = (high > low + LEAST_RANGE).then(|| Fit::new(atmosphere, low, high));
        Self { atmosphere, wind, fit, profile: Some(Profile::new(wind)), bump: None }
    }

    #[inline]
    pub fn at(&self, height: f64) -> Local {
        self.fit.as_ref().and_then(|fit| fit.at(height)).unwrap_or_else(|| exactly(self.atmosphere, height))
    }

    /// Wind in m/s.
    #[inline]
    pub fn wind(&self, height: f64) -> f64 {
        let wind = self.profile.as_ref().and_then(|profile| profile.at(height));
        let wind = wind.unwrap_or_else(|| self.wind.at(height));
        match &self.bump {
            None => wind,
            Some(bump) => wind + bump.at(height),
        }
    }

    /// Over the height to the power of one over this the wind is as good as a straight line down to the ground.
    pub fn straight_power(&self) -> i32 {
        let exponent = self.wind.exponent;
        if exponent > 0.0 {
            (1.0 / exponent).clamp(1.0, MOST_POWER).round() as i32
        } else {
            1
        }
    }

    #[inline]
    pub fn density(&self, height: f64) -> f64 {
        self.at(height).density
    }

    /// Wind in m/s and its first three derivatives by height.
    #[inline]
    pub fn sheared(&self, height: f64) -> (f64, f64, f64, f64) {
        let wind = self.wind(height);
        if height > 0.0 {
            let (n, per_height) = (self.wind.exponent, 1.0 / height);
            let first = n * wind * per_height;
            let second = (n - 1.0) * first * per_height;
            (wind, first, second, (n - 2.0) * second * per_height)
        } else {
            (wind, 0.0, 0.0, 0.0)
        }
    }
}

/// A wind that falls off later than this would have is nearly as strong at a millimetre as at a metre.
const MOST_POWER: f64 = 20.0;
/// Heights below the ground that a step may look at on its way there.
const BELOW: f64 = 50.0;
const LEAST_RANGE: f64 = 100.0;

#[cold]
#[inline(never)]
fn exactly(atmosphere: &Atmosphere, height: f64) -> Local {
    let air = atmosphere.at(height);
    Local { density: air.density, per_sound: 1.0 / air.sound_speed, ln_thin: (air.density / air.viscosity).ln() }
}

/// Degree 5: with a half-width of d the density's share (1 − h/44 330)^4.256 is off by at most 2 (d/2)⁶/44 330⁶ ·
/// 0.011.
const POINTS: usize = 6;

impl Fit {
    /// Interpolates at Chebyshev's points.
    fn new(atmosphere: &Atmosphere, low: f64, high: f64) -> Self {
        let (middle, half) = (0.5 * (low + high), 0.5 * (high - low));
        let mut sums = [[0.0; 3]; POINTS];
        for node in NODES.iter() {
            let local = exactly(atmosphere, middle + half * node.at);
            for (weight, sum) in node.weights.iter().zip(&mut sums) {
                sum[0] += weight * local.density;
                sum[1] += weight * local.per_sound;
                sum[2] += weight * local.ln_thin;
            }
        }
        // Chebyshev's polynomials written out by powers.
        let mut powers = [[0.0; 3]; POINTS];
        for (i, power) in (0..3).flat_map(|i| (0..POINTS).map(move |power| (i, power))) {
            powers[power][i] = (0..POINTS).map(|degree| CHEBYSHEV[degree][power] * sums[degree][i]).sum();
        }
        Self { middle, per_half: 1.0 / half, powers }
    }

    #[inline]
    fn at(&self, height: f64) -> Option<Local> {
        let x = (height - self.middle) * self.per_half;
        if x.abs() <= 1.0 {
            let x2 = x * x;
            let [a, b, c, d, e, f] = &self.powers;
            let sum = |i: usize| (a[i] + b[i] * x) + x2 * ((c[i] + d[i] * x) + x2 * (e[i] + f[i] * x));
            Some(Local { density: sum(0), per_sound: sum(1), ln_thin: sum(2) })
        } else {
            None
        }
    }
}

/// A point at which the air is looked up, from −1 to 1, and what it counts for each of Chebyshev's polynomials.
struct Node {
    at: f64,
    weights: [f64; POINTS],
}

static NODES: LazyLock<[Node; POINTS]> = LazyLock::new(|| {
    std::array::from_fn(|point| {
        let angle = std::f64::consts::PI * (point as f64 + 0.5) / POINTS as f64;
        let weight =
            |degree: usize| (degree as f64 * angle).cos() * if degree == 0 { 1.0 } else { 2.0 } / POINTS as f64;
        Node { at: angle.cos(), weights: std::array::from_fn(weight) }
    })
});

const CHEBYSHEV: [[f64; POINTS]; POINTS] = [
    [1.0, 0.0, 0.0, 0.0, 0.0, 0.0],
    [0.0, 1.0, 0.0, 0.0, 0.0, 0.0],
    [-1.0, 0.0, 2.0, 0.0, 0.0, 0.0],
    [0.0, -3.0, 0.0, 4.0, 0.0, 0.0],
    [1.0, 0.0, -8.0, 0.0, 8.0, 0.0],
    [0.0, 5.0, 0.0, -20.0, 0.0, 16.0],
];

#[cfg(test)]
mod tests {
    use super::*;

    /// The fit against the standard atmosphere itself, over all of its lowest layer and over a low flight's part.
    #[test]
    fn the_fit_is_the_atmosphere() {
        for (atmosphere, top, limit) in [
            (Atmosphere::standard(0.0), 11_000.0, 1e-7),
            (Atmosphere::standard(1500.0).with_temperature(308.15), 1e9, 1e-7),
            (Atmosphere::standard(100.0), 2000.0, 1e-10),
            (Atmosphere::standard(10_500.0), 9000.0, 1e-10),
        ] {
            let sky = Sky::fitted(&atmosphere, &Wind::CALM, top);
            for step in 0..=1200 {
                let height = f64::from(step) * 10.0 - 50.0;
                let (fitted, exact) = (sky.at(height), exactly(&atmosphere, height));
                assert!(
                    (fitted.density / exact.density - 1.0).abs() < limit,
                    "density at {height}, {top}: {:e}",
                    fitted.density / exact.density - 1.0
                );
                assert!((fitted.per_sound / exact.per_sound - 1.0).abs() < limit, "sound at {height}");
                assert!((fitted.ln_thin - exact.ln_thin).abs() < 10.0 * limit, "viscosity at {height}");
            }
        }
    }
}
