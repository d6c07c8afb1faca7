//! Every test of this crate outside of it, in one program: each of its own would link the whole again.

mod allowances;
mod arithmetic;
mod at_the_pad;
mod examples;
mod files;
mod fitting;
mod fixes;
mod guides;
mod nonsense;
mod numbers;
mod one_advice;
mod page;
mod parts;
mod reader;
mod recovery;
mod retold;
mod rules;
mod second_method;
mod settings;
mod slips;
mod stations;
mod support;
mod two_sides;
mod values;
mod way_down;
mod words;
