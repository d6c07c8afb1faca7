//! The motor by itself and its push.

pub mod code_mismatch;
pub mod low_push;
pub mod no_charge;
pub mod open_curve;
pub mod propellant_exceeds_mass;
pub mod too_weak;
