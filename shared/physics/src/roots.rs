//! Roots and peaks of one-variable functions inside a bracket.

/// The point in `[a, b]` where `f` changes sign, or `None` where the ends have the same sign or a
/// value is not a number.
///
/// Bisection steered by the Illinois form of false position: it never leaves the bracket, and it
/// narrows it to the spacing of the numbers there. Source: Dahlquist & Björck, Numerical Methods,
/// 6.2 (from memory).
pub fn bracketed(a: f64, b: f64, mut f: impl FnMut(f64) -> f64) -> Option<f64> {
    let (mut a, mut b) = (a, b);
    let (mut fa, mut fb) = (f(a), f(b));
    if fa == 0.0 {
        return Some(a);
    }
    if fb == 0.0 {
        return Some(b);
    }
    if fa.is_nan() || fb.is_nan() || (fa > 0.0) == (fb > 0.0) {
        return None;
    }
    for round in 0..MOST_ROUNDS {
        let middle = 0.5 * (a + b);
        let width = (b - a).abs();
        if width <= 2.0 * f64::EPSILON * middle.abs().max(f64::MIN_POSITIVE) {
            return Some(middle);
        }
        let secant = b - fb * (b - a) / (fb - fa);
        // Every third round halves the bracket, so that a badly bent function can't stall it.
        let inside = secant > a.min(b) && secant < a.max(b);
        let x = if round % 3 != 2 && inside { secant } else { middle };
        let fx = f(x);
        if fx == 0.0 {
            return Some(x);
        }
        if fx.is_nan() {
            return None;
        }
        if (fx > 0.0) == (fb > 0.0) {
            fa *= 0.5;
        } else {
            a = b;
            fa = fb;
        }
        b = x;
        fb = fx;
    }
    Some(0.5 * (a + b))
}

/// The point in `[a, b]` where `f` is greatest, for an `f` with one peak there, to about the square
/// root of a double's digits: golden-section search (from memory).
pub fn highest(a: f64, b: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    let (mut a, mut b) = (a, b);
    let (mut left, mut right) = (b - GOLDEN * (b - a), a + GOLDEN * (b - a));
    let (mut at_left, mut at_right) = (f(left), f(right));
    while (b - a).abs() > 1e-8 * (a.abs() + b.abs()) {
        if at_left > at_right {
            b = right;
            (right, at_right) = (left, at_left);
            left = b - GOLDEN * (b - a);
            at_left = f(left);
        } else {
            a = left;
            (left, at_left) = (right, at_right);
            right = a + GOLDEN * (b - a);
            at_right = f(right);
        }
    }
    0.5 * (a + b)
}

/// (√5 − 1)/2.
const GOLDEN: f64 = 0.618_033_988_749_894_8;

/// Enough to halve the widest bracket of doubles down to neighbours.
const MOST_ROUNDS: u32 = 400;
