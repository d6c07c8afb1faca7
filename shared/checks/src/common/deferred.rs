//! The names of rules for which others make room: what they tell isn't told twice, unless they are off.

/// A code's limit exceeded.
pub(crate) const OVER_LIMIT: &str = "field/over-limit";
/// A landing with too much energy.
pub(crate) const HARD_LANDING: &str = "recovery/hard-landing";
/// A motor without a charge or a delay.
pub(crate) const NO_CHARGE: &str = "motor/no-charge";
/// A second method with another margin.
pub(crate) const METHODS_DIFFER: &str = "stability/methods-differ";
