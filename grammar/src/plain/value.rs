//! What stands behind a field's colon, and rows of a list.

use super::arithmetic::{number, sum};
use super::cursor::Cursor;
use crate::expression::Expr;
use crate::piece::Piece;
use crate::span::Span;
use crate::tree::{Element, Measure, Relation, Toward, Value, ValueKind};

/// A field's value, and whether it leaves a list open.
pub(super) fn value(at: &mut Cursor) -> Option<(Value, bool)> {
    let start = at.place;
    let (kind, opens) = match at.next()? {
        b'"' => (ValueKind::Text(at.string()?), false),
        b'[' => {
            at.bracket(b'[')?;
            at.gap();
            let (elements, closes) = elements(at)?;
            (ValueKind::List(elements), !closes)
        }
        b'a' if at.sees(b"at ") || at.sees(b"at\t") => {
            at.place += 2;
            at.gap();
            (ValueKind::Event(at.name()?), false)
        }
        _ => (measure(at)?, false),
    };
    Some((Value { span: at.from(start), kind }, opens))
}

/// Rows of a list that was opened on an earlier line. A dash in the first of them may be a slip.
pub(super) fn rows(at: &mut Cursor) -> Option<Piece> {
    let start = at.place;
    let (elements, closes) = elements(at)?;
    let span = at.from(start);
    let first = elements.first()?.span.len();
    if at.text(start).bytes().take(first).any(|byte| byte == b'-') {
        return None;
    }
    Some(Piece::Rows { span, elements, closes, meant: None })
}

/// Elements up to the bracket that ends them, which is taken, or up to the line's end.
fn elements(at: &mut Cursor) -> Option<(Vec<Element>, bool)> {
    // A row has a line of its own, mostly.
    let mut found = Vec::with_capacity(1);
    let mut end = at.place;
    while !matches!(at.next(), None | Some(b']' | b';' | b'}' | b'#')) {
        found.push(element(at)?);
        end = at.place;
        at.gap();
        if at.next() != Some(b',') {
            break;
        }
        at.place += 1;
        end = at.place;
        at.gap();
    }
    if at.next() == Some(b']') {
        at.place += 1;
        return Some((found, true));
    }
    at.place = end;
    Some((found, false))
}

fn element(at: &mut Cursor) -> Option<Element> {
    let start = at.place;
    let first = sum(at)?;
    let end = at.place;
    let mut spaced = at.gap();
    if at.next() == Some(b':') {
        at.place += 1;
        at.gap();
        let second = Some(sum(at)?);
        return Some(Element { span: at.from(start), first, second, place: None });
    }
    let tolerance = tolerance(at)?;
    if tolerance.is_some() {
        spaced = at.gap();
    }
    if spaced && at.starts_a_name() {
        let relation = Some(relation(at).filter(|relation| is_place(relation.toward))?);
        let place = Some(Box::new(Measure { amount: first.clone(), tolerance, relation, height: None }));
        return Some(Element { span: at.from(start), first, second: None, place });
    }
    if tolerance.is_some() {
        return None;
    }
    at.place = end;
    Some(Element { span: at.from(start), first, second: None, place: None })
}

fn is_place(toward: Toward) -> bool {
    matches!(toward, Toward::From | Toward::Ahead | Toward::Behind)
}

/// A measure without a word's number or text.
pub(super) fn plain_measure(at: &mut Cursor) -> Option<Measure> {
    match measure(at)? {
        ValueKind::Measure(measure) => Some(measure),
        _ => None,
    }
}

/// A measure, or a word with its number or its text.
fn measure(at: &mut Cursor) -> Option<ValueKind> {
    let start = at.place;
    let amount = sum(at)?;
    let written = at.from(start);
    let mut end = at.place;
    let mut spaced = at.gap();
    let tolerance = tolerance(at)?;
    if tolerance.is_some() {
        end = at.place;
        spaced = at.gap();
    }
    let (mut relation, mut height) = (None, None);
    match at.next() {
        Some(b'"') if spaced && tolerance.is_none() => {
            if !at.is(written, "file") {
                return None;
            }
            let path = at.string()?;
            return Some(ValueKind::File(path));
        }
        Some(b'0'..=b'9' | b'.') if spaced && tolerance.is_none() => {
            let word = amount.as_name()?;
            let start = at.place;
            let number = number(at)?;
            return Some(ValueKind::Choice { word, number: (number, at.from(start)) });
        }
        Some(b'a') if spaced && (at.sees(b"at ") || at.sees(b"at\t")) => {
            at.place += 2;
            at.gap();
            height = Some(Box::new(sum(at)?));
        }
        _ if spaced && at.starts_a_name() => relation = Some(self::relation(at)?),
        _ => at.place = end,
    }
    Some(ValueKind::Measure(Measure { amount, tolerance, relation, height }))
}

/// What follows `±`; `Some(None)` where no such sign stands here.
fn tolerance(at: &mut Cursor) -> Option<Option<Box<Expr>>> {
    let sign = if at.sees("±".as_bytes()) {
        "±".len()
    } else if at.sees(b"+/-") {
        "+/-".len()
    } else {
        return Some(None);
    };
    at.place += sign;
    at.gap();
    Some(Some(Box::new(sum(at)?)))
}

/// What a placement or a moment is relative to.
fn relation(at: &mut Cursor) -> Option<Box<Relation>> {
    let start = at.place;
    let word = at.name()?;
    let toward = [
        ("from", Toward::From),
        ("ahead", Toward::Ahead),
        ("behind", Toward::Behind),
        ("above", Toward::Above),
        ("after", Toward::After),
    ];
    let (_, toward) = toward.into_iter().find(|(said, _)| at.is(word, said))?;
    let mut anchor = gap_and_name(at)?;
    let mut edge = None;
    if matches!(toward, Toward::Ahead | Toward::Behind) && at.is(anchor, "of") {
        anchor = gap_and_name(at).filter(|name| !at.is(*name, "of"))?;
    }
    if toward == Toward::From && at.next() == Some(b'.') {
        at.place += 1;
        edge = Some(at.name()?);
    }
    Some(Box::new(Relation { span: at.from(start), toward, anchor, edge }))
}

fn gap_and_name(at: &mut Cursor) -> Option<Span> {
    if !at.gap() {
        return None;
    }
    at.name()
}
