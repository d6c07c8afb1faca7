//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod catalog;
mod vocabulary;
