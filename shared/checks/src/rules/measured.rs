//! The bench against the design.

pub mod measured_differs;
pub mod not_used;
