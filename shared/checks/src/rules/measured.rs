//! The bench against the design.

pub mod measured_differs;
pub mod not_used;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &measured_differs::MASS_DIFFERS,
    &measured_differs::BALANCE_DIFFERS,
    &measured_differs::IMPOSSIBLE,
    &not_used::NOT_USED,
];

const BENCH: &[(&str, &str)] =
    &[("flight one", "measured { with: b8; mass: 47 g ± 1 g; balance: 188 mm ± 2 mm from tip }\nflight one")];
