//! Sine and cosine for the inside of an integration.

/// The sine and cosine of an angle in rad. Up to [`FAR`] by their series, to 1e-12; a rocket seldom leans further.
#[inline]
pub(super) fn quick_sin_cos(x: f64) -> (f64, f64) {
    // Written so that what isn't a number goes the long way.
    let near = x.abs() <= FAR;
    if !near {
        return far(x);
    }
    let x2 = x * x;
    let x4 = x2 * x2;
    let x8 = x4 * x4;
    let [a, b, c, d, e, f] = SINE;
    let sine = 1.0 + x2 * ((a + b * x2) + x4 * (c + d * x2) + x8 * (e + f * x2));
    let [a, b, c, d, e, f, g] = COSINE;
    let cosine = 1.0 + x2 * ((a + b * x2) + x4 * (c + d * x2) + x8 * ((e + f * x2) + x4 * g));
    (x * sine, cosine)
}

/// rad.
const FAR: f64 = 1.0;

#[cold]
#[inline(never)]
fn far(x: f64) -> (f64, f64) {
    x.sin_cos()
}

/// Of x³/x to x¹³/x, and of x² to x¹⁴.
const SINE: [f64; 6] = coefficients(2);
const COSINE: [f64; 7] = coefficients(1);

/// Of alternating signs, each from the one before it by the next two factors of its factorial, the first of them `first`.
const fn coefficients<const N: usize>(first: usize) -> [f64; N] {
    let mut of = [0.0; N];
    let (mut i, mut term) = (0, 1.0);
    while i < N {
        let n = 2 * i + first;
        term /= -((n * (n + 1)) as f64);
        of[i] = term;
        i += 1;
    }
    of
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_the_functions_themselves() {
        for step in -4000..=4000 {
            let x = f64::from(step) * 1e-3;
            let ((sine, cosine), (s, c)) = (quick_sin_cos(x), x.sin_cos());
            assert!((sine - s).abs() < 1e-12 && (cosine - c).abs() < 1e-12, "{x}");
        }
        assert!(quick_sin_cos(f64::NAN).0.is_nan());
    }
}
