//! The field and its code.

pub mod code;
pub mod drifts_out;
pub mod limit_not_checked;
pub mod odd_pressure;
pub mod over_limit;
pub mod people_too_close;
pub mod too_small;
