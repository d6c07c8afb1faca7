//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod ceiling;
mod lengths;
mod placement;
mod practice;
mod support;
