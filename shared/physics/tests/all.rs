//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod closed_forms;
mod common;
mod drag;
mod fast_flight;
mod flight;
mod guide_structure;
mod guided;
mod lattice;
mod monte_carlo;
mod motor_and_air;
mod numerics;
mod plate;
mod pressure;
mod robust;
mod rocket_r1;
mod shapes;
