//! Flutter: the speed at which a thin fin's bending and twisting feed on each other and tear it off.

use crate::air::Air;
use std::f64::consts::PI;

/// Distance of a fin's centre of mass behind its quarter-chord line, in chords: a flat plate's lies at mid-chord.
const MASS_OFFSET: f64 = 0.25;
/// Ratio of the specific heats of air.
const HEAT_RATIO: f64 = 1.4;

/// A thin flat fin, as far as its flutter is concerned. SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// Shear modulus of its material in its plane, Pa.
    pub shear: f64,
    /// Thickness in m.
    pub thickness: f64,
    /// Root chord in m.
    pub root: f64,
    /// Exposed semispan in m.
    pub span: f64,
    /// Area of one side in m².
    pub area: f64,
}

impl Plate {
    /// The speed in m/s at which it flutters in `air`, as an estimate:
    /// a √(G / ((24 ε κ/π) p · A³/((t/c)³ (A + 2)) · (λ + 1)/2)), with the aspect ratio A = span²/area of one fin, c
    /// its root chord, λ the ratio of tip to root of a trapezoid with this root, span and area.
    ///
    /// Source: D. J. Martin, NACA TN 4197 (1958), from memory; there with p in atmospheres, G in psi and the constant
    /// 39.3, which is (24 · 0.25 · 1.4/π) · 14.70 psi: the units agree, since the rest is a ratio of pressures. It's
    /// made for unswept, evenly stiff plates held firmly at the root, below the speed of sound and a little beyond.
    pub fn flutter_speed(&self, air: &Air) -> f64 {
        air.sound_speed * (self.shear / (self.load() * air.pressure)).sqrt()
    }

    /// The thickness in m at which it flutters at `speed` m/s: the flutter speed grows with the thickness to the 3/2.
    pub fn thickness_for(&self, speed: f64, air: &Air) -> f64 {
        self.thickness * (speed / self.flutter_speed(air)).powf(2.0 / 3.0)
    }

    /// What the air's pressure is multiplied with before it's compared to the shear modulus.
    fn load(&self) -> f64 {
        let aspect = self.span * self.span / self.area;
        // (λ + 1)/2 is the mean chord over the root.
        let mean_to_root = self.area / (self.span * self.root);
        let slenderness = self.root / self.thickness;
        constant() * aspect.powi(3) * slenderness.powi(3) / (aspect + 2.0) * mean_to_root
    }
}

/// 24 ε κ/π, about 2.674.
fn constant() -> f64 {
    24.0 * MASS_OFFSET * HEAT_RATIO / PI
}
