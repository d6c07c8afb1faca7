//! A flight as a whole.

pub mod near_its_floors;
