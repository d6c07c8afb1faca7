//! One line to pieces by the grammar, as it's meant. Places count from the line's start; see [`crate::memo`] for where
//! they are moved to their own.

use crate::as_written::read_as_written;
use crate::line::LineRead;
use crate::slip::{self, Slip, SLIPS};
use std::borrow::Cow;

/// Take a line, without its newline, to pieces. A known slip is told by its cause, and read as it's meant.
pub(crate) fn read_line(line: &str) -> LineRead {
    let read = read_as_written(line, Some(&SLIPS));
    if read.problems.is_empty() {
        return read;
    }
    slip::of_line(line).and_then(|slip| meant(line, slip)).unwrap_or(read)
}

/// A line's text as it's read: without what is a remark elsewhere, with straight quotes.
pub(crate) fn text_as_meant(line: &str) -> Cow<'_, str> {
    if read_as_written(line, Some(&SLIPS)).problems.is_empty() {
        return Cow::Borrowed(line);
    }
    match slip::of_line(line) {
        Some(slip) if slip.is_remark => Cow::Borrowed(line.get(..slip.place.start).unwrap_or(line)),
        Some(slip) => {
            let meant = slip::edited(line, &slip.edits);
            if read_as_written(&meant, None).problems.is_empty() {
                Cow::Owned(meant)
            } else {
                Cow::Borrowed(line)
            }
        }
        None => Cow::Borrowed(line),
    }
}

/// A whole line as it's meant.
fn meant(line: &str, slip: Slip) -> Option<LineRead> {
    let mut read = if slip.is_remark {
        // What stands before a remark is read with its own slips.
        read_as_written(line.get(..slip.place.start)?, Some(&SLIPS))
    } else {
        let mut read = read_as_written(&slip::edited(line, &slip.edits), None);
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
