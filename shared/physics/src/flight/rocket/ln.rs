//! A logarithm for the inside of an integration.

use std::f64::consts::{LN_2, SQRT_2};

/// ln x of a positive normal number, to 1e-9: the exponent's share, and the rest by the series of the area tangent.
#[inline]
pub(super) fn quick_ln(x: f64) -> f64 {
    let bits = x.to_bits();
    let exponent = (bits >> 52) as i32 - 1023;
    let rest = f64::from_bits(bits & ((1 << 52) - 1) | 1023 << 52);
    let s = (rest - SQRT_2) / (rest + SQRT_2);
    let s2 = s * s;
    let series = s * ((1.0 + s2 * (1.0 / 3.0)) + s2 * s2 * ((0.2 + s2 * (1.0 / 7.0)) + s2 * s2 * (1.0 / 9.0)));
    (f64::from(exponent) + 0.5) * LN_2 + 2.0 * series
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_the_logarithm() {
        for step in -8000..8000 {
            let x = 1.003_f64.powi(step) * 1.000_01;
            assert!((quick_ln(x) - x.ln()).abs() < 1e-9, "{x}");
        }
        // Nothing moves: far below every Reynolds number that counts.
        assert!(quick_ln(0.0) < -700.0);
    }
}
