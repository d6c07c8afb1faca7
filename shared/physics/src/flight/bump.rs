//! A single gust over the height.

use std::f64::consts::PI;

/// A gust that comes and goes with the height: (1 − cos(2π s/L))·U/2 over a stretch of L m, the discrete gust of 14 CFR
/// 25.341(a), whose gradient distance H is L/2. There it blows square to the path of a level flight; here it blows along
/// the ground, which is square to a climb.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bump {
    /// The height at which it begins, m.
    pub bottom: f64,
    /// Over how many metres of height it comes and goes; positive.
    pub length: f64,
    /// How much more it blows than the wind in its middle, m/s.
    pub speed: f64,
}

impl Bump {
    /// What it adds to the wind at a height in m, m/s.
    pub fn at(&self, height: f64) -> f64 {
        let share = (height - self.bottom) / self.length;
        if (0.0..=1.0).contains(&share) {
            0.5 * self.speed * (1.0 - (2.0 * PI * share).cos())
        } else {
            0.0
        }
    }
}
