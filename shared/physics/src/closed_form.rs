//! Flight and guide exit in closed form, for constant mass and thrust: what a calculator can check.
//!
//! Boost and coast are the Fehskens–Malewicki equations (from memory; the integrals are
//! elementary). `drag` is k = ρ Cd A/2 in kg/m, so that drag is k v².

use crate::air::G0;

/// Speed in m/s and height in m after a vertical boost of `time` s from rest.
/// Thrust in N above the weight; drag positive.
pub fn boost(mass: f64, thrust: f64, drag: f64, time: f64) -> (f64, f64) {
    let terminal = ((thrust - mass * G0) / drag).sqrt();
    let tau = mass / (drag * terminal);
    (terminal * (time / tau).tanh(), mass / drag * (time / tau).cosh().ln())
}

/// Height in m and time in s from burn-out at `speed` m/s to the top of a vertical coast.
pub fn coast(mass: f64, drag: f64, speed: f64) -> (f64, f64) {
    let terminal = (mass * G0 / drag).sqrt();
    let ratio = speed / terminal;
    (0.5 * mass / drag * (ratio * ratio).ln_1p(), terminal / G0 * ratio.atan())
}

/// Acceleration in m/s² along a guide tilted by `tilt` rad with a `friction` coefficient:
/// T/m − g cos θ − μ g sin θ.
pub fn guide_acceleration(mass: f64, thrust: f64, tilt: f64, friction: f64) -> f64 {
    thrust / mass - G0 * (tilt.cos() + friction * tilt.sin())
}

/// Speed in m/s after `travel` m from rest at a steady `acceleration`, with drag:
/// √(m a/k (1 − e^(−2ks/m))), and √(2as) for no drag.
pub fn exit_speed(mass: f64, acceleration: f64, drag: f64, travel: f64) -> f64 {
    let x = 2.0 * drag * travel / mass;
    let share = if x > 0.0 { -(-x).exp_m1() / x } else { 1.0 };
    (2.0 * acceleration * travel * share).sqrt()
}

/// Travel in m that a steady thrust of `ratio` times the weight needs for `speed` m/s, upright and
/// without drag: v²/(2 g (n − 1)). Ratio above 1.
pub fn travel_for_speed(speed: f64, ratio: f64) -> f64 {
    speed * speed / (2.0 * G0 * (ratio - 1.0))
}
