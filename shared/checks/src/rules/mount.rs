//! The motor in its mount.

pub mod circle_too_small;
pub mod motor_misfit;
pub mod mount_place;
pub mod no_room;

use crate::rule::Rule;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[
    &motor_misfit::MOTOR_TOO_WIDE,
    &motor_misfit::MOTOR_TOO_LONG,
    &motor_misfit::MOTOR_LOOSE,
    &mount_place::TOO_WIDE_FOR_TUBE,
    &mount_place::RECESSED,
    &circle_too_small::CIRCLE_TOO_SMALL,
    &no_room::NO_ROOM,
];
