//! Slips that people make on a line, each known by its looks, so that its true cause can be told.
//!
//! A slip says how the line is meant. That is read in its place, so that one slip costs one message; only the values
//! that the slip itself stands in stay unknown. Nothing is accepted by this: each slip is a problem of its line.

mod field;
mod header;
mod number;
mod place;
mod remark;
mod rows;
mod scan;
mod text;
mod value;

pub(crate) use remark::block_remark;

use crate::as_written::{read_as_written, Slips};
use crate::expression::{Expr, ExprKind};
use crate::line::LineRead;
use crate::piece::{Broken, Mended, Piece};
use crate::problem::{Problem, Replacement, UNREADABLE};
use crate::shift::Shift;
use crate::span::Span;
use crate::tree::{Item, Measure};
use std::ops::Range;

/// Every known slip.
pub(crate) const SLIPS: Slips = Slips { of_piece, of_rows };

/// A slip, with its places counted from the start of the text that it's in.
pub(crate) struct Slip {
    /// The cause.
    pub place: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What to write.
    pub help: String,
    /// What makes the text readable, in order; none where that can't be said.
    pub edits: Vec<(Range<usize>, String)>,
    /// What the edits do, as a command; none where it isn't sure that they are what is meant.
    pub title: Option<String>,
    /// Whether only marks are wrong, so that the values are what they say.
    pub marks_only: bool,
    /// Whether all from its start to the line's end is a remark.
    pub is_remark: bool,
}

impl Slip {
    /// A slip that is explained, with nothing offered.
    fn told(place: Range<usize>, message: impl Into<String>, help: impl Into<String>) -> Slip {
        let (message, help) = (message.into(), help.into());
        Slip { place, message, help, edits: Vec::new(), title: None, marks_only: false, is_remark: false }
    }

    /// With the edits that mend it, offered under a title.
    fn mended_by(mut self, title: impl Into<String>, edits: Vec<(Range<usize>, String)>) -> Slip {
        self.title = Some(title.into());
        self.edits = edits;
        self
    }

    /// Only marks are wrong.
    fn in_marks(mut self) -> Slip {
        self.marks_only = true;
        self
    }
}

/// The slip that a broken piece is, if it's a known one.
fn of_piece(broken: &Broken) -> Option<Mended> {
    let known: &[fn(&Broken) -> Option<Slip>] = if broken.opens {
        &[
            header::with_marks,
            header::like_in_other_words,
            header::word_of_several,
            header::names_joined,
            header::misnamed,
        ]
    } else if broken.is_field {
        &[
            header::opened_by_a_colon,
            text::without_quotes,
            field::parted_by_commas,
            value::list_without_brackets,
            value::points_in_brackets,
            field::without_stop,
            value::ends_with_a_mark,
            value::starts_with_a_mark,
            number::comma_in_number,
            number::space_in_number,
            number::unit_marks,
            number::look_alikes,
            value::not_known,
            place::in_other_words,
            number::measures_in_a_row,
            number::about,
            value::name_of_several_words,
            value::words_behind,
        ]
    } else {
        &[
            field::version,
            field::import,
            field::binding,
            text::key_in_quotes,
            field::bullet,
            field::lone_comma,
            field::equals,
            field::name_of_several_words,
            number::comma_in_number,
            number::unit_marks,
            number::look_alikes,
            field::without_colon,
            field::name_of_several_words_and_more,
        ]
    };
    known.iter().find_map(|known| mend(broken.text, broken.opens, known(broken)?))
}

/// The slip that rows without a list are, if it's a known one.
fn of_rows(text: &str) -> Option<Mended> {
    [rows::hyphen_in_name, rows::bullet, rows::remark].iter().find_map(|known| mend(text, false, known(text)?))
}

/// The slip of a whole line, if it's a known one: where it may go across what looks like several pieces.
pub(crate) fn of_line(line: &str) -> Option<Slip> {
    remark::of_another_language(line).or_else(|| text::in_curly_quotes(line))
}

/// The text as it's meant, read; `None` where the slip's edits don't make it readable, so that it's another slip.
fn mend(text: &str, opens: bool, slip: Slip) -> Option<Mended> {
    if slip.edits.is_empty() {
        return Some(Mended { problem: problem(text, slip), pieces: None });
    }
    let mut meant = edited(text, &slip.edits);
    if opens {
        meant.push_str(" {");
    }
    let mut read = read_as_written(&meant, None);
    let whole = read.problems.is_empty() && read.lost.is_empty();
    let (last, rest) = match read.pieces.split_last() {
        Some((last, rest)) if opens => (matches!(last, Piece::Header { .. }), rest),
        _ => (!opens, read.pieces.as_slice()),
    };
    // A slip of one piece neither opens nor closes another block.
    if !whole || !last || !rest.iter().all(|piece| matches!(piece, Piece::Statement { .. })) {
        return None;
    }
    put_back(&mut read, &slip, text.len());
    Some(Mended { problem: problem(text, slip), pieces: Some(read.pieces) })
}

/// Move what was read of the meant text to where it stands in the written one, and forget the values that are in doubt.
pub(crate) fn put_back(read: &mut LineRead, slip: &Slip, end: usize) {
    read.relocate(&|span| {
        let start = written_start(&slip.edits, span.start as usize).min(end);
        Span::new(start, written_end(&slip.edits, span.end as usize).min(end))
    });
    if !slip.marks_only {
        read.pieces.iter_mut().for_each(|piece| forget(piece, &slip.edits));
    }
}

/// The problem that a slip is, its places counted from the text's start.
pub(crate) fn problem(text: &str, slip: Slip) -> Problem {
    let span = |range: &Range<usize>| Span::new(range.start, range.end);
    let mut problem = Problem::new(UNREADABLE, span(&slip.place), slip.message, slip.help);
    if let (Some(title), Some((first, _)), Some((last, _))) = (slip.title, slip.edits.first(), slip.edits.last()) {
        // One edit from the first to the last, with what stands between them.
        let all = first.start..last.end;
        let inner: Vec<_> =
            slip.edits.iter().map(|(r, t)| (r.start - all.start..r.end - all.start, t.clone())).collect();
        let text = edited(text.get(all.clone()).unwrap_or(""), &inner);
        problem.replacement = Some(Replacement { title, span: span(&all), text });
    }
    problem
}

/// A text with edits made.
pub(crate) fn edited(text: &str, edits: &[(Range<usize>, String)]) -> String {
    let (mut out, mut done) = (String::with_capacity(text.len() + 8), 0);
    for (range, new) in edits {
        out.push_str(text.get(done..range.start).unwrap_or(""));
        out.push_str(new);
        done = range.end;
    }
    out + text.get(done..).unwrap_or("")
}

/// Where something that starts at an offset into the edited text starts in the written one. What starts inside of new
/// text starts where that stands; text that was taken out lies before what follows it.
fn written_start(edits: &[(Range<usize>, String)], offset: usize) -> usize {
    let mut grown = 0isize;
    for (range, new) in edits {
        let start = range.start.saturating_add_signed(grown);
        if offset < start {
            break;
        }
        if offset < start + new.len() {
            return range.start;
        }
        grown += new.len() as isize - range.len() as isize;
    }
    offset.saturating_add_signed(-grown)
}

/// The same for where something ends; text that was taken out lies behind what it follows.
fn written_end(edits: &[(Range<usize>, String)], offset: usize) -> usize {
    let mut grown = 0isize;
    for (range, new) in edits {
        let start = range.start.saturating_add_signed(grown);
        if offset <= start {
            break;
        }
        if offset < start + new.len() {
            return range.end;
        }
        grown += new.len() as isize - range.len() as isize;
    }
    offset.saturating_add_signed(-grown)
}

/// Forget a value that an edit lies in: which one is meant is a guess.
fn forget(piece: &mut Piece, edits: &[(Range<usize>, String)]) {
    let in_doubt = |span: Span| edits.iter().any(|(r, _)| r.start <= span.end as usize && span.start as usize <= r.end);
    match piece {
        Piece::Statement { item: Item::Field(field), opens }
            if field.value.as_ref().is_some_and(|value| in_doubt(value.span)) =>
        {
            field.value = None;
            *opens = false;
        }
        Piece::Statement { item: Item::Let(binding), .. } if in_doubt(binding.value.amount.span) => {
            binding.value = unknown(binding.value.amount.span);
        }
        _ => {}
    }
}

/// A value of which nothing is known: it has no terms, and computes to nothing.
pub(crate) fn unknown(span: Span) -> Measure {
    Measure { amount: Expr { span, kind: ExprKind::Sum(Vec::new()) }, tolerance: None, relation: None, height: None }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic)]
mod tests {
    use super::*;

    #[test]
    fn places_in_the_meant_text_are_found_in_the_written_one() {
        for (written, edits, word, expected) in [
            ("caliber = 3 mm", vec![(0..0, "let ".to_string())], "caliber", "caliber"),
            ("- length: 3 mm", vec![(0..2, String::new())], "length", "length"),
            ("length: 3 mm,", vec![(12..13, String::new())], "3 mm", "3 mm"),
            ("note: „x“; a: 1", vec![(6..9, "\"".to_string()), (10..13, "\"".to_string())], "\"x\"", "„x“"),
            ("note: „x“; a: 1", vec![(6..9, "\"".to_string()), (10..13, "\"".to_string())], "a", "a"),
            ("a: b c", vec![(3..6, "[b, c]".to_string())], "[b, c]", "b c"),
        ] {
            let meant = edited(written, &edits);
            let at = meant.find(word).unwrap_or_else(|| panic!("{word} in {meant}"));
            let range = written_start(&edits, at)..written_end(&edits, at + word.len());
            assert_eq!(written.get(range), Some(expected), "{written}");
        }
    }
}
