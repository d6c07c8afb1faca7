//! `textDocument/completion`.

use crate::view::View;
use finwright_assist::CompletionKind;
use lsp_types::*;

/// What may be written at the position, in the order in which it's likely.
pub fn answer(view: &View, position: Position) -> Option<CompletionResponse> {
    let analysis = view.analysis.as_ref().ok()?;
    let offers = finwright_assist::completion(analysis, view.offset(position));
    let items = offers.into_iter().enumerate().map(|(rank, offer)| CompletionItem {
        label: offer.label,
        kind: Some(kind(offer.kind)),
        detail: Some(offer.detail).filter(|d| !d.is_empty()),
        documentation: Some(Documentation::String(offer.doc)).filter(|d| *d != Documentation::String(String::new())),
        // Clients sort by text; the rank keeps our order.
        sort_text: Some(format!("{rank:04}")),
        text_edit: Some(CompletionTextEdit::Edit(TextEdit { range: view.range(offer.replace), new_text: offer.text })),
        ..CompletionItem::default()
    });
    Some(CompletionResponse::Array(items.collect()))
}

fn kind(kind: CompletionKind) -> CompletionItemKind {
    match kind {
        CompletionKind::Block => CompletionItemKind::CLASS,
        CompletionKind::Field => CompletionItemKind::FIELD,
        CompletionKind::Word => CompletionItemKind::KEYWORD,
        CompletionKind::Name => CompletionItemKind::VARIABLE,
        CompletionKind::Unit => CompletionItemKind::UNIT,
        CompletionKind::Function => CompletionItemKind::FUNCTION,
    }
}
