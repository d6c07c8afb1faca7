//! Where somebody is typing: what isn't finished there is told more quietly until it's saved or left.

use crate::view::View;
use finwright_checks::rule::Concern;
use finwright_checks::rules::file::not_checked::NOT_CHECKED;
use finwright_checks::{rule, Finding};
use lsp_types::TextDocumentContentChangeEvent;

/// More than this at once was pasted or chosen, and not typed.
const TYPED_AT_ONCE: usize = 2;

/// Whether a change is one of those that typing makes, and isn't the end of a line.
pub fn is_typed(change: &TextDocumentContentChangeEvent) -> bool {
    let Some(range) = change.range else { return false };
    let few = range.start.line == range.end.line && range.end.character - range.start.character <= TYPED_AT_ONCE as u32;
    few && change.text.chars().count() <= TYPED_AT_ONCE && !change.text.contains(['\n', '\r'])
}

/// Whether a finding is only about what isn't finished: by itself, or because it's about the words of the line in which
/// somebody is typing. While anything is, so is what can't be checked for it.
pub fn is_unfinished(view: &View, finding: &Finding) -> bool {
    let Some(typing) = view.typing else { return false };
    let is_here = |other: &Finding| {
        let line = view.range(view.shown_at(other));
        let here = view.position(typing).line;
        concerns_words(other) && (line.start.line..=line.end.line).contains(&here)
    };
    let is_it = |other: &Finding| other.unfinished || is_here(other);
    is_it(finding) || finding.rule == NOT_CHECKED.name && view.findings().iter().any(is_it)
}

fn concerns_words(finding: &Finding) -> bool {
    rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words)
}
