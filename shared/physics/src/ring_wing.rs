//! Normal force of a ring wing: a short open tube in the stream, as in tube fins and ring fins.

use std::f64::consts::PI;

/// Normal-force slope per rad of an open tube of `diameter` and `chord` m, for a `reference_area` in m².
///
/// On the area diameter × chord, with A = diameter/chord: 2π² A / (π + √(π² + 4 A²)). That runs between two exact limits:
/// π A for a long tube (slender-body theory; the air inside and outside is moved, twice 2 π R² α) and π² for a short one
/// (strip theory, 2π a strip with cos² around the ring). The form between them is ours, after the one that Diederich
/// (NACA TN 2335, from memory) gives flat wings. At low speed and small angles; the quarter chord is where it acts.
/// What the body inside or beside it does to the flow is left out.
pub fn slope(diameter: f64, chord: f64, reference_area: f64) -> f64 {
    let aspect = diameter / chord;
    let own = 2.0 * PI * PI * aspect / (PI + (PI * PI + 4.0 * aspect * aspect).sqrt());
    own * diameter * chord / reference_area
}

#[cfg(test)]
mod tests {
    use super::slope;
    use std::f64::consts::PI;

    /// Both limits, from slender-body and strip theory (textbook results, from memory).
    #[test]
    fn both_limits() {
        let long = slope(0.01, 10.0, 0.1);
        assert!((long / (PI * 1e-3 * 0.1 / 0.1) - 1.0).abs() < 1e-3, "{long}");
        let short = slope(10.0, 0.01, 0.1);
        assert!((short / (PI * PI * 0.1 / 0.1) - 1.0).abs() < 5e-3, "{short}");
    }
}
