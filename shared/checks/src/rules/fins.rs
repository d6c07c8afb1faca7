//! Fins.

pub mod ahead_of_balance;
pub mod flutter;
pub mod flutter_not_checked;
pub mod off_body;
pub mod too_few_fins;
