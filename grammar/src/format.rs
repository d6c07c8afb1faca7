//! The one style: how a design file is laid out.
//!
//! A line stays a line, and what shares a line goes on sharing it; what changes is the white space. Blocks indent by
//! two, `name: value` and operators take one space, at most one empty line stands between two lines. Blocks of one line
//! under each other with the same word have their braces under each other; where their author began a table, it's kept
//! as one. A remark behind a line stays in its column, and those of neighbouring lines share one.
//!
//! Lines that can't be read stay as they are, byte for byte. Where braces don't balance the indentation says what
//! belongs where, so that it stays too.

mod align;
mod lines;
mod spell;

use crate::parse::LARGEST_FILE;
use lines::{read, Line};

/// The text in the one style: the same design, the same comments in the same order. Formatting twice changes nothing
/// more.
///
/// A file that is too large to be read stays as it is.
pub fn format(text: &str) -> String {
    let mut formatted = text.to_string();
    if text.len() > LARGEST_FILE {
        return formatted;
    }
    for _ in 0..MOST_PASSES {
        let next = layout(&formatted);
        if next == formatted {
            break;
        }
        formatted = next;
    }
    formatted
}

/// One pass settles a sound file. In a damaged one a line that stays as it is can hold a remark's neighbour in its old
/// column, and the columns come to rest a pass later; the limit keeps a text that never rests from holding up an
/// editor.
const MOST_PASSES: usize = 4;

fn layout(text: &str) -> String {
    let newline = first_newline(text);
    let mut lines = without_spare_empties(read(text));
    align::blocks(&mut lines);
    align::remarks(&mut lines);
    let mut out = String::with_capacity(text.len() + text.len() / 8);
    if text.starts_with(BYTE_ORDER_MARK) && !lines.first().is_some_and(Line::is_marked) {
        out.push(BYTE_ORDER_MARK);
    }
    for line in &lines {
        line.write(&mut out);
        out.push_str(newline);
    }
    out
}

/// The lines with one empty line at most between two, and none at either end of the file or of a block.
fn without_spare_empties(lines: Vec<Line<'_>>) -> Vec<Line<'_>> {
    let mut kept: Vec<Line<'_>> = Vec::with_capacity(lines.len());
    let mut empty = false;
    for line in lines {
        if matches!(line, Line::Empty) {
            empty = true;
            continue;
        }
        let inside = kept.last().is_some_and(|above| !above.opens()) && !line.closes();
        // A misplaced byte order mark must not come to stand where one belongs.
        if std::mem::take(&mut empty) && (inside || line.is_marked()) {
            kept.push(Line::Empty);
        }
        kept.push(line);
    }
    kept
}

const BYTE_ORDER_MARK: char = '\u{FEFF}';

/// The first newline of the text decides for all.
fn first_newline(text: &str) -> &'static str {
    match text.find(['\n', '\r']).map(|at| &text[at..]) {
        Some(rest) if rest.starts_with("\r\n") => "\r\n",
        Some(rest) if rest.starts_with('\r') => "\r",
        _ => "\n",
    }
}
