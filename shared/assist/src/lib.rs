//! Editor knowledge without an editor: every feature takes an analysis and an offset and returns plain data. Its words
//! are in the units that the analysis' settings put first.
//!
//! * [`hover`]: what a reader sees when the cursor rests on something.
//! * [`completion`]: what may be written at the cursor.
//! * [`lenses`]: what stands above each flight.
//! * [`measured_block`]: a block to fill in at the bench.
//! * [`definition`]: where what is under the cursor comes from. [`references`]: everywhere that a name is meant.
//! * [`hints`]: numbers between the words. [`colours`]: what each word is. [`signature`]: what a function takes.
//! * [`actions`]: what may be done to a text besides mending what is found.
//! * [`folds`] and [`selections`]: the shape of a text. [`links`]: paths that lead to files.

mod action;
mod colour;
mod completion;
mod cursor;
mod definition;
mod hint;
mod hover;
mod lens;
mod measured;
mod mention;
mod outline;
mod references;
mod signature;
mod tokens;

pub use action::{actions, allow, Action, ActionKind};
pub use colour::{colours, Colour, ColourKind};
pub use completion::{completion, documentation, About, Completion, CompletionKind, Completions, FilesNear};
pub use definition::{definition, is_built_in, links, Link, Origin};
pub use hint::{hints, Hint, HintKind};
pub use hover::{hover, Hover};
pub use lens::{lens_title, lenses, Lens};
pub use measured::measured_block;
pub use mention::{mentions, Mention};
pub use outline::{folds, selections, Fold, FoldKind};
pub use references::{clash, moved_path, not_a_name, references, target, Reference, Target};
pub use signature::{signature, Signature};
