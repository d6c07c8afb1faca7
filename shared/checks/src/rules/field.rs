//! The field and its code.

pub mod field;
