//! What couldn't be read: where, why, and what to write instead.

use crate::span::Span;

/// Something that couldn't be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The rule that it's reported under.
    pub rule: &'static str,
    /// Where.
    pub span: Span,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: String,
    /// Another place that belongs to it, with a few words.
    pub label: Option<(Span, &'static str)>,
    /// An edit that mends it, where it's sure what was meant.
    pub replacement: Option<Replacement>,
}

/// Replace the text at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Replacement {
    /// What the edit does, as a command.
    pub title: String,
    /// What is replaced; an empty span inserts.
    pub span: Span,
    /// The new text.
    pub text: String,
}

impl Problem {
    /// A problem with a message and help, and nothing else yet.
    pub(crate) fn new(rule: &'static str, span: Span, message: impl Into<String>, help: impl Into<String>) -> Problem {
        Problem { rule, span, message: message.into(), help: help.into(), label: None, replacement: None }
    }
}

/// A line that isn't made of statements.
pub const UNREADABLE: &str = "syntax/unreadable-line";
/// A field without a value.
pub const MISSING_VALUE: &str = "syntax/missing-value";
/// A block whose closing brace is missing.
pub const UNCLOSED_BLOCK: &str = "syntax/unclosed-block";
/// A closing brace without a block, or an opening one without a header.
pub const STRAY_BRACE: &str = "syntax/stray-brace";
/// A list whose bracket is missing.
pub const UNCLOSED_LIST: &str = "syntax/unclosed-list";
/// Blocks or brackets inside one another beyond reason.
pub const TOO_DEEP: &str = "syntax/too-deep";
