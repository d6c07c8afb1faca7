//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod action;
mod completion;
mod cut;
mod definition;
mod hover;
mod lens;
mod measured;
mod one_verdict;
