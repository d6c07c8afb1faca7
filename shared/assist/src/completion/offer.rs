//! One thing that may be written, and how it takes its place in the text.

use super::document::About;
use crate::cursor::{is_word, Cursor};
use finwright_grammar::Span;

/// One thing that may be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Completion {
    /// What is shown and typed against.
    pub label: String,
    /// What is written.
    pub text: String,
    /// The same with stops for the cursor, `$1` and on, where it has any.
    pub snippet: Option<String>,
    /// What it takes the place of where nothing is to be overwritten: what is typed of it.
    pub insert: Span,
    /// What it takes the place of otherwise: the whole word.
    pub replace: Span,
    /// A few words beside the label.
    pub detail: String,
    /// What it is about, for a closer look.
    pub about: About,
    /// What kind of thing it is.
    pub kind: CompletionKind,
    /// Whether something else may follow at once, so that a list may open again.
    pub goes_on: bool,
}

/// Kinds of things that may be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CompletionKind {
    /// A block's word.
    Block,
    /// A field's word.
    Field,
    /// A word of a choice, or of the grammar.
    Word,
    /// A name that is defined somewhere.
    Name,
    /// A unit.
    Unit,
    /// A function.
    Function,
    /// A file's path.
    Path,
    /// A rule's name.
    Rule,
}

/// One thing that may be written, wherever that is.
#[derive(Clone, Debug)]
pub(super) struct Offer {
    pub label: String,
    pub text: String,
    pub snippet: Option<String>,
    pub detail: String,
    pub about: About,
    pub kind: CompletionKind,
    pub goes_on: bool,
}

impl Offer {
    pub fn new(kind: CompletionKind, label: &str, text: impl Into<String>) -> Offer {
        let (label, text) = (label.to_string(), text.into());
        Offer { label, text, snippet: None, detail: String::new(), about: About::Nothing, kind, goes_on: false }
    }

    pub fn word(word: &str, doc: &str) -> Offer {
        Offer { about: About::Words(doc.to_string()), ..Offer::new(CompletionKind::Word, word, word) }
    }

    pub fn path(path: &str, text: String) -> Offer {
        Offer::new(CompletionKind::Path, path, text)
    }

    pub fn detail(mut self, detail: impl Into<String>) -> Offer {
        self.detail = detail.into();
        self
    }

    pub fn about(mut self, about: About) -> Offer {
        self.about = about;
        self
    }

    pub fn goes_on(mut self) -> Offer {
        self.goes_on = true;
        self
    }
}

/// The offers that fit what is typed of the word, those that begin with it first, each with its place in the text.
pub(super) fn fitting(cursor: &Cursor, offers: Vec<Offer>, from: Option<usize>) -> Vec<Completion> {
    let whole = match from {
        Some(start) => Span::new(start, quoted_end(cursor)),
        None => cursor.word(),
    };
    let typed = cursor.text.get(whole.range().start..cursor.offset).unwrap_or_default().to_lowercase();
    let behind = cursor.text.get(cursor.offset..whole.range().end).unwrap_or_default();
    let bare = cursor.text.get(..whole.range().start).is_some_and(|before| before.ends_with(':'));
    let (mut first, mut others) = (Vec::new(), Vec::new());
    for offer in offers {
        let label = offer.label.to_lowercase();
        if !follows(&label, &typed) {
            continue;
        }
        let begins = label.starts_with(&typed);
        // Where what stands behind the cursor is the offer's own end, there is nothing to keep of it.
        let is_own_end = behind.is_empty() || offer.label.ends_with(behind);
        let insert = if is_own_end { whole } else { Span::new(whole.range().start, cursor.offset) };
        let space = if bare && from.is_none() { " " } else { "" };
        let completion = Completion {
            label: offer.label,
            text: format!("{space}{}", offer.text),
            snippet: offer.snippet.map(|snippet| format!("{space}{snippet}")),
            insert,
            replace: whole,
            detail: offer.detail,
            about: offer.about,
            kind: offer.kind,
            goes_on: offer.goes_on,
        };
        if begins {
            first.push(completion)
        } else {
            others.push(completion)
        }
    }
    first.append(&mut others);
    first
}

/// Where the quoted text that the cursor is in ends.
fn quoted_end(cursor: &Cursor) -> usize {
    let after = cursor.text.get(cursor.offset..).unwrap_or_default();
    let end = after.find(|c: char| !(is_word(c) || "./-".contains(c))).unwrap_or(after.len());
    cursor.offset + end
}

/// Whether the letters of what is typed stand in a label in their order.
fn follows(label: &str, typed: &str) -> bool {
    let mut rest = label.chars();
    typed.chars().all(|letter| rest.any(|other| other == letter))
}
