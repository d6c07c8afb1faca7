//! Fins.

pub mod ahead_of_balance;
pub mod crossing;
pub mod crowded;
pub mod fillet_too_large;
pub mod flutter;
pub mod flutter_not_checked;
pub mod off_body;
pub mod tab_too_large;
pub mod too_few_fins;
