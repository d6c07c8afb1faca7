//! A logarithm for the inside of an integration.

use std::f64::consts::LN_2;

/// ln x of a positive normal number, to 1e-9: the exponent's share, that of the number's leading bits from a table, and
/// the rest by its series.
#[inline]
pub(super) fn quick_ln(x: f64) -> f64 {
    let bits = x.to_bits();
    let exponent = (bits >> 52) as i32 - 1023;
    let (per_middle, ln_middle) = MIDDLES[(bits >> (52 - LEADING)) as usize & (PIECES - 1)];
    let rest = f64::from_bits(bits & ((1 << 52) - 1) | 1023 << 52);
    let u = rest * per_middle - 1.0;
    let series = u + u * u * (u * (1.0 / 3.0) - 1.0 / 2.0);
    f64::from(exponent) * LN_2 + ln_middle + series
}

const LEADING: u32 = 7;
const PIECES: usize = 1 << LEADING;
/// One over the middle of each piece between 1 and 2, and its logarithm. No number is further than 1/256 of itself from
/// its middle; the first term left out is 6e-11.
static MIDDLES: [(f64, f64); PIECES] = middles();

const fn middles() -> [(f64, f64); PIECES] {
    let mut all = [(0.0, 0.0); PIECES];
    let mut i = 0;
    while i < PIECES {
        let middle = 1.0 + (i as f64 + 0.5) / PIECES as f64;
        all[i] = (1.0 / middle, ln(middle));
        i += 1;
    }
    all
}

/// The series of the area tangent, which is a third at most here.
const fn ln(x: f64) -> f64 {
    let s = (x - 1.0) / (x + 1.0);
    let (mut sum, mut power, mut n) = (0.0, s, 1);
    while n < 40 {
        sum += power / n as f64;
        power *= s * s;
        n += 2;
    }
    2.0 * sum
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
