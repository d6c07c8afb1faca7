//! Quantities: a number with its dimension and tolerance, the units it is written in, and how it is shown.
//!
//! * [`dimension`]: what kind of quantity it is (a length, a mass, a force …).
//! * [`unit`]: the units a reader may write, with their factors to SI.
//! * [`quantity`]: values that carry dimension and tolerance through arithmetic.
//! * [`parse`](fn@parse): a single quantity outside of a design.
//! * [`show`]: SI numbers in the words of a person at the field. [`reader`]: whose units those are.

pub mod dimension;
mod parse;
pub mod quantity;
pub mod reader;
pub mod show;
pub mod unit;

pub use dimension::Dimension;
pub use parse::parse;
pub use quantity::{Mismatch, Quantity, Spread};
pub use reader::Units;
pub use unit::{find_unit, is_unit, readings, Unit, UnitError};
