//! What a word can be, in the protocol's terms, in the order in which tokens number it.

use finwright_assist::ColourKind;
use lsp_types::*;

/// Each kind of word with the protocol's type for it.
pub const TYPES: [(ColourKind, SemanticTokenType); 10] = [
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
