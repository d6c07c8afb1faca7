//! A place in a line, and the tokens that can stand there.

use crate::grammar::DEEPEST_BRACKETS;
use crate::span::Span;

/// Where in the line reading has come to. Whatever fails leaves the line to the grammar, so that a place in the middle
/// of something never has to be gone back from.
pub(super) struct Cursor<'l> {
    line: &'l str,
    /// Where the line starts in its file.
    pub base: u32,
    /// Bytes of the line that are read.
    pub place: usize,
    /// Brackets that may still be opened: as many as may nest, whether they do or not.
    brackets: usize,
}

impl<'l> Cursor<'l> {
    /// At a line's start.
    pub fn new(line: &'l str, base: u32) -> Cursor<'l> {
        Cursor { line, base, place: 0, brackets: DEEPEST_BRACKETS }
    }

    /// The byte that comes next.
    #[inline]
    pub fn next(&self) -> Option<u8> {
        self.ahead(0)
    }

    /// The byte so many further on.
    #[inline]
    pub fn ahead(&self, by: usize) -> Option<u8> {
        self.line.as_bytes().get(self.place + by).copied()
    }

    /// Whether these bytes come next.
    #[inline]
    pub fn sees(&self, bytes: &[u8]) -> bool {
        self.line.as_bytes().get(self.place..).is_some_and(|rest| rest.starts_with(bytes))
    }

    /// What was read from a place on, as the file counts.
    #[inline]
    pub fn from(&self, start: usize) -> Span {
        self.span(start, self.place)
    }

    /// A part of the line, as the file counts.
    #[inline]
    pub fn span(&self, start: usize, end: usize) -> Span {
        Span { start: self.base + start as u32, end: self.base + end as u32 }
    }

    /// The line's text from a place on to here.
    #[inline]
    pub fn text(&self, start: usize) -> &'l str {
        self.line.get(start..self.place).unwrap_or("")
    }

    /// Whether a span of this line is that word.
    #[inline]
    pub fn is(&self, span: Span, word: &str) -> bool {
        let (start, end) = ((span.start - self.base) as usize, (span.end - self.base) as usize);
        self.line.as_bytes().get(start..end) == Some(word.as_bytes())
    }

    /// Go over blanks; whether there were any.
    #[inline]
    pub fn gap(&mut self) -> bool {
        let start = self.place;
        while matches!(self.next(), Some(b' ' | b'\t')) {
            self.place += 1;
        }
        self.place > start
    }

    /// Take that sign.
    #[inline]
    pub fn sign(&mut self, sign: u8) -> Option<()> {
        (self.next() == Some(sign)).then(|| self.place += 1)
    }

    /// Take an opening bracket. The grammar bounds how deep they nest on a line; this, how many there are.
    pub fn bracket(&mut self, sign: u8) -> Option<()> {
        self.sign(sign)?;
        self.brackets = self.brackets.checked_sub(1)?;
        Some(())
    }

    /// Go on to a place further on in a text or a comment, where brackets count too.
    fn skip_to(&mut self, end: usize) -> Option<()> {
        let skipped = self.line.as_bytes().get(self.place..end)?;
        self.place = end;
        let count = skipped.iter().filter(|byte| matches!(byte, b'(' | b'[')).count();
        self.brackets = self.brackets.checked_sub(count)?;
        Some(())
    }

    /// A comment, which goes on to the line's end.
    pub fn comment(&mut self) -> Option<Span> {
        let start = self.place;
        self.skip_to(self.line.len())?;
        Some(self.from(start))
    }

    /// A sound piece has to be followed by something that ends it.
    #[inline]
    pub fn ending(&mut self) -> Option<()> {
        self.gap();
        matches!(self.next(), None | Some(b';' | b'}' | b'#')).then_some(())
    }

    /// Whether a name starts here, as far as it's plain.
    #[inline]
    pub fn starts_a_name(&self) -> bool {
        matches!(self.next(), Some(b'a'..=b'z' | b'A'..=b'Z' | b'_'))
    }

    /// A name of plain letters, digits and underscores.
    pub fn name(&mut self) -> Option<Span> {
        let start = self.place;
        if !self.starts_a_name() {
            return None;
        }
        self.name_parts()?;
        Some(self.from(start))
    }

    /// What goes on a name; `None` where a letter follows that isn't a plain one, or may be.
    #[inline]
    pub fn name_parts(&mut self) -> Option<()> {
        while self.next().is_some_and(|byte| byte.is_ascii_alphanumeric() || byte == b'_') {
            self.place += 1;
        }
        // Of all that isn't ASCII only what units and tolerances end with is known here.
        self.next().is_none_or(|byte| byte.is_ascii() || self.sees_mark()).then_some(())
    }

    /// Whether `±`, `²`, `³` or `°` comes next.
    #[inline]
    fn sees_mark(&self) -> bool {
        self.next() == Some(0xC2) && matches!(self.ahead(1), Some(0xB0..=0xB3))
    }

    /// A text with its quotes.
    pub fn string(&mut self) -> Option<Span> {
        let start = self.place;
        self.sign(b'"')?;
        let rest = self.line.as_bytes().get(self.place..)?;
        let length = rest.iter().position(|byte| *byte == b'"')?;
        self.skip_to(self.place + length + 1)?;
        Some(self.from(start))
    }

    /// Go over digits; how many there were. They go on a number, which doesn't mean anything once it has grown too
    /// large.
    #[inline]
    pub fn digits(&mut self, number: &mut u64) -> usize {
        let start = self.place;
        while let Some(digit @ b'0'..=b'9') = self.next() {
            *number = number.wrapping_mul(10).wrapping_add(u64::from(digit - b'0'));
            self.place += 1;
        }
        self.place - start
    }

    /// A whole number with nothing behind it that goes on a number or a name.
    pub fn whole(&mut self) -> Option<Span> {
        let start = self.place;
        self.digits(&mut 0);
        self.next()
            .is_none_or(|byte| byte.is_ascii() && byte != b'.' && !byte.is_ascii_alphanumeric() && byte != b'_')
            .then(|| self.from(start))
    }
}
