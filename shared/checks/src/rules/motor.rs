//! The motor by itself and its push.

pub mod by_label;
pub mod code_mismatch;
pub mod impossible_propellant;
pub mod low_push;
pub mod no_charge;
pub mod noisy_trace;
pub mod open_curve;
pub mod propellant_exceeds_mass;
pub mod too_weak;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &too_weak::TOO_WEAK,
    &propellant_exceeds_mass::PROPELLANT_EXCEEDS_MASS,
    &impossible_propellant::IMPOSSIBLE_PROPELLANT,
    &open_curve::OPEN_CURVE,
    &code_mismatch::CODE_MISMATCH,
    &by_label::BY_LABEL,
    &low_push::LOW_PUSH,
    &no_charge::NO_CHARGE,
    &noisy_trace::NOISY_TRACE,
];
