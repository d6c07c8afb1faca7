//! A flight as a whole.

pub mod near_its_floors;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[&near_its_floors::NEAR_ITS_FLOORS];
