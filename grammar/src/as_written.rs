//! One line to pieces by the grammar, as it stands. Places count from the line's start.

use crate::expression::at;
use crate::grammar::{pieces, Rule};
use crate::line::LineRead;
use crate::piece::{Broken, Mended, Piece};
use crate::shift::Shift;
use crate::sound::{header_without_brace, sound_piece};
use crate::span::Span;
use crate::tree::{Field, Item};
use crate::unsound::{too_many_brackets, unsound, word_too_many};
use crate::vocabulary::slips::block_with_a_colon;
use pest::iterators::Pair;

/// How known slips are told.
pub(crate) struct Slips {
    /// The slip that a broken piece is.
    pub of_piece: fn(&Broken) -> Option<Mended>,
    /// The slip that rows without a list are.
    pub of_rows: fn(&str) -> Option<Mended>,
}

/// Take a line, without its newline, to pieces as it stands. With the known slips at hand a broken piece is told by its
/// cause and read as it's meant.
pub(crate) fn read_as_written(line: &str, slips: Option<&Slips>) -> LineRead {
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
                if broken(&mut read, pair, next, slips) {
                    pairs.next();
                }
            }
            Rule::rows => read.pieces.extend(rows(pair, slips)),
            _ => match sound_piece(0, pair.clone()) {
                Some(piece) => read.pieces.push(piece),
                None => {
                    let next = pairs.peek().map(Pair::as_rule);
                    broken(&mut read, pair, next, slips);
                }
            },
        }
    }
    read
}

/// A piece that isn't sound, before a piece of a rule. Tells whether that piece has been taken with it.
fn broken(read: &mut LineRead, pair: Pair<'_, Rule>, next: Option<Rule>, slips: Option<&Slips>) -> bool {
    let piece = pair.as_str().trim_end();
    let start = pair.as_span().start();
    let span = Span::new(start, start + piece.len());
    let is_field = matches!(pair.as_rule(), Rule::partial | Rule::field);
    // A byte order mark isn't seen.
    let inside = !matches!(pair.get_input().get(..start), Some("" | "\u{FEFF}"));
    let broken = Broken { text: piece, is_field, opens: next == Some(Rule::brace), inside, last: next.is_none() };
    if let Some(slips) = slips.filter(|_| read.problems.is_empty()) {
        if let Some(mut mended) = (slips.of_piece)(&broken) {
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
    let name = pair.into_inner().next().filter(|_| is_field && block_with_a_colon(piece).is_none());
    match name {
        Some(name) => {
            let field = Field { span, name: at(0, &name), value: None };
            read.pieces.push(Piece::Statement { item: Item::Field(field), opens: false });
        }
        None => {
            read.lost.push(span);
            read.pieces.push(Piece::Unread(span));
            read.braceless = header_without_brace(piece.trim_end_matches(':').trim_end(), span).map(Box::new);
        }
    }
    false
}

/// Rows of a list, and what they are meant to be if no list is open.
fn rows(pair: Pair<'_, Rule>, slips: Option<&Slips>) -> Option<Piece> {
    let (text, start) = (pair.as_str(), pair.as_span().start() as u32);
    let mut piece = sound_piece(0, pair)?;
    if let (Piece::Rows { meant, .. }, Some(slips)) = (&mut piece, slips) {
        *meant = (slips.of_rows)(text).and_then(|mended| {
            let (mut problem, mut pieces) = (mended.problem, mended.pieces?);
            problem.shift(start);
            pieces.shift(start);
            Some(Box::new((problem, pieces)))
        });
    }
    Some(piece)
}
