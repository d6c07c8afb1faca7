//! Editor positions and byte offsets, both ways. Nothing that a client sends makes these fail.

use finwright_grammar::Span;
use lsp_types::{ClientCapabilities, Position, PositionEncodingKind, Range};
use ropey::Rope;

/// What a column counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// Halves of surrogate pairs, the protocol's default.
    Utf16,
    /// Characters.
    Utf32,
}

impl Encoding {
    /// Bytes where the client offers them, since those are what we count in.
    pub fn agreed(client: &ClientCapabilities) -> Encoding {
        let offered =
            client.general.as_ref().and_then(|general| general.position_encodings.as_deref()).unwrap_or_default();
        let known = [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32];
        let has = |encoding: &Encoding| offered.contains(&encoding.kind());
        // Bytes, or else what the client puts first; everybody must know the default.
        match offered.iter().find_map(|kind| known.into_iter().find(|encoding| encoding.kind() == *kind)) {
            _ if has(&Encoding::Utf8) => Encoding::Utf8,
            first => first.unwrap_or(Encoding::Utf16),
        }
    }

    /// The protocol's name for it.
    pub fn kind(self) -> PositionEncodingKind {
        match self {
            Encoding::Utf8 => PositionEncodingKind::UTF8,
            Encoding::Utf16 => PositionEncodingKind::UTF16,
            Encoding::Utf32 => PositionEncodingKind::UTF32,
        }
    }
}

/// The byte offset of a position, moved back to the nearest place that exists.
pub fn offset(text: &Rope, encoding: Encoding, position: Position) -> usize {
    text.char_to_byte(char_index(text, encoding, position))
}

/// The number of the character at a position; rope edits count in characters.
pub fn char_index(text: &Rope, encoding: Encoding, position: Position) -> usize {
    let line = position.line as usize;
    if line >= text.len_lines() {
        return text.len_chars();
    }
    let start = text.line_to_char(line);
    let end = line_end(text, line);
    let column = position.character as usize;
    match encoding {
        Encoding::Utf8 => {
            let byte = text.char_to_byte(start).saturating_add(column);
            text.byte_to_char(byte.min(text.char_to_byte(end)))
        }
        Encoding::Utf16 => {
            let unit = text.char_to_utf16_cu(start).saturating_add(column);
            text.utf16_cu_to_char(unit.min(text.char_to_utf16_cu(end)))
        }
        Encoding::Utf32 => start.saturating_add(column).min(end),
    }
}

/// The position of a byte offset; inside a line break it's the end of the line.
pub fn position(text: &Rope, encoding: Encoding, offset: usize) -> Position {
    let char = text.byte_to_char(offset.min(text.len_bytes()));
    let line = text.char_to_line(char);
    let start = text.line_to_char(line);
    let char = char.min(line_end(text, line));
    let column = match encoding {
        Encoding::Utf8 => text.char_to_byte(char) - text.char_to_byte(start),
        Encoding::Utf16 => text.char_to_utf16_cu(char) - text.char_to_utf16_cu(start),
        Encoding::Utf32 => char - start,
    };
    Position::new(line as u32, column as u32)
}

/// The range of a span.
pub fn range(text: &Rope, encoding: Encoding, span: Span) -> Range {
    let std::ops::Range { start, end } = span.range();
    Range::new(position(text, encoding, start), position(text, encoding, end))
}

/// Where the line ends, before its line break.
fn line_end(text: &Rope, line: usize) -> usize {
    let start = text.line_to_char(line);
    let mut end = match line + 1 < text.len_lines() {
        true => text.line_to_char(line + 1),
        false => return text.len_chars(),
    };
    for line_break in ['\n', '\r'] {
        if end > start && text.char(end - 1) == line_break {
            end -= 1;
        }
    }
    end
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use proptest::prelude::*;

    /// The same by hand: split the text into lines, then count.
    fn plain_position(text: &str, encoding: Encoding, offset: usize) -> Position {
        let (mut line, mut start) = (0, 0);
        for (at, piece) in text.char_indices() {
            let end = at + piece.len_utf8();
            let inside = piece == '\r' && text[end..].starts_with('\n');
            if end <= offset && matches!(piece, '\r' | '\n') && !inside {
                (line, start) = (line + 1, end);
            }
        }
        let before = text[start..offset].trim_end_matches(['\r', '\n']);
        let column = match encoding {
            Encoding::Utf8 => before.len(),
            Encoding::Utf16 => before.encode_utf16().count(),
            Encoding::Utf32 => before.chars().count(),
        };
        Position::new(line, column as u32)
    }

    fn encoding() -> impl Strategy<Value = Encoding> {
        prop_oneof![Just(Encoding::Utf8), Just(Encoding::Utf16), Just(Encoding::Utf32)]
    }

    proptest! {
        #[test]
        fn offsets_survive_the_way_there_and_back(
            text in "(a|é|😀|\u{2028}|\r|\n|\r\n){0,40}",
            encoding in encoding(),
        ) {
            let rope = Rope::from_str(&text);
            for (at, _) in text.char_indices() {
                let there = position(&rope, encoding, at);
                prop_assert_eq!(there, plain_position(&text, encoding, at));
                let inside_break = text[..at].ends_with('\r') && text[at..].starts_with('\n');
                if !inside_break {
                    prop_assert_eq!(offset(&rope, encoding, there), at);
                }
            }
        }

        #[test]
        fn every_position_lands_between_two_characters(
            text in "(a|é|😀|\r|\n){0,20}",
            encoding in encoding(),
            line in prop_oneof![0u32..25, Just(u32::MAX)],
            character in prop_oneof![0u32..30, Just(u32::MAX)],
        ) {
            let rope = Rope::from_str(&text);
            let at = offset(&rope, encoding, Position::new(line, character));
            prop_assert!(text.is_char_boundary(at));
            let back = position(&rope, encoding, at);
            prop_assert!(back.line <= line && (back.line < line || back.character <= character));
        }

        #[test]
        fn every_offset_has_a_position(text in "(a|é|😀|\r|\n){0,20}", encoding in encoding(), at in 0usize..100) {
            let rope = Rope::from_str(&text);
            let there = position(&rope, encoding, at);
            prop_assert!(offset(&rope, encoding, there) <= at);
        }
    }

    #[test]
    fn half_a_surrogate_pair_is_the_whole_character_before_it() {
        let rope = Rope::from_str("x😀y");
        let at = |encoding, character| offset(&rope, encoding, Position::new(0, character));
        assert_eq!(at(Encoding::Utf16, 2), 1);
        assert_eq!(at(Encoding::Utf16, 3), 5);
        assert_eq!(at(Encoding::Utf8, 3), 1);
    }

    #[test]
    fn other_separators_are_no_line_ends() {
        let rope = Rope::from_str("a\u{2028}b\u{85}c\u{b}d\u{c}e");
        assert_eq!(position(&rope, Encoding::Utf16, rope.len_bytes()).line, 0);
    }
}
