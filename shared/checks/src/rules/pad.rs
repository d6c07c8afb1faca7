//! The rod or rail and what it stands on.

pub mod end_at_eye_level;
pub mod leans;
pub mod low_stop;
pub mod tilted_far;
pub(crate) mod used;
