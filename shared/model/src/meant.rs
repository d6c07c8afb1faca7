//! What was probably meant by words and values that can't be so: messages only, nothing here is computed with.

mod block;
mod curve;
mod field;
mod place;
mod size;
mod sum;
mod unit;
mod value;
mod word;

pub(crate) use block::{known_block, misnamed, own_name};
pub(crate) use curve::points;
pub(crate) use field::{outside_of_blocks, unknown_field};
pub(crate) use place::{no_such_direction, no_such_place, which_edge};
pub(crate) use size::possible;
pub use size::size_meant;
pub(crate) use sum::sum;
pub use unit::units_used;
pub(crate) use unit::without_unit;
pub(crate) use value::of_field;
pub(crate) use word::{choice, material, unknown_value};
