//! Where the rocket balances.

pub mod balance_shifts;
