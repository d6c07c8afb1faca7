//! Screw threads by their standards: sizes, the hole that lets one through, what one bears across.

use std::f64::consts::PI;

/// A coarse thread. Lengths in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    /// What it's called: `M4`, `No. 8-32`.
    pub name: &'static str,
    /// Its outer diameter.
    pub major: f64,
    /// From one turn to the next.
    pub pitch: f64,
    /// The hole that a screw of it goes through with little play.
    pub hole: f64,
    /// Share of the pitch by which its standard takes it for thinner where it carries a pull.
    pub less: f64,
}

/// ISO 898-1, and ASME B1.1 (from memory): see [`Thread::less`].
const ISO: f64 = 0.9382;
const ASME: f64 = 0.9743;

/// Metric coarse threads: sizes by ISO 261 and ISO 724, holes by ISO 273, fine series (from memory).
pub static METRIC: [Thread; 5] = [
    Thread { name: "M2.5", major: 2.5e-3, pitch: 0.45e-3, hole: 2.7e-3, less: ISO },
    Thread { name: "M3", major: 3.0e-3, pitch: 0.5e-3, hole: 3.2e-3, less: ISO },
    Thread { name: "M4", major: 4.0e-3, pitch: 0.7e-3, hole: 4.3e-3, less: ISO },
    Thread { name: "M5", major: 5.0e-3, pitch: 0.8e-3, hole: 5.3e-3, less: ISO },
    Thread { name: "M6", major: 6.0e-3, pitch: 1.0e-3, hole: 6.4e-3, less: ISO },
];

/// Unified coarse threads: sizes by ASME B1.1, holes as the usual drills for a close fit (from memory).
pub static UNIFIED: [Thread; 5] = [
    Thread { name: "No. 4-40", major: 0.112 * INCH, pitch: INCH / 40.0, hole: 0.116 * INCH, less: ASME },
    Thread { name: "No. 6-32", major: 0.138 * INCH, pitch: INCH / 32.0, hole: 0.144 * INCH, less: ASME },
    Thread { name: "No. 8-32", major: 0.164 * INCH, pitch: INCH / 32.0, hole: 0.1695 * INCH, less: ASME },
    Thread { name: "No. 10-24", major: 0.190 * INCH, pitch: INCH / 24.0, hole: 0.196 * INCH, less: ASME },
    Thread { name: "1/4-20", major: 0.250 * INCH, pitch: INCH / 20.0, hole: 0.257 * INCH, less: ASME },
];

const INCH: f64 = 25.4e-3;

/// The stress in Pa at which an ordinary screw of class 4.8 yields (ISO 898-1, from memory).
pub const SCREW_YIELD: f64 = 340e6;

impl Thread {
    /// The thread of a name.
    pub fn named(name: &str) -> Option<&'static Thread> {
        METRIC.iter().chain(&UNIFIED).find(|thread| thread.name == name)
    }

    /// Diameter at the root of the thread: d − 1.22687 P (ISO 724; unified threads have the same profile).
    pub fn root(&self) -> f64 {
        self.major - 1.22687 * self.pitch
    }

    /// Area in m² that carries a pull: π/4 (d − 0.9382 P)² by ISO 898-1, π/4 (d − 0.9743 P)² by ASME B1.1.
    pub fn stress_area(&self) -> f64 {
        let middle = self.major - self.less * self.pitch;
        0.25 * PI * middle * middle
    }

    /// The force in N across the screw, `lever` m from where it's held, at which its root reaches `stress` Pa: as a round
    /// cantilever, σ π d³/(32 l), or in shear near the wall, σ/√3 on its stress area, whichever is less.
    pub fn bears_across(&self, lever: f64, stress: f64) -> f64 {
        let shear = stress / 3f64.sqrt() * self.stress_area();
        let bending = stress * PI * self.root().powi(3) / (32.0 * lever);
        shear.min(bending)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 898-1's table of stress areas, mm², to its three digits, and ASME B1.1's in square inches (both from memory):
    /// the formula is the standards' own.
    #[test]
    fn stress_areas_as_in_the_standards() {
        for (name, area) in [("M2.5", 3.39), ("M3", 5.03), ("M4", 8.78), ("M5", 14.2), ("M6", 20.1)] {
            let found = Thread::named(name).map_or(0.0, Thread::stress_area) * 1e6;
            assert!((found / area - 1.0).abs() < 4e-3, "{name}: {found}");
        }
        for (name, area) in [
            ("No. 4-40", 0.00604),
            ("No. 6-32", 0.00909),
            ("No. 8-32", 0.0140),
            ("No. 10-24", 0.0175),
            ("1/4-20", 0.0318),
        ] {
            let found = Thread::named(name).map_or(0.0, Thread::stress_area) / (INCH * INCH);
            assert!((found / area - 1.0).abs() < 4e-3, "{name}: {found}");
        }
    }

    /// ISO 724: root diameters of 2.387 mm for M3 and 3.141 mm for M4 (from memory).
    #[test]
    fn roots_as_in_the_standard() {
        for (name, root) in [("M3", 2.387e-3), ("M4", 3.141e-3)] {
            assert!((Thread::named(name).map_or(0.0, Thread::root) - root).abs() < 1e-6, "{name}");
        }
    }

    /// An M4 screw 6 mm off its wall, by hand: 340 MPa · π · 3.141³/(32 · 6) = 172 N in bending, 1724 N in shear.
    #[test]
    fn a_screw_at_its_standoff() {
        let m4 = Thread::named("M4").copied().unwrap_or(METRIC[0]);
        assert!((m4.bears_across(6e-3, SCREW_YIELD) - 172.4).abs() < 0.5, "{}", m4.bears_across(6e-3, SCREW_YIELD));
        assert!((m4.bears_across(1e-5, SCREW_YIELD) - 1724.0).abs() < 5.0);
    }
}
