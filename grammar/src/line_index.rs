//! Where lines begin. A line ends with `\r\n`, `\n` or `\r`, and with nothing else.

use crate::span::Span;

/// The start of each line of a text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LineIndex {
    starts: Vec<u32>,
    length: u32,
}

impl LineIndex {
    /// Find the lines of a text.
    pub fn new(text: &str) -> LineIndex {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        for (i, byte) in bytes.iter().enumerate() {
            let ends = match byte {
                b'\n' => true,
                b'\r' => bytes.get(i + 1) != Some(&b'\n'),
                _ => false,
            };
            if ends {
                starts.push(i as u32 + 1);
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
        let span = self.span(line);
        let kept = span.of(text).trim_end_matches(['\n', '\r']).len();
        Span::new(span.start as usize, span.start as usize + kept)
    }

    /// Line and column of an offset, both counted from 1, the column in characters.
    pub fn line_and_column(&self, offset: usize, text: &str) -> (usize, usize) {
        let line = self.line_of(offset);
        let start = self.span(line).start as usize;
        let column = text.get(start..offset).map_or(0, |before| before.chars().count());
        (line + 1, column + 1)
    }
}
