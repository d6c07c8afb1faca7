//! Where the rocket balances.

pub mod ballast_behind;
pub mod shifts_far;
