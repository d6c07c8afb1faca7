//! `textDocument/formatting`, of the whole text, of a range, and on typing.

use crate::view::View;
use finwright_grammar::Span;
use lsp_types::{Position, Range as Stretch, TextEdit};
use similar::{Algorithm, DiffOp};
use std::ops::Range;

/// The edits that lay the document out in the one style, each as small as can be, so that cursors and marks stay.
pub fn answer(view: &View) -> Option<Vec<TextEdit>> {
    edits(view, |_| true)
}

/// Those of them that touch the lines of a range.
pub fn in_range(view: &View, range: Stretch) -> Option<Vec<TextEdit>> {
    let last = if range.end.character == 0 && range.end > range.start { range.end.line - 1 } else { range.end.line };
    edits(view, |line| (range.start.line..=last).contains(&line))
}

/// What typing `}` or a line's end settles: the line that is finished by it.
pub fn on_type(view: &View, position: Position, typed: &str) -> Option<Vec<TextEdit>> {
    let line = if typed == "\n" { position.line.checked_sub(1)? } else { position.line };
    // The line that the cursor is on stays as it is while it's empty, or the cursor would jump.
    let edits = edits(view, |changed| changed == line)?;
    Some(edits.into_iter().filter(|edit| edit.range.end.line <= line).collect())
}

fn edits(view: &View, wanted: impl Fn(u32) -> bool) -> Option<Vec<TextEdit>> {
    let text = view.analysis.as_ref().ok()?.sources.first()?.text.clone();
    let formatted = finwright_grammar::format(&text);
    let edits =
        smallest(&text, &formatted).into_iter().map(|(span, new_text)| TextEdit { range: view.range(span), new_text });
    // An edit that ends where a line begins is the line's before.
    let lines = |edit: &TextEdit| {
        let last = if edit.range.end.character == 0 {
            edit.range.end.line.max(edit.range.start.line + 1) - 1
        } else {
            edit.range.end.line
        };
        (edit.range.start.line..=last).any(&wanted)
    };
    Some(edits.filter(lines).collect())
}

/// The stretches that differ, with what stands there afterwards.
fn smallest(old: &str, new: &str) -> Vec<(Span, String)> {
    let (before, after) = (lines(old), lines(new));
    let starts = |lines: &[&str]| {
        let ends = lines.iter().scan(0, |at, line| {
            *at += line.len();
            Some(*at)
        });
        std::iter::once(0).chain(ends).collect::<Vec<usize>>()
    };
    let begins = starts(&before);
    let mut edits = Vec::new();
    let (mut line, mut now) = (0, 0);
    for block in equal_lines(&before, &after) {
        let (old_lines, new_lines) = (line..block.0.start, &after[now..block.1.start]);
        if old_lines.len() == new_lines.len() {
            let pairs = old_lines.map(|line| (begins[line], before[line])).zip(new_lines);
            edits.extend(pairs.filter_map(|((start, line), now)| within(start, line, now)));
        } else {
            let (start, end) = (begins[old_lines.start], begins[old_lines.end]);
            edits.extend(within(start, &old[start..end], &new_lines.concat()));
        }
        (line, now) = (block.0.end, block.1.end);
    }
    edits
}

/// The stretches of lines that stay, and at last the end of both texts.
fn equal_lines(old: &[&str], new: &[&str]) -> Vec<(Range<usize>, Range<usize>)> {
    let same = similar::capture_diff_slices(Algorithm::Myers, old, new).into_iter().filter_map(|op| match op {
        DiffOp::Equal { .. } => Some((op.old_range(), op.new_range())),
        _ => None,
    });
    same.chain(std::iter::once((old.len()..old.len(), new.len()..new.len()))).collect()
}

/// What differs between two texts, without what they begin and end with alike.
fn within(start: usize, old: &str, new: &str) -> Option<(Span, String)> {
    let head: usize = old.chars().zip(new.chars()).take_while(|(a, b)| a == b).map(|(c, _)| c.len_utf8()).sum();
    // A line's end of two characters is one.
    let splits = |text: &str| text[..head].ends_with('\r') && text[head..].starts_with('\n');
    let head = if splits(old) || splits(new) { head - 1 } else { head };
    let (rest, now) = (&old[head..], &new[head..]);
    let tail: usize =
        rest.chars().rev().zip(now.chars().rev()).take_while(|(a, b)| a == b).map(|(c, _)| c.len_utf8()).sum();
    let splits = |text: &str| text[text.len() - tail..].starts_with('\n') && text[..text.len() - tail].ends_with('\r');
    let tail = if splits(rest) || splits(now) { tail - 1 } else { tail };
    let span = Span::new(start + head, start + old.len() - tail);
    let text = now[..now.len() - tail].to_string();
    (!span.is_empty() || !text.is_empty()).then_some((span, text))
}

fn lines(text: &str) -> Vec<&str> {
    text.split_inclusive('\n').collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn applied(old: &str, edits: &[(Span, String)]) -> String {
        let mut text = old.to_string();
        for (span, new) in edits.iter().rev() {
            text.replace_range(span.range(), new);
        }
        text
    }

    proptest! {
        #[test]
        fn edits_make_the_one_of_the_other(old in "(a|b|é| |\r\n|\n){0,30}", new in "(a|b|é| |\r\n|\n){0,30}") {
            prop_assert_eq!(applied(&old, &smallest(&old, &new)), new);
        }
    }

    #[test]
    fn what_stays_is_left_alone() {
        let edits = smallest("a: 1\nb:2\nc: 3\nd  : 4\n", "a: 1\nb: 2\nc: 3\nd: 4\n");
        assert_eq!(edits, [(Span::new(7, 7), " ".to_string()), (Span::new(15, 17), String::new())]);
    }
}
