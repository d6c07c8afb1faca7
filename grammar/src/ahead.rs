//! Plain lines that are read before their turn.

use crate::line_index::LineIndex;
use crate::piece::Piece;
use crate::plain::read_plain;
use crate::span::Span;
use std::iter::Take;
use std::vec::IntoIter;

/// The plain lines from one on, each with what stands on it.
pub(crate) struct Ahead {
    pieces: IntoIter<Piece>,
    lines: IntoIter<Option<OfLine>>,
}

/// How many pieces a plain line has, and its comment.
struct OfLine {
    pieces: usize,
    comment: Option<Span>,
}

/// What stands on a plain line.
pub(crate) struct Known<'a> {
    pub pieces: Take<&'a mut IntoIter<Piece>>,
    pub comment: Option<Span>,
}

impl Ahead {
    /// Reads the lines from `first` to the last.
    pub fn from(text: &str, index: &LineIndex, first: usize) -> Self {
        let count = index.count() - first;
        let (mut pieces, mut lines) = (Vec::with_capacity(count), Vec::with_capacity(count));
        for number in first..index.count() {
            let content = index.content(number, text);
            let before = pieces.len();
            let plain = read_plain(content.of(text), content.start, &mut pieces);
            lines.push(plain.map(|comment| OfLine { pieces: pieces.len() - before, comment }));
        }
        Self { pieces: pieces.into_iter(), lines: lines.into_iter() }
    }

    /// The next line, if it's plain.
    pub fn next(&mut self) -> Option<Known<'_>> {
        let OfLine { pieces, comment } = self.lines.next()??;
        Some(Known { pieces: self.pieces.by_ref().take(pieces), comment })
    }
}
