//! The pieces that lines are made of, sound and broken.

use crate::problem::Problem;
use crate::span::Span;
use crate::tree::{Element, Item};

/// A piece of a line, ready for nesting.
#[derive(Clone, Debug)]
pub(crate) enum Piece {
    /// `word name "title" {`.
    Header { span: Span, word: Span, name: Option<Span>, like: Option<Span>, title: Option<Span> },
    /// `}`.
    Close(Span),
    /// `{` without a header.
    Brace(Span),
    /// A statement; `opens` is set when it leaves a list open for the lines that follow.
    Statement { item: Item, opens: bool },
    /// Rows of an open list; `closes` when its bracket follows. Where no list is open, they may be meant to be
    /// something else, with the problem to tell.
    Rows { span: Span, elements: Vec<Element>, closes: bool, meant: Option<Box<(Problem, Vec<Piece>)>> },
    /// `]` by itself.
    ListEnd(Span),
    /// Something that couldn't be read, and has been told.
    Unread(Span),
}

impl Piece {
    /// The place of the piece.
    pub fn span(&self) -> Span {
        match self {
            Piece::Header { span, .. } | Piece::Close(span) | Piece::Brace(span) => *span,
            Piece::Rows { span, .. } | Piece::ListEnd(span) | Piece::Unread(span) => *span,
            Piece::Statement { item, .. } => item.span(),
        }
    }
}

/// A piece of a line that isn't sound.
pub(crate) struct Broken<'l> {
    /// The piece.
    pub text: &'l str,
    /// Whether it's a field's name and its colon at least.
    pub is_field: bool,
    /// Whether a brace opens behind it.
    pub opens: bool,
    /// Whether it stands in a block, as far as its line tells: it's indented or behind something else.
    pub inside: bool,
    /// Whether nothing stands behind it on its line.
    pub last: bool,
}

/// What is known of a broken text in spite of its slip.
pub(crate) struct Mended {
    /// The slip.
    pub problem: Problem,
    /// What is read; `None` where nothing can be.
    pub pieces: Option<Vec<Piece>>,
}
