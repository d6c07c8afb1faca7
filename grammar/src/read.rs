//! One line to pieces. Places count from the line's start; see [`crate::memo`] for where they are moved to their own.

use crate::expression::{at, expression, read_number, Expr, ExprKind};
use crate::line::{pieces, Rule};
use crate::parse::Piece;
use crate::problem::{too_many_brackets, unsound, word_too_many, Problem};
use crate::span::Span;
use crate::tree::{Element, Field, Item, Let, Measure, Relation, Toward, Value, ValueKind};
use pest::iterators::Pair;

/// A line taken to pieces.
#[derive(Clone, Debug, Default)]
pub(crate) struct LineRead {
    /// What stands on it.
    pub pieces: Vec<Piece>,
    /// Its comment.
    pub comments: Vec<Span>,
    /// What couldn't be read; one at most.
    pub problems: Vec<Problem>,
    /// Pieces of which not even the kind is known.
    pub lost: Vec<Span>,
    /// The block's first line that it is but for a brace.
    pub braceless: Option<Piece>,
}

/// Take a line, without its newline, to pieces.
pub(crate) fn read_line(line: &str) -> LineRead {
    let mut read = LineRead::default();
    let Some(pairs) = pieces(line) else {
        let span = Span::new(line.len() - line.trim_start().len(), line.trim_end().len());
        read.problems.push(too_many_brackets(span));
        read.lost.push(span);
        return read;
    };
    for pair in pairs {
        let span = at(0, &pair);
        match pair.as_rule() {
            Rule::comment => read.comments.push(span),
            Rule::stop => {}
            rule @ (Rule::partial | Rule::junk) => {
                let piece = pair.as_str().trim_end();
                let span = Span::new(span.start as usize, span.start as usize + piece.len());
                if read.problems.is_empty() {
                    read.problems.push(unsound(rule, piece, span));
                }
                if rule == Rule::junk {
                    read.lost.push(span);
                    read.pieces.push(Piece::Unread(span));
                    read.braceless = header_without_brace(piece, span);
                } else if let Some(name) = pair.into_inner().next() {
                    let field = Field { span, name: at(0, &name), value: None };
                    read.pieces.push(Piece::Statement { item: Item::Field(field), opens: false });
                }
            }
            _ => {
                let text = pair.as_str();
                match sound_piece(0, pair) {
                    Some(piece) => read.pieces.push(piece),
                    None if read.problems.is_empty() => read.problems.push(word_too_many(text, span)),
                    None => {}
                }
            }
        }
    }
    read
}

/// What is read as the first line of a block but for its brace: a block's word, perhaps with a name and a title.
fn header_without_brace(piece: &str, span: Span) -> Option<Piece> {
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

fn sound_piece(base: usize, pair: Pair<'_, Rule>) -> Option<Piece> {
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
            Piece::Rows { span, elements, closes }
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
        _ => {
            let extra = pair.clone().into_inner().last().filter(|p| matches!(p.as_rule(), Rule::string | Rule::number));
            match extra {
                None => ValueKind::Measure(measure(base, pair)),
                Some(extra) => {
                    let first = pair.into_inner().next()?;
                    let is_file = first.as_str() == "file";
                    let word = expression(base, first).as_name()?;
                    let place = at(base, &extra);
                    match extra.as_rule() {
                        Rule::number => ValueKind::Choice { word, number: (read_number(extra.as_str()), place) },
                        _ if is_file => ValueKind::File(place),
                        _ => return None,
                    }
                }
            }
        }
    };
    Some(Value { span, kind })
}

fn measure(base: usize, pair: Pair<'_, Rule>) -> Measure {
    let whole = at(base, &pair);
    let (mut amounts, mut relation) = (Vec::new(), None);
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::edge | Rule::side => relation = relation_of(base, part),
            _ => amounts.push(expression(base, part)),
        }
    }
    let tolerance = if amounts.len() > 1 { amounts.pop() } else { None };
    let amount = amounts.pop().unwrap_or(Expr { span: whole, kind: ExprKind::Sum(Vec::new()) });
    Measure { amount, tolerance, relation }
}

fn relation_of(base: usize, pair: Pair<'_, Rule>) -> Option<Relation> {
    let span = at(base, &pair);
    let mut toward = Toward::From;
    let mut names = Vec::new();
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::direction => toward = if part.as_str() == "ahead" { Toward::Ahead } else { Toward::Behind },
            _ => names.push(at(base, &part)),
        }
    }
    Some(Relation { span, toward, anchor: *names.first()?, edge: names.get(1).copied() })
}

fn element(base: usize, pair: Pair<'_, Rule>) -> Element {
    let span = at(base, &pair);
    let is_place = pair.clone().into_inner().any(|part| matches!(part.as_rule(), Rule::edge | Rule::side));
    if is_place {
        let place = measure(base, pair);
        return Element { span, first: place.amount.clone(), second: None, place: Some(place) };
    }
    let mut sides = pair.into_inner().map(|side| expression(base, side));
    let first = sides.next().unwrap_or(Expr { span, kind: ExprKind::Sum(Vec::new()) });
    Element { span, first, second: sides.next(), place: None }
}
