//! Where lines begin. A line ends with `\r\n`, `\n` or `\r`, and with nothing else.

use crate::span::Span;

/// The start of each line of a text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LineIndex {
    starts: Vec<u32>,
    length: u32,
}

/// About how long a line is.
const BYTES_OF_A_LINE: usize = 32;

impl LineIndex {
    /// Find the lines of a text.
    pub fn new(text: &str) -> LineIndex {
        let bytes = text.as_bytes();
        let mut starts = Vec::with_capacity(bytes.len() / BYTES_OF_A_LINE + 1);
        starts.push(0);
        for at in memchr::memchr2_iter(b'\n', b'\r', bytes) {
            let is_half = bytes.get(at) == Some(&b'\r') && bytes.get(at + 1) == Some(&b'\n');
            if !is_half {
                starts.push(at as u32 + 1);
            }
        }
        LineIndex { starts, length: bytes.len() as u32 }
    }

    /// Number of lines; an empty text has one.
    pub fn count(&self) -> usize {
        self.starts.len()
    }

    /// The line, counted from 0, on which an offset lies.
    pub fn line_of(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start as usize <= offset).saturating_sub(1)
    }

    /// A line's span with its newline.
    pub fn span(&self, line: usize) -> Span {
        let start = self.starts.get(line).copied().unwrap_or(self.length);
        let end = self.starts.get(line + 1).copied().unwrap_or(self.length);
        Span { start, end }
    }

    /// A line's span without its newline.
    pub fn content(&self, line: usize, text: &str) -> Span {
        let Span { start, mut end } = self.span(line);
        let bytes = text.as_bytes();
        while end > start && matches!(bytes.get(end as usize - 1), Some(b'\n' | b'\r')) {
            end -= 1;
        }
        Span { start, end }
    }

    /// Line and column of an offset, both counted from 1, the column in characters.
    pub fn line_and_column(&self, offset: usize, text: &str) -> (usize, usize) {
        let line = self.line_of(offset);
        let start = self.span(line).start as usize;
        let column = text.get(start..offset).map_or(0, |before| before.chars().count());
        (line + 1, column + 1)
    }
}
