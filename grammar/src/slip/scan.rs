//! Finding one's way in a text that isn't sound: words, texts in quotes, brackets.

use crate::vocabulary::slips::field_anywhere;
use crate::vocabulary::{FieldKind, BLOCKS};
use std::ops::Range;

/// The words of a text, each with where it stands.
pub(super) fn words(text: &str) -> Vec<(Range<usize>, &str)> {
    let mut found = Vec::new();
    let mut start = None;
    for (at, c) in text.char_indices().chain([(text.len(), ' ')]) {
        match (c.is_whitespace(), start) {
            (false, None) => start = Some(at),
            (true, Some(from)) => {
                found.push((from..at, text.get(from..at).unwrap_or("")));
                start = None;
            }
            _ => {}
        }
    }
    found
}

/// The signs of a text outside of texts in quotes, each with where it stands and how many brackets are open there.
///
/// A `"` right behind a digit or a fraction is a mark for inches and opens no text.
pub(super) fn signs(text: &str) -> Vec<(usize, char, usize)> {
    let mut found = Vec::with_capacity(text.len());
    let (mut quoted, mut depth, mut before) = (false, 0usize, ' ');
    for (at, c) in text.char_indices() {
        if c == '"' && (quoted || !is_of_number(before)) {
            quoted = !quoted;
        } else if !quoted {
            match c {
                '(' | '[' => depth += 1,
                ')' | ']' => depth = depth.saturating_sub(1),
                _ => {}
            }
            found.push((at, c, depth));
        }
        if !c.is_whitespace() {
            before = c;
        }
    }
    found
}

/// Whether a sign can end a number.
pub(super) fn is_of_number(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' | '⅓' | '⅔')
}

/// Where a field's value stands: behind its first colon, without the space around it.
pub(super) fn value(text: &str) -> Option<Range<usize>> {
    let colon = text.find(':')? + 1;
    let rest = text.get(colon..)?;
    let start = colon + rest.len() - rest.trim_start().len();
    Some(start..start.max(text.trim_end().len()))
}

/// A field's name: what stands before its first colon.
pub(super) fn name(text: &str) -> &str {
    text.split(':').next().unwrap_or("").trim()
}

/// The number that ends where another sign begins: `12`, `1.5`, `3/4`, `1 3/4`, with where it starts.
pub(super) fn number_before(text: &str, end: usize) -> Option<Range<usize>> {
    let before = text.get(..end)?.trim_end();
    let start = number_start(before);
    let number = before.get(start..)?;
    if number.is_empty() || !before.ends_with(is_of_number) {
        return None;
    }
    // A whole number before a fraction belongs to it, behind a space or a dash.
    let whole = before.get(..start)?.trim_end_matches(['-', ' ']);
    let parted = start - whole.len() == 1 && number.contains('/') && whole.ends_with(|c: char| c.is_ascii_digit());
    Some(if parted { number_start(whole)..before.len() } else { start..before.len() })
}

fn number_start(before: &str) -> usize {
    let is_outside = |c: char| !(is_of_number(c) || matches!(c, '.' | '/'));
    before.char_indices().rev().find(|(_, c)| is_outside(*c)).map_or(0, |(at, c)| at + c.len_utf8())
}

/// What a field of that name takes, in any block that has it, by its own name or by another.
pub(super) fn kinds(name: &str) -> impl Iterator<Item = FieldKind> + Clone + use<> {
    let word = field_anywhere(name);
    BLOCKS.iter().flat_map(|b| b.fields).filter(move |f| Some(f.word) == word).map(|f| f.kind)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inch_marks_open_no_text() {
        let plain: String = signs("length: 9\"; note: \"a; b 3\"; x: 2\"").iter().map(|(_, c, _)| *c).collect();
        assert_eq!(plain, "length: 9\"; note: ; x: 2\"");
    }

    #[test]
    fn words_and_values_have_their_places() {
        assert_eq!(words(" a  b"), [(1..2, "a"), (4..5, "b")]);
        assert_eq!(value("span:  40 mm "), Some(7..12));
        assert_eq!(value("span:"), Some(5..5));
        assert_eq!(number_before("length: 1.5 \"", 12), Some(8..11));
        assert_eq!(number_before("length: x\"", 9), None);
        assert_eq!(number_before("length: 3-1/2\"", 13), Some(8..13));
        assert_eq!(number_before("length: 3 - 2\"", 13), Some(12..13));
    }
}
