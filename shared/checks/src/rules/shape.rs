//! Parts that fit each other, or don't.

pub mod impossible;
pub mod outside_parent;
pub mod overlap;
pub mod shoulders;
pub mod step;
