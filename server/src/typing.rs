//! Where somebody is typing: what isn't finished there is told more quietly until it's saved or left.

use crate::view::View;
use finwright_checks::rule::Concern;
use finwright_checks::rules::file::not_checked::NOT_CHECKED;
use finwright_checks::{rule, Analysis, Finding};
use finwright_grammar::{FileId, Span};
use lsp_types::TextDocumentContentChangeEvent;

/// More than this at once was pasted or chosen, and not typed.
const TYPED_AT_ONCE: usize = 2;

/// Whether a change is one of those that typing makes: a letter, or the end of a line with what an editor puts in
/// front of the next.
pub fn is_typed(change: &TextDocumentContentChangeEvent) -> bool {
    let Some(range) = change.range else { return false };
    let few = range.start.line == range.end.line
        && range.end.character.saturating_sub(range.start.character) <= TYPED_AT_ONCE as u32;
    few && (change.text.chars().count() <= TYPED_AT_ONCE || change.text.trim().is_empty())
}

/// Whether a finding is only about what isn't finished while somebody types: by itself; because it's about the words of
/// the line in which somebody is typing; because it stands in a block that is still open, or is about a flight whose
/// block is. While anything is, so is what can't be checked for it.
pub fn is_unfinished(view: &View, finding: &Finding) -> bool {
    let (Some(typing), Ok(analysis)) = (view.typing, &view.analysis) else { return false };
    let here = view.position(typing).line;
    let on_line = |span: Span| {
        let range = view.range(span);
        (range.start.line..=range.end.line).contains(&here)
    };
    let is_it = |other: &Finding| {
        other.unfinished
            || concerns_words(other) && on_line(view.shown_at(other))
            || is_in_open_block(analysis, view.shown_at(other))
            || flight_of(analysis, other).is_some_and(|header| is_in_open_block(analysis, header))
    };
    is_it(finding) || finding.rule == NOT_CHECKED.name && view.findings().iter().any(is_it)
}

fn concerns_words(finding: &Finding) -> bool {
    rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words)
}

/// Whether a place lies in a block whose brace hasn't come yet.
fn is_in_open_block(analysis: &Analysis, span: Span) -> bool {
    let blocks = analysis.tree().map(|tree| tree.blocks_at(span.range().start));
    blocks.is_some_and(|blocks| blocks.iter().any(|block| block.close.is_none()))
}

/// The header of the flight that a finding is about, where that stands in the document.
fn flight_of(analysis: &Analysis, finding: &Finding) -> Option<Span> {
    let header = analysis.design.flights.get(finding.flight?)?.header;
    (header.file == FileId(0)).then_some(header.span)
}
