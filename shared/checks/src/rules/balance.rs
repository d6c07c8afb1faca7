//! Where the rocket balances.

pub mod ballast_behind;
pub mod shifts_far;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[&ballast_behind::BALLAST_BEHIND, &shifts_far::SHIFTS_FAR];
