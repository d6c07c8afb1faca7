//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod calculator;
mod designs;
mod digits;
mod pages;
mod worked_cases;
