//! Editor knowledge without an editor: every feature takes an analysis and an offset and returns plain data. Its words
//! are in the units that the analysis' settings put first.
//!
//! * [`hover`]: what a reader sees when the cursor rests on something.
//! * [`completion`]: what may be written at the cursor.
//! * [`lenses`]: what stands above each flight.
//! * [`measured_block`]: a block to fill in at the bench.
//! * [`definition`]: where the name under the cursor is defined.

mod completion;
mod definition;
mod hover;
mod lens;
mod measured;

pub use completion::{completion, Completion, CompletionKind};
pub use definition::definition;
pub use hover::{hover, Hover};
pub use lens::{lens_title, lenses, Lens};
pub use measured::measured_block;
