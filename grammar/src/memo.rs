//! Lines that were read before. While someone types, all lines but one are as they were; remembering what was made of
//! each text of a line saves most of the time. What is remembered depends on nothing but the line, so that parsing
//! gives the same with and without it.

use crate::line::LineRead;
use crate::read::read_line;
use crate::shift::Shift;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// From now on remember lines on this thread. It's worth its memory where the same file is parsed again and again.
pub fn remember_lines() {
    MEMO.with_borrow_mut(|memo| {
        memo.get_or_insert_default();
    });
}

/// Whether this thread remembers lines: it's an editor's then, and has one file to read, again and again.
pub(crate) fn remembers() -> bool {
    MEMO.with_borrow(Option::is_some)
}

/// More lines than this aren't kept; then they are forgotten, all at once.
const MOST_LINES: usize = 20_000;

thread_local! {
    static MEMO: RefCell<Option<HashMap<Box<str>, Rc<LineRead>>>> = const { RefCell::new(None) };
}

/// A line taken to pieces, with its places counted from `base`, where the line starts in the file.
pub(crate) fn read_line_again(line: &str, base: u32) -> LineRead {
    let mut read = MEMO.with_borrow_mut(|memo| {
        let Some(memo) = memo else { return read_line(line) };
        if let Some(known) = memo.get(line) {
            return LineRead::clone(known);
        }
        if memo.len() >= MOST_LINES {
            memo.clear();
        }
        let read = read_line(line);
        memo.insert(Box::from(line), Rc::new(read.clone()));
        read
    });
    read.shift(base);
    read
}
