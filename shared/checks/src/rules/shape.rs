//! Parts that fit each other, or don't.

pub mod no_wall;
pub mod ogive_too_short;
pub mod outside_parent;
pub mod overlap;
pub mod shoulders;
pub mod step;
