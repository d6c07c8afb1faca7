//! The way down.

pub(crate) mod bays;
pub mod descent_rate;
pub(crate) mod flown;
pub mod hard_landing;
pub mod hard_opening;
pub mod mistimed;
pub mod no_cord;
pub mod no_recovery;
pub mod short_cord;
pub mod streamer_shape;
pub mod tight_packing;
