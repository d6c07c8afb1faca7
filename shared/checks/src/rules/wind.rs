//! The wind as the rocket leaves and climbs.

pub mod gust_turns_far;
pub mod steep_angle;
pub mod too_strong;
pub mod turns_far;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] =
    &[&too_strong::TOO_STRONG, &steep_angle::STEEP_ANGLE, &turns_far::TURNS_FAR, &gust_turns_far::GUST_TURNS_FAR];
