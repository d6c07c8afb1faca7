//! Lengths as a builder would write them: rounded to a step, to the side that passes.

use finwright_units::show;

/// The next whole step at or above a length, m.
pub(crate) fn up(length: f64, step: f64) -> f64 {
    (length / step - NOISE).ceil() * step
}

/// The next whole step at or below a length, m.
pub(crate) fn down(length: f64, step: f64) -> f64 {
    (length / step + NOISE).floor() * step
}

/// A length as a value of the language: `23.8 mm`.
pub(crate) fn mm(length: f64) -> String {
    format!("{} mm", show::trimmed(length * 1e3, 2))
}

/// A tenth of a millimetre, m.
pub(crate) const TENTH: f64 = 0.1e-3;
/// A millimetre, m.
pub(crate) const MILLIMETRE: f64 = 1e-3;
/// A centimetre, m.
pub(crate) const CENTIMETRE: f64 = 1e-2;

/// How much narrower than the inside of a tube something slides into it well, m (common practice, no source).
pub(crate) const SLIDES: f64 = 0.2e-3;

/// Digits that only the arithmetic of the machine brings in don't count as more than a step.
const NOISE: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_on_a_step_stays_there() {
        assert_eq!(mm(up(0.45, CENTIMETRE)), "450 mm");
        assert_eq!(mm(up(0.4501, CENTIMETRE)), "460 mm");
        assert_eq!(mm(down(0.45, CENTIMETRE)), "450 mm");
        assert_eq!(mm(down(0.4499, CENTIMETRE)), "440 mm");
        assert_eq!(mm(up(1.6e-3, TENTH)), "1.6 mm");
        assert_eq!(mm(up(1.61e-3, TENTH)), "1.7 mm");
    }
}
