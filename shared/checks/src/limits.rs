//! The numbers that rules compare with. Each is common practice, no source, unless it says otherwise.

/// Thresholds of the rules, SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// The least speed at which the last guide may leave, m/s: about 30 mph, where fins take over.
    pub exit_speed: f64,
    /// The least static margin, calibres.
    pub margin: f64,
    /// How far a lone lug's middle may lie from the balance point, calibres; half its own length is always allowed.
    pub lone_guide_offset: f64,
    /// How far ahead of the aft end the rear one of two guides may end, calibres.
    pub rear_guide_distance: f64,
    /// The most play of a motor in its mount across the diameter, m.
    pub motor_play: f64,
}

impl Default for Limits {
    fn default() -> Limits {
        Limits {
            exit_speed: finwright_assess::inverse::EXIT_FLOOR,
            margin: 1.0,
            lone_guide_offset: 0.5,
            rear_guide_distance: 2.0,
            motor_play: 1.0e-3,
        }
    }
}
