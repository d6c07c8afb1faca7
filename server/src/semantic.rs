//! `textDocument/semanticTokens`: what each word is, of the whole text or of a stretch.

use crate::legend::TYPES;
use crate::view::View;
use finwright_assist::{colours, Colour};
use lsp_types::*;

/// The words of the whole text, or of those lines that a range touches.
pub fn answer(view: &View, range: Option<Range>) -> Option<SemanticTokens> {
    let tree = view.analysis.as_ref().ok()?.tree()?;
    let (start, end) = match range {
        Some(range) => (view.offset(range.start), view.offset(range.end)),
        None => (0, tree.text.len()),
    };
    let inside = |colour: &Colour| colour.span.range().start <= end && start <= colour.span.range().end;
    let mut data = Vec::new();
    let mut last = Position::default();
    for colour in colours(tree).into_iter().filter(inside) {
        let range = view.range(colour.span);
        // What was taken for one word and isn't on one line has no colour.
        if range.start.line != range.end.line {
            continue;
        }
        let delta_line = range.start.line - last.line;
        let delta_start = if delta_line == 0 { range.start.character - last.character } else { range.start.character };
        data.push(SemanticToken {
            delta_line,
            delta_start,
            length: range.end.character - range.start.character,
            token_type: TYPES.iter().position(|(kind, _)| *kind == colour.kind).unwrap_or(0) as u32,
            token_modifiers_bitset: u32::from(colour.defines),
        });
        last = range.start;
    }
    Some(SemanticTokens { result_id: None, data })
}
