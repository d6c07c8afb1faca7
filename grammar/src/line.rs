//! Lines: one taken to pieces by itself, and one of a file.

use crate::piece::Piece;
use crate::problem::Problem;
use crate::span::Span;

/// A line taken to pieces.
#[derive(Clone, Debug, Default)]
pub(crate) struct LineRead {
    /// What stands on it.
    pub pieces: Vec<Piece>,
    /// Its comment.
    pub comments: Vec<Span>,
    /// What couldn't be read; one at most.
    pub problems: Vec<Problem>,
    /// Pieces of which not even the kind is known.
    pub lost: Vec<Span>,
    /// The block's first line that it is but for a brace.
    pub braceless: Option<Box<Piece>>,
}

/// A line of a file that has anything on it.
pub(crate) struct Line {
    /// Width of the white space before its first piece.
    pub indent: usize,
    /// How many pieces the file has up to the line's end.
    pub end: usize,
}
