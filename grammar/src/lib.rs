//! Text to tree.

pub mod span;
pub use span::{FileId, Place, Span};
