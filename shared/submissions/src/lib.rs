//! What a class handed in: whose it is, what is in it, and what of it can't be read, in words that a teacher can pass
//! on. Whatever a file is, it costs only itself.
//!
//! * [`roster`](mod@roster): who is in the class, from a list with commas.
//! * [`gather`](mod@gather): which file, folder or zip is whose.
//! * [`contents`](mod@contents): the texts of one submission, of a zip too, bounded in size, number and depth, links
//!   not followed. [`kind`](mod@kind): what a file is that is no design.
//! * [`name`]: an id as the name of a file.

pub mod contents;
pub mod gather;
pub mod kind;
pub mod name;
pub mod roster;

pub use contents::{contents, Contents, Text};
pub use gather::{gather, Class, Own, Shared, Submission};
pub use name::file_name;
pub use roster::{roster, Pupil};

/// More files than these aren't looked at in one submission.
pub const MOST_FILES: usize = 200;
/// Nor folders deeper than these.
pub const MOST_DEPTH: usize = 8;
/// Nor more bytes of text in all.
pub const MOST_BYTES: u64 = 8 << 20;
