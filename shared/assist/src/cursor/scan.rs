//! A text read up to its cursor.

use super::{is_word, Cursor, Open, Surrounding};

/// The reading of a text up to its cursor, and of the cursor's own block to its end.
pub(super) struct Scan<'t> {
    text: &'t str,
    offset: usize,
    by_indent: bool,
    /// Whether every brace has its other.
    pub balanced: bool,
    open: Vec<Open<'t>>,
    opened: usize,
    /// Where the statement begins, and how many brackets are open in it.
    statement: usize,
    brackets: usize,
    /// Where the cursor stands.
    pub found: Option<Cursor<'t>>,
}

impl<'t> Scan<'t> {
    /// A reading by braces, or by indentation where they don't balance.
    pub fn new(text: &'t str, offset: usize, by_indent: bool) -> Scan<'t> {
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

    /// Read all of it.
    pub fn run(&mut self) {
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
