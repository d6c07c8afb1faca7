//! Editor knowledge without an editor: every feature takes an analysis and an offset and returns plain data.

use finwright_checks::Analysis;
use finwright_grammar::Span;

/// What a reader sees when the cursor rests on something.
#[derive(Clone, Debug, PartialEq)]
pub struct Hover {
    /// What the hover is about.
    pub span: Span,
    /// The text, in Markdown.
    pub markdown: String,
}

/// The hover at a byte offset of the analysed file.
pub fn hover(_analysis: &Analysis, _offset: usize) -> Option<Hover> {
    None
}
