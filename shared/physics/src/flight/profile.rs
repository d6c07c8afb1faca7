//! The wind's power law from a table and a few terms of a series.

use crate::air::Wind;

/// A wind's power law over the heights between two powers of 2. Each octave is cut in four; about the middle c of a
/// piece (h/c)^n is the binomial series of 1 + u, where |u| is a ninth at most.
pub(crate) struct Profile {
    /// Wind in the middle of each piece, m/s.
    middles: [f64; PIECES],
    /// The series' coefficients.
    series: [f64; TERMS],
}

/// From 2^−8 m to 2^16 m.
const FIRST_EXPONENT: u64 = 1023 - 8;
const OCTAVES: usize = 24;
const PIECES: usize = 4 * OCTAVES;
/// The first one left out is at most 0.04/9⁸.
const TERMS: usize = 8;
/// Bits of a double below the two that number the piece within its octave.
const WITHIN: u32 = 50;
const PER_MIDDLE: [f64; 4] = [1.0 / 1.125, 1.0 / 1.375, 1.0 / 1.625, 1.0 / 1.875];

impl Profile {
    pub fn new(wind: &Wind) -> Self {
        let mut middles = [0.0; PIECES];
        let doubled = 2_f64.powf(wind.exponent);
        let lowest = 2_f64.powi(FIRST_EXPONENT as i32 - 1023);
        for (piece, per_middle) in PER_MIDDLE.iter().enumerate() {
            let mut speed = wind.at(lowest / per_middle);
            for octave in 0..OCTAVES {
                middles[4 * octave + piece] = speed;
                speed *= doubled;
            }
        }
        let mut series = [1.0; TERMS];
        for k in 1..TERMS {
            series[k] = series[k - 1] * (wind.exponent - k as f64 + 1.0) / k as f64;
        }
        Self { middles, series }
    }

    /// Wind in m/s; `None` outside of the table.
    #[inline]
    pub fn at(&self, height: f64) -> Option<f64> {
        let bits = height.to_bits();
        // A height below 0 has its highest bit set and lies outside.
        let piece = (bits >> WITHIN).wrapping_sub(FIRST_EXPONENT << 2);
        let middle = self.middles.get(usize::try_from(piece).ok()?)?;
        let share = f64::from_bits(bits & ((1 << 52) - 1) | 1023 << 52);
        let u = share * PER_MIDDLE[piece as usize & 3] - 1.0;
        // In pairs and fours: what waits for the term before it takes the longest here.
        let [_, a, b, c, d, e, f, g] = self.series;
        let (u2, low, high) = (u * u, 1.0 + a * u, (d + e * u, f + g * u));
        let sum = (low + u2 * (b + c * u)) + u2 * u2 * (high.0 + u2 * high.1);
        Some(middle * sum)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_the_power_law() {
        for exponent in [0.0, 1.0 / 7.0, 0.25, 0.4, 1.0] {
            let wind = Wind { speed: 5.0, gust: 7.0, reference_height: 2.0, exponent };
            let profile = Profile::new(&wind);
            for step in 1..40_000 {
                let height = 0.0041 * 1.0004_f64.powi(step);
                let (quick, exact) = (profile.at(height), wind.at(height));
                let close = quick.is_some_and(|quick| (quick / exact - 1.0).abs() < 2e-9);
                assert!(close, "{height} m, exponent {exponent}: {quick:?} for {exact}");
            }
            for outside in [-1.0, 0.0, 0.001, 1e5, f64::NAN] {
                assert_eq!(profile.at(outside), None);
            }
        }
    }
}
