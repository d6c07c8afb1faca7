//! How far the centre of pressure lies behind the balance point.

pub(crate) mod each_motor;
pub mod low_margin;
pub mod low_margin_at_release;
pub mod low_margin_burnt;
pub mod low_margin_for_length;
pub mod methods_differ;
pub mod over_stable;
pub mod weak_damping;
