//! Normal force of a ring wing: a short open tube in the stream, as in tube fins and ring fins.

use std::f64::consts::PI;

/// Normal-force slope per rad of an open tube of `diameter` and `chord` m, for a `reference_area` in m².
///
/// On the area diameter × chord, with A = diameter/chord: 2π² A / (π + √(π² + 4 A²)). That runs between two exact
/// limits: π A for a long tube (slender-body theory; the air inside and outside is moved, twice 2 π R² α) and π² for a
/// short one (strip theory, 2π a strip with cos² around the ring). The form between them is ours, after the one that
/// Diederich (NACA TN 2335, from memory) gives flat wings. At low speed and small angles; where it acts: [`centre`].
/// What the body inside or beside it does to the flow is left out.
pub fn slope(diameter: f64, chord: f64, reference_area: f64) -> f64 {
    let aspect = diameter / chord;
    let own = 2.0 * PI * PI * aspect / (PI + (PI * PI + 4.0 * aspect * aspect).sqrt());
    own * diameter * chord / reference_area
}

/// Where the lift of such a tube acts, in m behind its leading edge: 0.25 c A/√(1 + A²), A = diameter/chord.
///
/// The quarter chord for a short ring, the leading edge for a long tube, where slender-body theory has it. The form is
/// ours, fitted to a vortex lattice of a ring alone in the stream, within 0.006 c of it for A from 0.3 to 10
/// (tests/reference/outside). For tubes against a body it is an approximation: nobody has checked it there.
pub fn centre(diameter: f64, chord: f64) -> f64 {
    0.25 * chord * diameter / diameter.hypot(chord)
}

/// What `count` tubes of `diameter` and `chord` m beside a body add to its side view in m²: half of them, as they stand
/// at a random angle, and no more than the two that stand out on either side (an estimate, no source).
pub fn side_area(count: f64, diameter: f64, chord: f64) -> f64 {
    (0.5 * count).min(2.0) * diameter * chord
}

#[cfg(test)]
mod tests {
    use super::{centre, side_area, slope};
    use std::f64::consts::PI;

    /// Both limits, from slender-body and strip theory (textbook results, from memory).
    #[test]
    fn both_limits() {
        let long = slope(0.01, 10.0, 0.1);
        assert!((long / (PI * 1e-3 * 0.1 / 0.1) - 1.0).abs() < 1e-3, "{long}");
        let short = slope(10.0, 0.01, 0.1);
        assert!((short / (PI * PI * 0.1 / 0.1) - 1.0).abs() < 5e-3, "{short}");
    }
    /// Both limits of the centre, and one between: A = 1 has 0.25/√2 of the chord.
    #[test]
    fn centre_between_its_limits() {
        assert!((centre(100.0, 1.0) - 0.25).abs() < 1e-4);
        assert!(centre(0.01, 1.0) < 0.003);
        assert!((centre(0.05, 0.05) - 0.05 * 0.176777).abs() < 1e-7);
    }

    /// Three tubes show one and a half, four and more the two at the sides.
    #[test]
    fn side_views() {
        for (count, tubes) in [(1.0, 0.5), (3.0, 1.5), (4.0, 2.0), (8.0, 2.0)] {
            assert_eq!(side_area(count, 0.04, 0.1), tubes * 0.04 * 0.1);
        }
    }
}
