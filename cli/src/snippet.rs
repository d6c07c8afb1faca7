//! What of a text is drawn around a finding: its labelled lines with two around each, in one frame, and a mark where
//! lines are left out.

use finwright_grammar::{LineIndex, Place};
use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use std::sync::Arc;

/// So many lines are drawn above and below a labelled one.
pub const AROUND: usize = 2;

/// A text as the drawing library asks for it, for a finding at one place.
pub struct Excerpt<'a> {
    pub shown: &'a str,
    pub text: &'a Arc<str>,
    pub lines: &'a LineIndex,
    pub place: Place,
}

impl SourceCode for Excerpt<'_> {
    /// The library asks with neighbours for what it draws, and without for the place in the title, which is the
    /// finding's.
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let whole = |span, data, line, column, count| {
            let name = self.shown.to_string();
            Ok(Box::new(MietteSpanContents::new_named(name, data, span, line, column, count)) as Box<dyn SpanContents>)
        };
        if before + after == 0 {
            let (line, column) = self.lines.line_and_column(self.place.span.start as usize, self.text);
            return whole(*span, &[], line - 1, column - 1, 0);
        }
        let first = self.lines.line_of(span.offset()).saturating_sub(before);
        let end = span.offset() + span.len();
        // A span that ends with its line's break doesn't reach into the next line.
        let end = if end > span.offset() && self.text.as_bytes().get(end - 1) == Some(&b'\n') { end - 1 } else { end };
        let last = (self.lines.line_of(end) + after).min(self.lines.count() - 1);
        let drawn = self.lines.span(first).to(self.lines.content(last, self.text));
        let data = drawn.of(self.text).as_bytes();
        // Two excerpts with one line between them are drawn as one: a mark would take as much room as the line.
        let reach = last - first + 2;
        whole(SourceSpan::from(drawn.range()), data, first, 0, reach)
    }
}

/// The drawing with its several frames in one. The library draws a frame for each run of lines, each as wide as its own
/// line numbers.
pub fn in_one_frame(drawn: &str) -> String {
    let lines: Vec<&str> = drawn.lines().collect();
    let depth = |line: &str| line.len() - line.trim_start_matches(' ').len();
    let is_top = |line: &str| line.trim_start_matches(' ').starts_with("╭─");
    let is_seam = |at: usize| {
        let next = lines.get(at + 1).is_some_and(|line| is_top(line));
        next && lines.get(at).is_some_and(|line| line.trim_start_matches(' ') == "╰────")
    };
    let deepest = lines.iter().filter(|line| is_top(line)).map(|line| depth(line)).max().unwrap_or(0);
    let mut out = String::new();
    let mut shift = 0;
    for (at, line) in lines.iter().enumerate() {
        if is_top(line) {
            shift = deepest - depth(line);
            if at > 0 && is_seam(at - 1) {
                continue;
            }
        }
        let indent = " ".repeat(shift);
        if is_seam(at) {
            out += &format!("{}⋮\n", " ".repeat(deepest));
        } else {
            out += &format!("{indent}{line}\n");
        }
        if line.trim_start_matches(' ') == "╰────" {
            shift = 0;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::in_one_frame;

    #[test]
    fn frames_become_one_with_a_mark_for_what_is_left_out() {
        let drawn = "  × too slow\n   ╭─[a.finw:104:3]\n 7 │ rod\n   · ─┬─\n   ·  ╰── here\n   ╰────\n     \
            ╭─[a.finw:104:3]\n 104 │ flight\n     ╰────\n  help: a longer one\n";
        insta::assert_snapshot!(in_one_frame(drawn), @"
         × too slow
            ╭─[a.finw:104:3]
          7 │ rod
            · ─┬─
            ·  ╰── here
            ⋮
        104 │ flight
            ╰────
         help: a longer one
        ");
    }

    #[test]
    fn one_frame_stays_as_it_is() {
        let drawn = "  × too slow\n   ╭─[a.finw:7:1]\n 7 │ rod\n   ╰────\n  help: ╭─ is how a frame begins\n";
        assert_eq!(in_one_frame(drawn), drawn);
    }
}
