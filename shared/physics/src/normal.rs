//! The normal distribution's integral, for one value and for two that hang together.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// The probability that a standard normal value lies below `x`.
pub fn below(x: f64) -> f64 {
    0.5 * libm::erfc(-x * FRAC_1_SQRT_2)
}

/// The probability that two standard normal values with correlation `rho` lie below `a` and `b`.
///
/// Φ₂ = Φ(a)Φ(b) + 1/(2π) ∫₀^{arcsin ρ} exp(−(a² + b² − 2ab sin θ)/(2 cos² θ)) dθ (Plackett 1954, in the form of
/// Drezner and Wesolowsky 1990; from memory, checked against a numerical library). By Simpson's rule, to about 1e-7 for
/// |ρ| up to 0.999; beyond that the two are taken as one value.
pub fn both_below(a: f64, b: f64, rho: f64) -> f64 {
    if rho > MOST {
        return below(a.min(b));
    }
    if rho < -MOST {
        return (below(a) + below(b) - 1.0).max(0.0);
    }
    // The integrand is nowhere greater than exp(−a²/2) and exp(−b²/2).
    if a.abs().max(b.abs()) > FAR {
        return below(a) * below(b);
    }
    let end = rho.asin();
    let height = |theta: f64| {
        let (sin, cos) = theta.sin_cos();
        (-(a * a + b * b - 2.0 * a * b * sin) / (2.0 * cos * cos)).exp()
    };
    let step = end / f64::from(STEPS);
    let inner: f64 = (1..STEPS).map(|i| height(step * f64::from(i)) * if i % 2 == 1 { 4.0 } else { 2.0 }).sum();
    let integral = step / 3.0 * (height(0.0) + inner + height(end));
    (below(a) * below(b) + integral / (2.0 * PI)).clamp(0.0, 1.0)
}

const MOST: f64 = 0.999;
/// Beyond so many standard deviations the integral is less than 1e-9.
const FAR: f64 = 6.5;
const STEPS: u32 = 200;

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy 1.17: norm.cdf and multivariate_normal.cdf (an outside library), to the digits shown.
    #[test]
    fn as_in_a_numerical_library() {
        for (x, p) in
            [(0.0, 0.5), (1.0, 0.8413447460685429), (-1.96, 0.024997895148220435), (1.46692, 0.9288010904107705)]
        {
            assert!((below(x) - p).abs() < 1e-8, "{x}");
        }
        for (a, b, rho, p) in REFERENCE {
            assert!((both_below(*a, *b, *rho) - p).abs() < 1e-6, "{a} {b} {rho}: {}", both_below(*a, *b, *rho));
        }
    }

    /// One value twice; independent values; opposite values.
    #[test]
    fn at_the_ends_of_the_correlation() {
        assert_eq!(both_below(0.3, 1.2, 1.0), below(0.3));
        assert!((both_below(0.3, 1.2, 0.0) - below(0.3) * below(1.2)).abs() < 1e-15);
        assert_eq!(both_below(-1.0, 0.5, -1.0), 0.0);
    }

    const REFERENCE: &[(f64, f64, f64, f64)] = &[
        (0.00, 0.00, 0.5, 0.333333333),
        (1.00, -0.50, 0.8, 0.307783631),
        (2.20, 1.10, 0.95, 0.864331920),
        (-1.30, 0.40, -0.6, 0.020779157),
        (1.60, 1.70, 0.99, 0.943164078),
        (0.20, 0.25, 0.998, 0.576252224),
        (3.00, -2.00, 0.3, 0.022748909),
        (7.00, 1.10, 0.95, 0.864333939),
        (6.40, 1.10, 0.95, 0.864333939),
        (-7.00, 1.10, -0.9, 0.0),
    ];
}
