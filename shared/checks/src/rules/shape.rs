//! Parts that fit each other, or don't.

pub mod balance_outside;
pub mod in_solid;
pub mod loose_bulkhead;
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

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &no_wall::NO_WALL,
    &thick_wall::THICK_WALL,
    &no_nose::NO_NOSE,
    &nose_behind::NOSE_BEHIND,
    &ogive_too_short::OGIVE_TOO_SHORT,
    &step::STEP_RULE,
    &shoulders::TIGHT_SHOULDER,
    &shoulders::LOOSE_SHOULDER,
    &shoulders::SHORT_SHOULDER,
    &outside_parent::OUTSIDE_PARENT,
    &overlap::OVERLAP,
    &in_solid::IN_SOLID,
    &too_wide_inside::TOO_WIDE_INSIDE,
    &loose_bulkhead::LOOSE_BULKHEAD,
    &off_axis::OFF_AXIS,
    &balance_outside::BALANCE_OUTSIDE,
];
