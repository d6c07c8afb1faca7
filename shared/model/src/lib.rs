//! Tree to typed design: what the words mean, with references resolved and the place in the text of every value.
//!
//! * [`files`]: the file that was asked about and those that it uses.
//! * [`evaluate`]: expressions to quantities, checked by dimension; [`functions`](evaluate::functions) that they may
//!   call.
//! * [`sought`]: among what a name is looked up.
//! * [`read`]: a block's fields against the vocabulary.
//! * [`design`]: the types. [`build`]: from trees to them.
//! * [`station`]: where each part sits along the rocket.

mod amounts;
pub mod build;
pub mod catalog;
mod columns;
pub mod curve;
pub mod design;
pub mod evaluate;
mod factor;
pub mod files;
pub mod fit;
mod meant;
mod motor_code;
mod pad;
mod part_word;
mod parts;
pub mod problem;
pub mod read;
mod retold;
mod sought;
mod stand;
pub mod station;
mod typed;

pub use build::{build, rebuild};
pub use design::*;
pub use evaluate::functions;
pub use files::{beside, load, Files, SourceFile, CATALOG};
pub use meant::{size_meant, units_used};
pub use motor_code::{read_code, Code};
pub use pad::{Taken, RAIL_FRICTION, ROD_FRICTION, TOWER_RAIL};
pub use problem::{Problem, Replacement};
pub use retold::retold;
pub use sought::Sought;
pub use stand::{median, Stand};
pub use station::{place_parts, station_of, Extent};
