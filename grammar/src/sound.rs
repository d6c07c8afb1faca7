//! From the grammar's pairs to a sound piece. Places count from the line's start.

use crate::expression::{at, expression, read_number, Expr, ExprKind};
use crate::grammar::{pieces, Rule};
use crate::piece::Piece;
use crate::span::Span;
use crate::tree::{Element, Field, Item, Let, Measure, Relation, Toward, Value, ValueKind};
use pest::iterators::Pair;

/// What is read as the first line of a block but for its brace: a block's word, perhaps with a name and a title.
pub(crate) fn header_without_brace(piece: &str, span: Span) -> Option<Piece> {
    let with_brace = format!("{piece} {{");
    let header = pieces(&with_brace)?.next().filter(|pair| pair.as_rule() == Rule::header)?;
    match sound_piece(span.start as usize, header)? {
        Piece::Header { word, name, like, title, .. } => {
            let known = piece.get(..word.len()).is_some_and(|word| crate::vocabulary::block(word).is_some());
            known.then_some(Piece::Header { span, word, name, like, title })
        }
        _ => None,
    }
}

/// A piece that the grammar takes, if what it says goes together.
pub(crate) fn sound_piece(base: usize, pair: Pair<'_, Rule>) -> Option<Piece> {
    let span = at(base, &pair);
    Some(match pair.as_rule() {
        Rule::close => Piece::Close(span),
        Rule::brace => Piece::Brace(span),
        Rule::list_end => Piece::ListEnd(span),
        Rule::header => {
            let (mut names, mut like, mut title) = (Vec::new(), None, None);
            for part in pair.into_inner() {
                match part.as_rule() {
                    Rule::string => title = Some(at(base, &part)),
                    Rule::like => like = part.into_inner().next().map(|name| at(base, &name)),
                    _ => names.push(at(base, &part)),
                }
            }
            Piece::Header { span, word: *names.first()?, name: names.get(1).copied(), like, title }
        }
        Rule::rows => {
            let mut elements = Vec::new();
            let mut closes = false;
            for part in pair.into_inner() {
                match part.as_rule() {
                    Rule::list_end => closes = true,
                    _ => elements.push(element(base, part)),
                }
            }
            Piece::Rows { span, elements, closes, meant: None }
        }
        Rule::version => {
            let number = pair.into_inner().next().map_or(span, |n| at(base, &n));
            Piece::Statement { item: Item::Version { span, number }, opens: false }
        }
        Rule::import => {
            let path = pair.into_inner().next().map_or(span, |p| at(base, &p));
            Piece::Statement { item: Item::Use { span, path }, opens: false }
        }
        Rule::binding => {
            let mut inner = pair.into_inner();
            let name = at(base, &inner.next()?);
            let value = match value(base, inner.next()?)?.kind {
                ValueKind::Measure(measure) => measure,
                _ => return None,
            };
            Piece::Statement { item: Item::Let(Let { span, name, value }), opens: false }
        }
        Rule::field => {
            let mut inner = pair.into_inner();
            let name = at(base, &inner.next()?);
            let form = inner.next()?;
            let opens = form.as_rule() == Rule::opened;
            let value = value(base, form)?;
            Piece::Statement { item: Item::Field(Field { span, name, value: Some(value) }), opens }
        }
        _ => return None,
    })
}

/// A field's value; `None` for a measure with a word or number behind it that nothing goes with.
fn value(base: usize, pair: Pair<'_, Rule>) -> Option<Value> {
    let span = at(base, &pair);
    let kind = match pair.as_rule() {
        Rule::list | Rule::opened => ValueKind::List(pair.into_inner().map(|e| element(base, e)).collect()),
        Rule::string => ValueKind::Text(span),
        Rule::event => ValueKind::Event(pair.into_inner().next().map_or(span, |name| at(base, &name))),
        _ => measured(base, pair)?,
    };
    Some(Value { span, kind })
}

/// A measure, or a word with its number or its text.
fn measured(base: usize, pair: Pair<'_, Rule>) -> Option<ValueKind> {
    let mut parts = pair.into_inner();
    let first = parts.next()?;
    let is_file = first.as_str() == "file";
    let mut measure = Measure { amount: expression(base, first), tolerance: None, relation: None, height: None };
    for part in parts {
        let place = at(base, &part);
        match part.as_rule() {
            Rule::edge | Rule::side | Rule::moment => measure.relation = relation_of(base, part).map(Box::new),
            Rule::height => measure.height = part.into_inner().next().map(|sum| Box::new(expression(base, sum))),
            // Behind a tolerance or behind anything but a name, a number or a text goes with nothing.
            Rule::number | Rule::string if measure.tolerance.is_some() => return None,
            Rule::number => {
                let word = measure.amount.as_name()?;
                return Some(ValueKind::Choice { word, number: (read_number(part.as_str()), place) });
            }
            Rule::string => return is_file.then_some(ValueKind::File(place)),
            _ => measure.tolerance = Some(Box::new(expression(base, part))),
        }
    }
    Some(ValueKind::Measure(measure))
}

fn relation_of(base: usize, pair: Pair<'_, Rule>) -> Option<Relation> {
    let span = at(base, &pair);
    let mut toward = Toward::From;
    let mut names = Vec::new();
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::direction => toward = if part.as_str() == "ahead" { Toward::Ahead } else { Toward::Behind },
            Rule::order => toward = if part.as_str() == "above" { Toward::Above } else { Toward::After },
            _ => names.push(at(base, &part)),
        }
    }
    Some(Relation { span, toward, anchor: *names.first()?, edge: names.get(1).copied() })
}

fn element(base: usize, pair: Pair<'_, Rule>) -> Element {
    let span = at(base, &pair);
    let is_pair = pair.as_str().contains(':');
    let mut parts = pair.into_inner();
    let first = parts.next().map_or(Expr { span, kind: ExprKind::Sum(Vec::new()) }, |p| expression(base, p));
    if is_pair {
        return Element { span, first, second: parts.next().map(|p| expression(base, p)), place: None };
    }
    let mut measure = Measure { amount: first, tolerance: None, relation: None, height: None };
    for part in parts {
        match part.as_rule() {
            Rule::edge | Rule::side => measure.relation = relation_of(base, part).map(Box::new),
            _ => measure.tolerance = Some(Box::new(expression(base, part))),
        }
    }
    let first = measure.amount.clone();
    let place = measure.relation.is_some().then(|| Box::new(measure));
    Element { span, first, second: None, place }
}
