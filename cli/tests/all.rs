//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod answers;
mod chances;
mod class;
mod corpus;
mod day;
mod diff;
mod draw;
mod every_test;
mod explain;
mod fmt;
mod followed;
mod guides;
mod handed;
mod hostile_class;
mod house;
mod names;
mod rough_input;
mod settings;
mod show;
mod units;
mod verdict;
mod working;
