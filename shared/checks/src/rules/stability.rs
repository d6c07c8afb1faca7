//! How far the centre of pressure lies behind the balance point.

pub mod low_margin;
pub mod margins;
