//! Roots and peaks of one-variable functions inside a bracket.

/// The point in `[a, b]` where `f` changes sign, or `None` where the ends have the same sign or a
/// value is not a number.
///
/// Bisection, with inverse quadratic interpolation where three points promise that it will do
/// better: it never leaves the bracket, and it narrows it to the spacing of the numbers there, from
/// both ends, since no step is shorter than that. Source: Chandrupatla, Advances in Engineering
/// Software 28 (1997) 145 (from memory).
pub fn bracketed(a: f64, b: f64, f: impl FnMut(f64) -> f64) -> Option<f64> {
    bracketed_within(0.0, a, b, f)
}

/// The same to a `width`, for what needs no more digits.
pub fn bracketed_within(width: f64, a: f64, b: f64, mut f: impl FnMut(f64) -> f64) -> Option<f64> {
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
    // The newest point is `a`, the other end of the bracket `b`; `c` is the point that the newest took the place of.
    let (mut a, mut b, mut share) = (a, b, 0.5);
    for _ in 0..MOST_ROUNDS {
        let x = a + share * (b - a);
        let fx = f(x);
        if fx.is_nan() {
            return None;
        }
        let (c, fc);
        if (fx > 0.0) == (fa > 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);
        let (best, least) = if fb.abs() < fa.abs() { (b, fb) } else { (a, fa) };
        let closest = width.max(2.0 * f64::EPSILON * best.abs().max(f64::MIN_POSITIVE)) / (b - a).abs();
        if least == 0.0 || closest > 0.5 {
            return Some(best);
        }
        let (along, down) = ((a - b) / (c - b), (fa - fb) / (fc - fb));
        let bends_little = down * down < along && (1.0 - down) * (1.0 - down) < 1.0 - along;
        let by_curve = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
        share = if bends_little { by_curve.clamp(closest, 1.0 - closest) } else { 0.5 };
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
