//! Room around the guide: wide bodies, fins beside a rail or rod, and azimuths. Plane geometry.

use std::f64::consts::PI;

/// A lug on its standoff, and the rod through it. Lengths in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LugOnBody {
    /// Body radius where the lug sits.
    pub body_radius: f64,
    /// Outer diameter of the lug.
    pub outer: f64,
    /// Inner diameter of the lug.
    pub bore: f64,
    /// Diameter of the rod.
    pub rod: f64,
}

impl LugOnBody {
    /// Sideways play of the rod off the lug's axis in m: (bore − rod)/2.
    pub fn play(&self) -> f64 {
        0.5 * (self.bore - self.rod)
    }

    /// Distance in m from the rocket's axis to the lug's for a `standoff` in m.
    pub fn axis_distance(&self, standoff: f64) -> f64 {
        self.body_radius + standoff + 0.5 * self.outer
    }

    /// The least standoff in m at which the rod clears a body of radius `widest` by `clearance`,
    /// both in m: r_max + clearance + rod/2 + play − r_body − outer/2. Negative where none is
    /// needed.
    pub fn least_standoff(&self, widest: f64, clearance: f64) -> f64 {
        widest + clearance + 0.5 * self.rod + self.play() - self.axis_distance(0.0)
    }
}

/// The least distance in m from the rocket's axis to the near face of a rail `width` m wide, for a
/// fin `thickness` m thick in a plane at `angle` rad from the guide: (W/2 + t/(2 cos φ))/tan φ.
/// For 0 < φ < π/2; 0 from a right angle on, where the fin points away.
pub fn rail_distance(width: f64, thickness: f64, angle: f64) -> f64 {
    if angle >= 0.5 * PI {
        return 0.0;
    }
    (0.5 * width + 0.5 * thickness / angle.cos()) / angle.tan()
}

/// The least distance in m from the rocket's axis to that of a rod of radius `rod` m, `clearance`
/// m from the same fin: (rod + clearance + t/2)/sin φ. For 0 < φ < π/2; 0 from a right angle on.
pub fn rod_distance(rod: f64, clearance: f64, thickness: f64, angle: f64) -> f64 {
    if angle >= 0.5 * PI {
        return 0.0;
    }
    (rod + clearance + 0.5 * thickness) / angle.sin()
}

/// Angle in rad, 0 to π/`count`, from `azimuth` to the nearest of `count` evenly spaced fins of
/// which one stands at `first`; π/`count` is the middle of a gap. `None` for no fins.
pub fn angle_to_fin(azimuth: f64, first: f64, count: u32) -> Option<f64> {
    let gap = (count > 0).then(|| 2.0 * PI / f64::from(count))?;
    let within = (azimuth - first).rem_euclid(gap);
    Some(within.min(gap - within))
}

/// How far in m two stretches, each (from, to) in m, overlap; 0 or less where they don't, and then
/// the gap between them.
pub fn overlap(a: (f64, f64), b: (f64, f64)) -> f64 {
    a.1.min(b.1) - a.0.max(b.0)
}
