//! The single cause that would explain what a flight did.

use super::vary::{Cause, Varied};
use super::Case;

/// A cause with the value that explains the flight by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Explained {
    /// The cause.
    pub cause: Cause,
    /// Its value then: factors of drag and thrust, kg more than in the file, or the wind in m/s.
    pub value: f64,
    /// What it's taken for now.
    pub now: f64,
    /// How far the measured values still are from the expected ones then: the sum of squares, each over its measurement's
    /// variance.
    pub left: f64,
    /// How many of its standard deviations the value lies from what it's taken for.
    pub far: f64,
}

impl Explained {
    /// What speaks against it: the less, the likelier.
    fn against(&self) -> f64 {
        self.left + self.far * self.far
    }
}

/// Every cause that can explain the flight, the likeliest first: the value of each that brings the expected values
/// nearest to the measured ones, by least squares (Gauss and Newton's method); of two causes the one is likelier whose
/// leftover squares and own squared distance from what it was taken for, each over its variance, are less. That is the
/// logarithm of its probability where all of them are normally distributed.
pub(crate) fn causes(case: &Case) -> Vec<Explained> {
    let mut found: Vec<Explained> = Varied::ALL.iter().filter_map(|cause| explained(case, *cause)).collect();
    found.sort_by(|a, b| a.against().total_cmp(&b.against()));
    found
}

const ROUNDS: u32 = 6;
/// A cause that leaves the measured values as far from the expected ones explains nothing.
const EXPLAINS: f64 = 0.5;

fn explained(case: &Case, cause: Cause) -> Option<Explained> {
    let (low, high) = cause.limits(case.now_mass());
    let mut at = case.now;
    let before = left(case, &at)?;
    for _ in 0..ROUNDS {
        let (expected, slope) = (case.expected(&at)?, case.slope(&at, cause)?);
        let (mut pull, mut weight) = (0.0, 0.0);
        for measured in &case.measured {
            let slope = slope.of(measured.quantity) / measured.sd;
            pull += slope * (measured.measured - expected.of(measured.quantity)) / measured.sd;
            weight += slope * slope;
        }
        if !(weight > 0.0) {
            return None;
        }
        let next = (at.of(cause) + pull / weight).clamp(low, high);
        let moved = (next - at.of(cause)).abs();
        at = at.with(cause, next);
        if moved < 1e-4 * cause.step(case.now_mass()) {
            break;
        }
    }
    let value = at.of(cause);
    let left = left(case, &at)?;
    let is_inside = value > low && value < high;
    let far = (value - case.now.of(cause)) / case.sds.of(cause).max(f64::MIN_POSITIVE);
    let explains = left < EXPLAINS * before || left < case.measured.len() as f64;
    (is_inside && explains).then_some(Explained { cause, value, now: case.now.of(cause), left, far: far.abs() })
}

fn left(case: &Case, at: &Varied) -> Option<f64> {
    let expected = case.expected(at)?;
    let off = case.measured.iter().map(|m| (m.measured - expected.of(m.quantity)) / m.sd);
    Some(off.map(|off| off * off).sum())
}
