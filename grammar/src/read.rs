//! One line to pieces. Places count from the line's start; see [`crate::memo`] for where they are moved to their own.

use crate::expression::{at, expression, read_number, Expr, ExprKind};
use crate::line::{pieces, Rule};
use crate::parse::Piece;
use crate::problem::{too_many_brackets, unsound, word_too_many, Problem};
use crate::shift::Shift;
use crate::slip::{self, Broken, Slip};
use crate::span::Span;
use crate::tree::{Element, Field, Item, Let, Measure, Relation, Toward, Value, ValueKind};
use pest::iterators::Pair;
use std::borrow::Cow;

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

/// Take a line, without its newline, to pieces. A known slip is told by its cause, and read as it's meant.
pub(crate) fn read_line(line: &str) -> LineRead {
    let read = read(line, true);
    if read.problems.is_empty() {
        return read;
    }
    slip::of_line(line).and_then(|slip| meant(line, slip)).unwrap_or(read)
}

/// A line's text as it's read: without what is a remark elsewhere, with straight quotes.
pub(crate) fn text_as_meant(line: &str) -> Cow<'_, str> {
    if read(line, true).problems.is_empty() {
        return Cow::Borrowed(line);
    }
    match slip::of_line(line) {
        Some(slip) if slip.is_remark => Cow::Borrowed(line.get(..slip.place.start).unwrap_or(line)),
        Some(slip) => {
            let meant = slip::edited(line, &slip.edits);
            if read_plainly(&meant).problems.is_empty() {
                Cow::Owned(meant)
            } else {
                Cow::Borrowed(line)
            }
        }
        None => Cow::Borrowed(line),
    }
}

/// Take a text to pieces as it stands, without looking for what it may be meant to be.
pub(crate) fn read_plainly(text: &str) -> LineRead {
    read(text, false)
}

/// A whole line as it's meant.
fn meant(line: &str, slip: Slip) -> Option<LineRead> {
    let mut read = if slip.is_remark {
        // What stands before a remark is read with its own slips.
        read(line.get(..slip.place.start)?, true)
    } else {
        let mut read = read_plainly(&slip::edited(line, &slip.edits));
        slip::put_back(&mut read, &slip, line.len());
        // With another slip on the line, what is meant by it can't be told.
        if !read.problems.is_empty() {
            return None;
        }
        read
    };
    if read.problems.is_empty() {
        read.problems.push(slip::problem(line, slip));
    }
    Some(read)
}

fn read(line: &str, mends: bool) -> LineRead {
    let mut read = LineRead::default();
    let Some(pairs) = pieces(line) else {
        let span = Span::new(line.len() - line.trim_start().len(), line.trim_end().len());
        read.problems.push(too_many_brackets(span));
        read.lost.push(span);
        return read;
    };
    let mut pairs = pairs.peekable();
    while let Some(pair) = pairs.next() {
        match pair.as_rule() {
            Rule::comment => read.comments.push(at(0, &pair)),
            Rule::stop => {}
            Rule::partial | Rule::junk => {
                let next = pairs.peek().map(Pair::as_rule);
                // The brace belongs to the header that the piece is meant to be.
                if broken(&mut read, pair, next, mends) {
                    pairs.next();
                }
            }
            Rule::rows => read.pieces.extend(rows(pair, mends)),
            _ => match sound_piece(0, pair.clone()) {
                Some(piece) => read.pieces.push(piece),
                None => {
                    let next = pairs.peek().map(Pair::as_rule);
                    broken(&mut read, pair, next, mends);
                }
            },
        }
    }
    read
}

/// A piece that isn't sound, before a piece of a rule. Tells whether that piece has been taken with it.
fn broken(read: &mut LineRead, pair: Pair<'_, Rule>, next: Option<Rule>, mends: bool) -> bool {
    let piece = pair.as_str().trim_end();
    let start = pair.as_span().start();
    let span = Span::new(start, start + piece.len());
    let is_field = matches!(pair.as_rule(), Rule::partial | Rule::field);
    let broken =
        Broken { text: piece, is_field, opens: next == Some(Rule::brace), inside: start > 0, last: next.is_none() };
    if mends && read.problems.is_empty() {
        if let Some(mut mended) = slip::of_piece(&broken) {
            mended.problem.shift(span.start);
            read.problems.push(mended.problem);
            if let Some(mut pieces) = mended.pieces {
                pieces.shift(span.start);
                read.pieces.extend(pieces);
                return broken.opens;
            }
        }
    }
    if read.problems.is_empty() {
        let rule = pair.as_rule();
        let is_known = matches!(rule, Rule::partial | Rule::junk);
        read.problems.push(if is_known { unsound(rule, &broken, span) } else { word_too_many(piece, span) });
    }
    let name = pair.into_inner().next().filter(|_| is_field && !slip::opens_by_a_colon(piece));
    match name {
        Some(name) => {
            let field = Field { span, name: at(0, &name), value: None };
            read.pieces.push(Piece::Statement { item: Item::Field(field), opens: false });
        }
        None => {
            read.lost.push(span);
            read.pieces.push(Piece::Unread(span));
            read.braceless = header_without_brace(piece.trim_end_matches(':').trim_end(), span);
        }
    }
    false
}

/// Rows of a list, and what they are meant to be if no list is open.
fn rows(pair: Pair<'_, Rule>, mends: bool) -> Option<Piece> {
    let (text, start) = (pair.as_str(), pair.as_span().start() as u32);
    let mut piece = sound_piece(0, pair)?;
    if let (Piece::Rows { meant, .. }, true) = (&mut piece, mends) {
        *meant = slip::of_rows(text).and_then(|mended| {
            let (mut problem, mut pieces) = (mended.problem, mended.pieces?);
            problem.shift(start);
            pieces.shift(start);
            Some(Box::new((problem, pieces)))
        });
    }
    Some(piece)
}

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
            Rule::edge | Rule::side | Rule::moment => measure.relation = relation_of(base, part),
            Rule::height => measure.height = part.into_inner().next().map(|sum| expression(base, sum)),
            // Behind a tolerance or behind anything but a name, a number or a text goes with nothing.
            Rule::number | Rule::string if measure.tolerance.is_some() => return None,
            Rule::number => {
                let word = measure.amount.as_name()?;
                return Some(ValueKind::Choice { word, number: (read_number(part.as_str()), place) });
            }
            Rule::string => return is_file.then_some(ValueKind::File(place)),
            _ => measure.tolerance = Some(expression(base, part)),
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
            Rule::edge | Rule::side => measure.relation = relation_of(base, part),
            _ => measure.tolerance = Some(expression(base, part)),
        }
    }
    let first = measure.amount.clone();
    let place = measure.relation.is_some().then_some(measure);
    Element { span, first, second: None, place }
}
