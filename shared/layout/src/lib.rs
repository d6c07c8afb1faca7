//! Text laid out in lines: broken between words, hanging indents, and [`table`]s. Breaking lines is `textwrap`'s; what
//! is ours is what mustn't be parted, and which columns give way.
//!
//! Functions take the width that they have.

mod joint;
pub mod table;
#[cfg(test)]
mod tests;

pub use joint::{joined, parted, whole};

use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

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

/// A text whose paragraphs are parted by empty lines, each of them in one line, to be broken anew.
pub fn flowing(text: &str) -> String {
    let paragraphs = text.trim().split("\n\n");
    paragraphs
        .map(|lines| lines.split('\n').map(str::trim).collect::<Vec<_>>().join(" "))
        .collect::<Vec<_>>()
        .join("\n\n")
}

/// Pieces in lines no wider than `width`, broken between pieces only: the first line behind `first`, all others behind
/// `rest`.
pub fn pieces(pieces: &[String], first: &str, rest: &str, width: usize) -> String {
    let pieces: Vec<String> = pieces.iter().map(|piece| whole(piece)).collect();
    hanging(&pieces.join(" "), first, rest, width)
}
