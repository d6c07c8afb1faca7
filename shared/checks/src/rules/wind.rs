//! The wind as the rocket leaves and climbs.

pub mod steep_angle;
pub mod too_strong;
pub mod turns_far;
