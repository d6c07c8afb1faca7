//! Text laid out for a terminal: lines broken between words, hanging indents, and [`table`]s.
//!
//! Functions take the width that they have; [`columns`] and [`measure`] say what the reader's terminal offers.

mod joint;
pub mod table;
#[cfg(test)]
mod tests;

pub use joint::{joined, parted, whole};

use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

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

/// A text in lines no wider than `width`, the first one behind `first`, all others behind `rest`. A line break in the
/// text stays one. A number and its unit are one word, and a word that is wider than a line stays whole.
pub fn hanging(text: &str, first: &str, rest: &str, width: usize) -> String {
    let options = Options::new(width)
        .initial_indent(first)
        .subsequent_indent(rest)
        .break_words(false)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    parted(&textwrap::fill(&joined(text), options))
}

/// A text in lines no wider than `width`, all of them behind `indent`.
pub fn paragraph(text: &str, indent: &str, width: usize) -> String {
    hanging(text, indent, indent, width)
}
