//! Sums, products, numbers and units.

use super::cursor::Cursor;
use crate::expression::{read_number, Expr, ExprKind, Row};
use crate::span::Span;

/// A sum, or what a sum of one is.
pub(super) fn sum(at: &mut Cursor) -> Option<Expr> {
    let first = factor(at)?;
    let Some(operator) = operator(at) else { return Some(first) };
    let mut row = Row::starting_with(first);
    let mut operator = Some(operator);
    while let Some(sign) = operator {
        row.push(sign, factor(at)?);
        operator = self::operator(at);
    }
    Some(row.finish())
}

/// An operator with the gaps around it; without one, nothing is taken.
fn operator(at: &mut Cursor) -> Option<u8> {
    let start = at.place;
    at.gap();
    match at.next() {
        Some(sign @ (b'*' | b'/' | b'-' | b'+')) if !at.sees(b"+/-") => {
            at.place += 1;
            at.gap();
            Some(sign)
        }
        _ => {
            at.place = start;
            None
        }
    }
}

fn factor(at: &mut Cursor) -> Option<Expr> {
    let start = at.place;
    let mut negative = false;
    while matches!(at.next(), Some(b'-' | b'+')) && !at.sees(b"+/-") {
        negative ^= at.next() == Some(b'-');
        at.place += 1;
        at.gap();
    }
    let value = operand(at)?;
    if !negative {
        return Some(value);
    }
    Some(Expr { span: at.from(start), kind: ExprKind::Negative(Box::new(value)) })
}

fn operand(at: &mut Cursor) -> Option<Expr> {
    match at.next()? {
        b'0'..=b'9' | b'.' => quantity(at),
        b'(' => {
            let start = at.place;
            at.bracket(b'(')?;
            at.gap();
            let inner = sum(at)?;
            at.gap();
            at.sign(b')')?;
            Some(Expr { span: at.from(start), ..inner })
        }
        _ => named(at),
    }
}

/// A name, a path of names, or a function with its arguments.
fn named(at: &mut Cursor) -> Option<Expr> {
    let start = at.place;
    let mut name = at.name()?;
    let mut path = Vec::new();
    while at.next() == Some(b'.') {
        if path.is_empty() {
            path.push(name);
        }
        at.place += 1;
        name = at.name()?;
        path.push(name);
    }
    let end = at.place;
    at.gap();
    if at.next() == Some(b'(') {
        at.bracket(b'(')?;
        let arguments = arguments(at)?;
        return Some(Expr { span: at.from(start), kind: ExprKind::Call { name, arguments } });
    }
    at.place = end;
    if path.is_empty() {
        path = vec![name];
    }
    Some(Expr { span: at.from(start), kind: ExprKind::Path(path) })
}

/// A function's arguments from behind the opening bracket, with the closing one.
fn arguments(at: &mut Cursor) -> Option<Vec<Expr>> {
    let mut found = Vec::new();
    at.gap();
    while at.next() != Some(b')') {
        found.push(sum(at)?);
        at.gap();
        if at.next() != Some(b')') {
            at.sign(b',')?;
            at.gap();
            // A comma has to be followed by an argument.
            if at.next() == Some(b')') {
                return None;
            }
        }
    }
    at.place += 1;
    Some(found)
}

/// A number with its unit, if it has one.
fn quantity(at: &mut Cursor) -> Option<Expr> {
    let start = at.place;
    let number = number(at)?;
    let end = at.place;
    at.gap();
    let unit = unit(at)?;
    if unit.is_none() {
        at.place = end;
    }
    Some(Expr { span: at.from(start), kind: ExprKind::Quantity { number, unit } })
}

/// A decimal number or a fraction, perhaps a mixed one: `1 1/2`.
pub(super) fn number(at: &mut Cursor) -> Option<f64> {
    let start = at.place;
    let mut digits = 0;
    let whole = at.digits(&mut digits);
    if whole > 0 {
        if at.next() == Some(b'/') && matches!(at.ahead(1), Some(b'0'..=b'9')) {
            return fraction(at, start);
        }
        let spaces = spaces_of_mixed(at);
        if spaces > 0 {
            at.place += spaces;
            at.digits(&mut 0);
            at.sign(b'/')?;
            return (at.digits(&mut 0) > 0).then(|| read_number(at.text(start)));
        }
    }
    let mut behind = 0;
    if at.next() == Some(b'.') {
        at.place += 1;
        behind = at.digits(&mut digits);
        if whole + behind == 0 {
            return None;
        }
    }
    if matches!(at.next(), Some(b'e' | b'E')) {
        // Whether it's an exponent or a unit.
        let signed = usize::from(matches!(at.ahead(1), Some(b'+' | b'-')));
        if matches!(at.ahead(1 + signed), Some(b'0'..=b'9')) {
            at.place += 1 + signed;
            at.digits(&mut 0);
            return Some(read_number(at.text(start)));
        }
    }
    // So few digits, and the power of ten that they are parted by, are exact; their quotient is the nearest number, as
    // the library's own reading gives it.
    match POWERS.get(behind) {
        Some(power) if whole + behind < POWERS.len() => Some(digits as f64 / power),
        _ => Some(read_number(at.text(start))),
    }
}

const POWERS: [f64; 16] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

fn fraction(at: &mut Cursor, start: usize) -> Option<f64> {
    at.place += 1;
    at.digits(&mut 0);
    if at.next() == Some(b'.') {
        return None;
    }
    Some(read_number(at.text(start)))
}

/// How many spaces part a whole number from a digit, as in `1 1/2`; none where anything else follows.
fn spaces_of_mixed(at: &Cursor) -> usize {
    let spaces = (0..).take_while(|by| at.ahead(*by) == Some(b' ')).count();
    if matches!(at.ahead(spaces), Some(b'0'..=b'9')) {
        spaces
    } else {
        0
    }
}

/// A unit; `Some(None)` where none stands here, `None` where there may be one that isn't plain.
fn unit(at: &mut Cursor) -> Option<Option<Span>> {
    let start = at.place;
    if !unit_atom(at)? {
        return Some(None);
    }
    while matches!(at.next(), Some(b'/' | b'.' | b'*')) {
        let before = at.place;
        at.place += 1;
        if !unit_atom(at)? {
            at.place = before;
            break;
        }
    }
    // A point in the middle joins units too.
    if at.sees("·".as_bytes()) {
        return None;
    }
    Some(Some(at.from(start)))
}

fn unit_atom(at: &mut Cursor) -> Option<bool> {
    let plain = match (at.next(), at.ahead(1)) {
        (Some(b'g'..=b'z' | b'c'..=b'e' | b'A'..=b'Z'), _) => 1,
        (Some(b'f'), Some(b'a'..=b'q' | b's'..=b'z')) => 2,
        (Some(b'a'), Some(b'a'..=b'g' | b'i'..=b'z')) => 2,
        (Some(b'b'), Some(b'a'..=b'd' | b'f'..=b'z')) => 2,
        (Some(b'%'), _) => {
            at.place += 1;
            return Some(true);
        }
        (Some(0xC2), Some(0xB0)) => {
            at.place += 2;
            at.place += usize::from(matches!(at.next(), Some(b'C' | b'F')));
            return Some(true);
        }
        (Some(0xC2), Some(0xB1)) => return Some(false),
        (Some(0xC2), Some(0xB5)) => 2,
        (Some(byte), _) if !byte.is_ascii() => return None,
        _ => return Some(false),
    };
    at.place += plain;
    at.name_parts()?;
    match (at.next(), at.ahead(1)) {
        (Some(b'^'), Some(b'1'..=b'9')) | (Some(0xC2), Some(0xB2 | 0xB3)) => at.place += 2,
        _ => {}
    }
    Some(true)
}
