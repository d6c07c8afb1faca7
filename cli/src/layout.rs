//! The widths that the reader's terminal offers to what is laid out.

pub use finwright_layout::{flowing, hanging, joined, paragraph, parted, table, whole};

/// How many columns standard output has: those of the terminal, 80 where there is none.
pub fn columns() -> usize {
    // Only where the text goes to counts: with a pipe there, the terminal in which the command was typed says nothing.
    let size = terminal_size::terminal_size_of(std::io::stdout());
    size.map_or(80, |(width, _)| usize::from(width.0).max(LEAST))
}

/// How many columns prose takes: longer lines than a hundred are hard to follow, however wide the window is.
pub fn measure() -> usize {
    columns().min(100)
}

/// Below this nothing can be laid out; the terminal breaks the lines as it likes.
const LEAST: usize = 30;
