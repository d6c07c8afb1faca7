//! The rod or rail and what it stands on.

pub mod end_at_eye_level;
pub mod joint_snags;
pub mod leans;
pub mod low_stop;
pub mod tilted_far;
pub mod tips_over;
pub mod tower;
pub mod whips;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &tilted_far::TILTED_FAR,
    &low_stop::LOW_STOP,
    &end_at_eye_level::END_AT_EYE_LEVEL,
    &leans::LEANS,
    &whips::WHIPS,
    &joint_snags::JOINT_SNAGS,
    &tips_over::TIPS_OVER,
    &tips_over::NEARLY_TIPS,
    &tower::MISFIT,
    &tower::FINS_MEET,
];
