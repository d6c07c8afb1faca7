//! Plain lines, read by hand. `finwright.pest` says what the language is; this reads the lines that designs are mostly
//! made of many times faster, and leaves every line in which it isn't sure of each character to the grammar. Tests hold
//! the two to the same pieces.
//!
//! Whatever is tried here is tried in the grammar's order, and nothing is tried twice: where the first way in fails, so
//! does the line.

mod arithmetic;
mod cursor;
mod value;

use crate::piece::Piece;
use crate::span::Span;
use crate::tree::{Field, Item, Let};
use cursor::Cursor;

/// Take a line that starts at `base` in its file to pieces, and find its comment. `None` where the line isn't plain;
/// then there are no more pieces than before.
pub(crate) fn read_plain(line: &str, base: u32, pieces: &mut Vec<Piece>) -> Option<Option<Span>> {
    let before = pieces.len();
    let comment = taken_to_pieces(Cursor::new(line, base), pieces);
    if comment.is_none() {
        pieces.truncate(before);
    }
    comment
}

fn taken_to_pieces(mut at: Cursor, pieces: &mut Vec<Piece>) -> Option<Option<Span>> {
    loop {
        at.gap();
        let start = at.place;
        match at.next() {
            None => return Some(None),
            Some(b'#') => return at.comment().map(Some),
            Some(b';') => at.place += 1,
            Some(b'}') => {
                at.place += 1;
                pieces.push(Piece::Close(at.from(start)));
            }
            Some(b']') => {
                at.place += 1;
                pieces.push(Piece::ListEnd(at.from(start)));
            }
            Some(b'0'..=b'9' | b'.') => {
                pieces.push(value::rows(&mut at)?);
                at.ending()?;
            }
            _ => pieces.push(statement(&mut at)?),
        }
    }
}

/// A piece that starts with a word.
fn statement(at: &mut Cursor) -> Option<Piece> {
    let start = at.place;
    let name = at.name()?;
    let spaced = at.gap();
    match at.next()? {
        b':' => {
            at.place += 1;
            at.gap();
            let (value, opens) = value::value(at)?;
            let field = Field { span: Span { start: name.start, end: value.span.end }, name, value: Some(value) };
            at.ending()?;
            Some(Piece::Statement { item: Item::Field(field), opens })
        }
        b'{' => header(at, start, name, false),
        b'"' if spaced && at.is(name, "use") => {
            let path = at.string()?;
            at.gap();
            if at.next() == Some(b'{') {
                at.place += 1;
                let span = at.from(start);
                return Some(Piece::Header { span, word: name, name: None, like: None, title: Some(path) });
            }
            at.ending()?;
            Some(Piece::Statement { item: Item::Use { span: name.to(path), path }, opens: false })
        }
        b'"' => header(at, start, name, false),
        b'0'..=b'9' if spaced && at.is(name, "finwright") => {
            let number = at.whole()?;
            at.ending()?;
            Some(Piece::Statement { item: Item::Version { span: name.to(number), number }, opens: false })
        }
        b'a'..=b'z' | b'A'..=b'Z' | b'_' if at.is(name, "let") => binding(at, name),
        b'a'..=b'z' | b'A'..=b'Z' | b'_' => header(at, start, name, true),
        _ => None,
    }
}

/// `let name = value`, from its name on.
fn binding(at: &mut Cursor, word: Span) -> Option<Piece> {
    let name = at.name()?;
    at.gap();
    at.sign(b'=')?;
    at.gap();
    let value = value::plain_measure(at)?;
    let span = at.from((word.start - at.base) as usize);
    at.ending()?;
    Some(Piece::Statement { item: Item::Let(Let { span, name, value }), opens: false })
}

/// A block's first line from behind its word and the gap there.
fn header(at: &mut Cursor, start: usize, word: Span, named: bool) -> Option<Piece> {
    let (mut name, mut like) = (None, None);
    if named {
        let first = at.name()?;
        let mut likeness = at.is(first, "like");
        if !likeness {
            name = Some(first);
            if at.gap() && at.starts_a_name() {
                at.name().filter(|second| at.is(*second, "like"))?;
                likeness = true;
            }
        }
        if likeness {
            if !at.gap() {
                return None;
            }
            like = Some(at.name()?);
        }
        at.gap();
    }
    let title = if at.next() == Some(b'"') { Some(at.string()?) } else { None };
    at.gap();
    at.sign(b'{')?;
    Some(Piece::Header { span: at.from(start), word, name, like, title })
}
