//! Remarks over several lines, as other languages mark them.

use crate::memo::read_line_again;
use crate::slip;
use crate::span::Span;

/// Remarks between `/*` and `*/` that go over several lines.
pub(crate) struct Remarks {
    /// Where the last one ends.
    end: u32,
    /// Whether no other one ends further down.
    no_more: bool,
}

impl Remarks {
    /// Before the first line of a text.
    pub fn of(text: &str) -> Remarks {
        Remarks { end: 0, no_more: !text.contains("/*") }
    }

    /// Whether there surely is no such remark from here on.
    pub fn are_none(&self) -> bool {
        self.no_more
    }

    /// What of the next line isn't in such a remark, and the one that starts on it, with how it's meant to be written.
    pub fn part(&mut self, text: &str, line: Span) -> (Span, Option<(Span, String)>) {
        let line = Span { start: line.start.max(self.end.min(line.end)), end: line.end };
        if self.no_more
            || !line.of(text).contains("/*")
            || read_line_again(line.of(text), line.start).problems.is_empty()
        {
            return (line, None);
        }
        let Some((range, meant)) = slip::block_remark(text, line.range()) else {
            self.no_more = !text.get(line.range().end..).is_some_and(|rest| rest.contains("*/"));
            return (line, None);
        };
        self.end = range.end as u32;
        let remark = Span::new(range.start, range.end);
        (Span { end: remark.start, ..line }, Some((remark, meant)))
    }
}
