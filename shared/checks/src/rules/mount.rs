//! The motor in its mount.

pub mod motor_misfit;
pub mod mount_place;
pub mod no_room;
