//! Where something stands: byte offsets into one file's text.

use serde::Serialize;

/// A half-open range of byte offsets, `start..end`, in one file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// The span `start..end`.
    pub fn new(start: usize, end: usize) -> Span {
        Span { start: start as u32, end: end.max(start) as u32 }
    }

    /// The smallest span that covers both.
    pub fn to(self, other: Span) -> Span {
        Span { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// Whether the offset lies in the span; its end counts, since a cursor stands between characters.
    pub fn touches(self, offset: usize) -> bool {
        self.start as usize <= offset && offset <= self.end as usize
    }

    /// Number of bytes covered.
    pub fn len(self) -> usize {
        (self.end - self.start) as usize
    }

    /// Whether nothing is covered.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }

    /// The text under the span; empty when the span doesn't fit the text.
    pub fn of(self, text: &str) -> &str {
        text.get(self.start as usize..self.end as usize).unwrap_or("")
    }

    /// The span as a range of `usize`, for slicing.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// A file of the analysis: 0 is the file that was asked about, later numbers are files it uses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct FileId(pub u32);

/// A span in a file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Place {
    /// Which file.
    pub file: FileId,
    /// Where in it.
    pub span: Span,
}
