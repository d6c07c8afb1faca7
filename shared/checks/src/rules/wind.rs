//! The wind as the rocket leaves and climbs.

pub mod wind;
