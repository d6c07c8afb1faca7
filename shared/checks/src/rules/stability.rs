//! How far the centre of pressure lies behind the balance point.

pub mod low_margin;
pub mod low_margin_at_release;
pub mod low_margin_burnt;
pub mod low_margin_for_length;
pub mod methods_differ;
pub mod over_stable;
pub mod weak_damping;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &low_margin::UNSTABLE,
    &low_margin::LOW_MARGIN,
    &methods_differ::METHODS_DIFFER,
    &low_margin_burnt::LOW_MARGIN_BURNT,
    &low_margin_at_release::LOW_MARGIN_AT_RELEASE,
    &low_margin_for_length::LOW_MARGIN_FOR_LENGTH,
    &over_stable::OVER_STABLE,
    &weak_damping::WEAK_DAMPING,
];
