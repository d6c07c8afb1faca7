//! The way down.

pub mod descent_rate;
pub(crate) mod flown;
pub mod hard_landing;
pub mod mistimed;
pub mod no_recovery;
pub mod short_cord;
pub mod tight_packing;
