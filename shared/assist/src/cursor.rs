//! Where a cursor stands while somebody types: in which open blocks, in which statement, behind which words of it.
//!
//! The tree answers for what is written; what is being written has no end yet, so this reads the text up to the cursor,
//! by its braces where they balance and by its indentation where they don't, as the tree is nested.

mod scan;

use finwright_grammar::Span;
use scan::Scan;

/// Where a cursor stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Cursor<'t> {
    /// The text.
    pub text: &'t str,
    /// The cursor's byte offset.
    pub offset: usize,
    /// The blocks that enclose it, outermost first.
    pub open: Vec<Open<'t>>,
    /// Where its statement begins.
    pub statement: usize,
    /// What it stands in.
    pub surrounding: Surrounding,
}

/// What a cursor stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Surrounding {
    /// Words of the language.
    Words,
    /// A remark, from its `#`.
    Remark(usize),
    /// A quoted text, from behind its quote.
    Quoted(usize),
}

/// A block that encloses the cursor.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Open<'t> {
    /// The block's word.
    pub word: &'t str,
    /// Where its header begins.
    pub start: usize,
    /// The fields that it says before the cursor, in order, and then those that it says behind it.
    pub said: Vec<&'t str>,
    /// How many of them stand before the cursor.
    pub before: usize,
    /// The words of the blocks in it.
    pub blocks: Vec<&'t str>,
    indent: usize,
    body: Option<usize>,
    number: usize,
}

/// The cursor at a byte offset; `None` where a text has no such place.
pub(crate) fn cursor(text: &str, offset: usize) -> Option<Cursor<'_>> {
    text.get(..offset)?;
    let mut scan = Scan::new(text, offset, false);
    scan.run();
    if !scan.balanced {
        scan = Scan::new(text, offset, true);
        scan.run();
    }
    scan.found
}

/// Whether a character belongs to a word.
pub(crate) fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

impl<'t> Cursor<'t> {
    /// The innermost block.
    pub fn block(&self) -> Option<&Open<'t>> {
        self.open.last()
    }

    /// The word that the cursor is in or behind: from its first letter to its last. In `12m` it's the unit.
    pub fn word(&self) -> Span {
        let before = self.text.get(self.statement..self.offset).unwrap_or_default();
        let mut start = before
            .rfind(|c: char| !is_word(c))
            .map_or(0, |at| at + before[at..].chars().next().map_or(1, char::len_utf8));
        let typed = before.get(start..).unwrap_or_default();
        start += typed.len() - typed.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        // Signs of units: `°C`, `%`.
        start -= before.get(..start).filter(|text| text.ends_with('°')).map_or(0, |_| '°'.len_utf8());
        let after = self.text.get(self.offset..).unwrap_or_default();
        let end = self.offset + after.find(|c: char| !is_word(c)).unwrap_or(after.len());
        Span::new(self.statement + start, end)
    }

    /// What is written behind the word, on its line.
    pub fn behind(&self) -> &'t str {
        let rest = self.text.get(self.word().range().end..).unwrap_or_default();
        rest.split(['\n', '\r']).next().unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// The open blocks at the `$0`, and the statement as far as it is typed.
    fn at(marked: &str) -> String {
        let offset = marked.find("$0").unwrap();
        let text = marked.replacen("$0", "", 1);
        let cursor = cursor(&text, offset).unwrap();
        let open: Vec<&str> = cursor.open.iter().map(|open| open.word).collect();
        format!("{} | {}", open.join(" "), &text[cursor.statement..offset])
    }

    #[test]
    fn in_blocks_that_are_open_or_closed() {
        assert_eq!(at("airframe {\n  $0"), "airframe |   ");
        assert_eq!(at("airframe {\n  nose { shape: $0"), "airframe nose |  shape: ");
        assert_eq!(at("airframe { nose { shape: cone }\n  tube body { len$0"), "airframe tube |  len");
        assert_eq!(at("airframe { nose { } }\n$0\npad p { }"), " | ");
        assert_eq!(at("motor m {\n  curve: [0 s: 0 N,\n    1 s: $0"), "motor |   curve: [0 s: 0 N,\n    1 s: ");
    }

    #[test]
    fn a_missing_brace_is_made_up_for_by_indentation() {
        assert_eq!(at("airframe {\n  nose {\n    shape: cone\n  tube {\n    $0\n}\npad p { }"), "airframe tube |     ");
        assert_eq!(at("airframe {\n  nose {\n    shape: cone\nflight f { $0 }"), "flight |  ");
    }

    #[test]
    fn in_remarks_and_texts() {
        let surrounding = |marked: &str| {
            let offset = marked.find("$0").unwrap();
            cursor(&marked.replacen("$0", "", 1), offset).unwrap().surrounding
        };
        assert_eq!(surrounding("a: 1 # al$0low"), Surrounding::Remark(5));
        assert_eq!(surrounding("use \"pa$0"), Surrounding::Quoted(5));
        assert_eq!(surrounding("use \"pa\"$0"), Surrounding::Words);
        assert_eq!(surrounding("note: \"# no remark\" $0"), Surrounding::Words);
    }

    #[test]
    fn what_is_said_before_and_behind() {
        let text = "tube { length: 1 m; ou\n  inner: 3 mm; lug { bore: 3 mm } }";
        let cursor = cursor(text, 22).unwrap();
        let block = cursor.block().unwrap();
        assert_eq!((block.said.clone(), block.before, block.blocks.clone()), (vec!["length", "inner"], 1, vec!["lug"]));
    }
}
