//! Coming down: canopy sizes, descent speed, settling time and drift.
//!
//! `drag_area` is Cd·S in m². A canopy's published Cd stands on its nominal cloth area (flat
//! circular 0.75 to 0.80: Knacke, Parachute Recovery Systems Design Manual, from memory), not on
//! the area that it shows when open.

use std::f64::consts::PI;

use crate::air::G0;

/// Steady descent speed in m/s: √(2 m g/(ρ Cd S)).
pub fn descent_speed(mass: f64, density: f64, drag_area: f64) -> f64 {
    (2.0 * mass * G0 / (density * drag_area)).sqrt()
}

/// Diameter in m of a flat round canopy that brings `mass` kg down at `speed` m/s:
/// √(8 m g/(π ρ Cd v²)).
pub fn canopy_diameter(mass: f64, density: f64, cd: f64, speed: f64) -> f64 {
    (8.0 * mass * G0 / (PI * density * cd * speed * speed)).sqrt()
}

/// Cloth area in m² of a flat round canopy of `diameter` m.
pub fn round_area(diameter: f64) -> f64 {
    0.25 * PI * diameter * diameter
}

/// Cloth area in m² of a flat sheet with an even number of `sides`, `across_flats` m across:
/// (n/4) F² tan(π/n).
pub fn polygon_area(sides: u32, across_flats: f64) -> f64 {
    let n = f64::from(sides);
    0.25 * n * across_flats * across_flats * (PI / n).tan()
}

/// Kinetic energy in J.
pub fn kinetic_energy(mass: f64, speed: f64) -> f64 {
    0.5 * mass * speed * speed
}

/// Time in s to fall `height` m from rest with a steady speed of `terminal` m/s ahead:
/// (vt/g) acosh(exp(g h/vt²)).
pub fn fall_time(height: f64, terminal: f64) -> f64 {
    // acosh(eˣ) = x + ln(1 + √(1 − e⁻²ˣ)) doesn't overflow for long falls.
    let x = G0 * height / (terminal * terminal);
    terminal / G0 * (x + (-(-2.0 * x).exp_m1()).sqrt().ln_1p())
}

/// Drift in m of something that comes down `height` m at `speed` m/s in an even `wind` in m/s.
pub fn drift(height: f64, speed: f64, wind: f64) -> f64 {
    wind * height / speed
}
