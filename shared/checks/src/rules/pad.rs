//! The rod or rail and what it stands on.

pub mod leans;
pub mod pad;
