//! Parts that fit each other, or don't.

pub mod balance_outside;
pub mod in_solid;
pub mod no_nose;
pub mod no_wall;
pub mod nose_behind;
pub mod off_axis;
pub mod ogive_too_short;
pub mod outside_parent;
pub mod overlap;
pub mod shoulders;
pub mod step;
pub mod thick_wall;
pub mod too_wide_inside;
