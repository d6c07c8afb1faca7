//! Editor knowledge without an editor: every feature takes an analysis and an offset and returns plain data.
//!
//! * [`hover`]: what a reader sees when the cursor rests on something.

mod hover;

pub use hover::{hover, Hover};
