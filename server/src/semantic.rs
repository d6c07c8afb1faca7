//! `textDocument/semanticTokens`: what each word is, of the whole text or of a stretch.

use crate::view::View;
use finwright_assist::{colours, Colour, ColourKind};
use lsp_types::*;

const TYPES: [(ColourKind, SemanticTokenType); 10] = [
    (ColourKind::Remark, SemanticTokenType::COMMENT),
    (ColourKind::Keyword, SemanticTokenType::KEYWORD),
    (ColourKind::Block, SemanticTokenType::CLASS),
    (ColourKind::Field, SemanticTokenType::PROPERTY),
    (ColourKind::Listed, SemanticTokenType::ENUM_MEMBER),
    (ColourKind::Name, SemanticTokenType::VARIABLE),
    (ColourKind::Function, SemanticTokenType::FUNCTION),
    (ColourKind::Number, SemanticTokenType::NUMBER),
    (ColourKind::Unit, SemanticTokenType::TYPE),
    (ColourKind::Text, SemanticTokenType::STRING),
];

/// What is offered.
pub fn offered() -> SemanticTokensOptions {
    SemanticTokensOptions {
        legend: SemanticTokensLegend {
            token_types: TYPES.map(|(_, kind)| kind).into(),
            token_modifiers: vec![SemanticTokenModifier::DECLARATION],
        },
        full: Some(SemanticTokensFullOptions::Bool(true)),
        range: Some(true),
        work_done_progress_options: WorkDoneProgressOptions::default(),
    }
}

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
