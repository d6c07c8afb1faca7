//! Roots of one-variable functions inside a bracket.

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

/// Enough to halve the widest bracket of doubles down to neighbours.
const MOST_ROUNDS: u32 = 400;
