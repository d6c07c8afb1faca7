//! Where a cursor stands while somebody types: in which open blocks, in which statement, behind which words of it.
//!
//! The tree answers for what is written; what is being written has no end yet, so this reads the text up to the cursor,
//! by its braces where they balance and by its indentation where they don't, as the tree is nested.

use finwright_grammar::Span;

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

struct Scan<'t> {
    text: &'t str,
    offset: usize,
    by_indent: bool,
    balanced: bool,
    open: Vec<Open<'t>>,
    opened: usize,
    /// Where the statement begins, and how many brackets are open in it.
    statement: usize,
    brackets: usize,
    found: Option<Cursor<'t>>,
}

impl<'t> Scan<'t> {
    fn new(text: &'t str, offset: usize, by_indent: bool) -> Scan<'t> {
        Scan {
            text,
            offset,
            by_indent,
            balanced: true,
            open: Vec::new(),
            opened: 0,
            statement: 0,
            brackets: 0,
            found: None,
        }
    }

    fn run(&mut self) {
        let mut start = 0;
        for line in self.text.split_inclusive(['\n', '\r']) {
            self.line(start, line);
            start += line.len();
        }
        self.reach(start, Surrounding::Words);
        self.balanced &= self.open.is_empty();
    }

    fn line(&mut self, start: usize, line: &'t str) {
        let content = line.trim_start_matches([' ', '\t']);
        let indent = line.len() - content.len();
        let says = !content.trim_end().is_empty() && !content.starts_with('#');
        // The line that is being typed may stand anywhere.
        let typed = (start..=start + line.trim_end_matches(['\n', '\r']).len()).contains(&self.offset);
        if self.brackets > 0 && begins_statement(content) {
            (self.brackets, self.statement) = (0, start);
        }
        if says && self.brackets == 0 && self.by_indent && !(typed && self.offset <= start + indent) {
            self.follow_indent(indent, content.starts_with('}'));
        }
        if let Some(open) = self.open.last_mut().filter(|open| says && open.body.is_none() && !content.starts_with('}'))
        {
            open.body = Some(indent);
        }
        let mut quote = None;
        for (at, c) in line.char_indices() {
            let here = start + at;
            self.reach(here, quote.map_or(Surrounding::Words, |quote| Surrounding::Quoted(quote + 1)));
            match (c, quote) {
                ('"', None) => quote = Some(here),
                ('"', Some(_)) => quote = None,
                (_, Some(_)) => {}
                ('#', None) => {
                    let end = start + line.trim_end_matches(['\n', '\r']).len();
                    if (here + 1..=end).contains(&self.offset) {
                        self.reach(self.offset, Surrounding::Remark(here));
                    }
                    break;
                }
                ('[' | '(', None) => self.brackets += 1,
                (']' | ')', None) => self.brackets = self.brackets.saturating_sub(1),
                ('{', None) => self.open_block(here, indent),
                ('}', None) => self.close_block(here, at == indent),
                (';', None) => self.end_statement(here),
                _ => {}
            }
        }
        let end = start + line.trim_end_matches(['\n', '\r']).len();
        if let (Some(quote), true) = (quote, self.offset == end) {
            self.reach(end, Surrounding::Quoted(quote + 1));
        }
        self.reach(end, Surrounding::Words);
        if self.brackets == 0 && end < start + line.len() {
            self.end_statement(end);
            self.statement = start + line.len();
        }
    }

    /// Take down where the cursor stands, once.
    fn reach(&mut self, here: usize, surrounding: Surrounding) {
        if self.found.is_some() || here < self.offset {
            return;
        }
        for open in &mut self.open {
            open.before = open.said.len();
        }
        self.found = Some(Cursor {
            text: self.text,
            offset: self.offset,
            open: self.open.clone(),
            statement: self.statement.min(self.offset),
            surrounding,
        });
    }

    fn follow_indent(&mut self, indent: usize, closes: bool) {
        if closes && !self.open.iter().any(|open| open.indent == indent) {
            return;
        }
        while let Some(open) = self.open.last() {
            let over = match closes {
                true => open.indent > indent,
                false => indent <= open.indent && open.body.is_some_and(|body| body > open.indent),
            };
            if !over {
                break;
            }
            self.open.pop();
        }
    }

    fn open_block(&mut self, here: usize, indent: usize) {
        let word = first_word(self.text.get(self.statement..here).unwrap_or_default());
        if let Some(outer) = self.open.last_mut() {
            outer.blocks.push(word);
        }
        self.note_behind(|open| open.blocks.push(word));
        self.opened += 1;
        let start = self.statement;
        self.open.push(Open { word, start, indent, number: self.opened, ..Open::default() });
        (self.statement, self.brackets) = (here + 1, 0);
    }

    fn close_block(&mut self, here: usize, is_first: bool) {
        self.end_statement(here);
        self.brackets = 0;
        let under = !self.by_indent || !is_first || self.open.last().is_none_or(|open| open.indent <= here);
        if under && self.open.pop().is_none() {
            self.balanced = false;
        }
    }

    fn end_statement(&mut self, here: usize) {
        let statement = self.text.get(self.statement..here).unwrap_or_default();
        let word = first_word(statement);
        let is_field = statement.trim_start().get(word.len()..).is_some_and(|rest| rest.trim_start().starts_with(':'));
        // The field that is being typed isn't said yet.
        if is_field && !(self.statement..=here).contains(&self.offset) {
            if let Some(open) = self.open.last_mut() {
                open.said.push(word);
            }
            self.note_behind(|open| open.said.push(word));
        }
        self.statement = here + 1;
    }

    /// What comes behind the cursor in its own block is said too.
    fn note_behind(&mut self, note: impl FnOnce(&mut Open<'t>)) {
        let Some(found) = &mut self.found else { return };
        let Some(own) = found.open.last_mut() else { return };
        if self.open.last().is_some_and(|open| open.number == own.number) {
            note(own);
        }
    }
}

/// Whether a line inside an open bracket begins something new: `word:` or `word … {`.
fn begins_statement(content: &str) -> bool {
    let word = first_word(content);
    let rest = content.get(word.len()..).unwrap_or_default().trim_start();
    !word.is_empty() && (rest.starts_with(':') || rest.trim_end().ends_with('{'))
}

/// The word that a text begins with, if it begins with one.
fn first_word(text: &str) -> &str {
    let text = text.trim_start();
    let end = text.find(|c: char| !is_word(c)).unwrap_or(text.len());
    let word = text.get(..end).unwrap_or_default();
    if word.starts_with(|c: char| c.is_ascii_digit()) {
        ""
    } else {
        word
    }
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
