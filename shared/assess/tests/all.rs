//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod bench;
mod chances_and_tolerances;
mod common;
mod defaults;
mod hook;
mod likelihood;
mod motor_and_fields;
mod own_materials;
mod ring_and_tube_fins;
mod rocket_r1;
mod two_guides;
mod weighing;
