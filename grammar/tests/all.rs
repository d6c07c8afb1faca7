//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod anything;
mod common;
mod format;
mod highlighting;
mod language;
mod page;
mod recovery;
mod same_reading;
