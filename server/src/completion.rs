//! `textDocument/completion` and `completionItem/resolve`.

use crate::near::files_near;
use crate::view::View;
use finwright_assist::{completion, documentation, About, Completion, CompletionKind};
use lsp_types::*;
use serde::{Deserialize, Serialize};

/// What an offer is about, sent along with it and back when somebody takes a closer look.
#[derive(Serialize, Deserialize)]
struct Data {
    uri: Url,
    about: About,
}

/// What may be written at the position, in the order in which it's likely. A list that would open by itself stays
/// closed where the text may go on without any of it.
pub fn answer(view: &View, position: Position, context: Option<&CompletionContext>) -> Option<CompletionResponse> {
    let analysis = view.analysis.as_ref().ok()?;
    let near = |ending: &str| view.path().map_or(Vec::new(), |own| files_near(own, view.folders(), ending));
    let found = completion(analysis, view.offset(position), &near);
    let opens_itself = context.is_some_and(|context| context.trigger_character.as_deref() == Some(" "));
    if opens_itself && !found.due {
        return None;
    }
    let items = found.offers.into_iter().enumerate().map(|(rank, offer)| item(view, rank, offer));
    Some(CompletionResponse::Array(items.collect()))
}

/// The offer with what there is to say of it.
pub fn resolve(view: Option<&View>, markdown: bool, item: CompletionItem) -> CompletionItem {
    let analysis = view.and_then(|view| view.analysis.as_ref().ok());
    let words = data(&item).and_then(|data| documentation(analysis, &data.about));
    let documentation = words.map(|words| crate::words::documentation(markdown, words));
    CompletionItem { documentation, ..item }
}

/// The document that an offer was made for.
pub fn document(item: &CompletionItem) -> Option<Url> {
    Some(data(item)?.uri)
}

fn data(item: &CompletionItem) -> Option<Data> {
    serde_json::from_value(item.data.clone()?).ok()
}

fn item(view: &View, rank: usize, offer: Completion) -> CompletionItem {
    let terms = &view.terms;
    let snippet = offer.snippet.filter(|_| terms.snippets);
    let format = snippet.is_some().then_some(InsertTextFormat::SNIPPET);
    let mode = (snippet.is_some() && terms.adjusts_indentation).then_some(InsertTextMode::ADJUST_INDENTATION);
    let new_text = snippet.unwrap_or(offer.text);
    let edit = match terms.insert_or_replace {
        true => CompletionTextEdit::InsertAndReplace(InsertReplaceEdit {
            new_text,
            insert: view.range(offer.insert),
            replace: view.range(offer.replace),
        }),
        false => CompletionTextEdit::Edit(TextEdit { range: view.range(offer.replace), new_text }),
    };
    let detail = Some(offer.detail).filter(|detail| !detail.is_empty());
    let (label_details, detail) = match terms.label_details {
        true => (detail.map(|detail| CompletionItemLabelDetails { detail: None, description: Some(detail) }), None),
        false => (None, detail),
    };
    let data = Data { uri: view.uri.clone(), about: offer.about };
    CompletionItem {
        label: offer.label,
        label_details,
        kind: Some(kind(offer.kind)),
        detail,
        // Clients sort by text; the rank keeps our order.
        sort_text: Some(format!("{rank:04}")),
        insert_text_format: format,
        insert_text_mode: mode,
        text_edit: Some(edit),
        // An editor that knows this command opens the next list by itself.
        command: (offer.goes_on && terms.suggests_again).then(suggest_again),
        data: serde_json::to_value(data).ok(),
        ..CompletionItem::default()
    }
}

fn suggest_again() -> Command {
    Command { title: "what may follow".into(), command: "editor.action.triggerSuggest".into(), arguments: None }
}

fn kind(kind: CompletionKind) -> CompletionItemKind {
    match kind {
        CompletionKind::Block => CompletionItemKind::CLASS,
        CompletionKind::Field => CompletionItemKind::FIELD,
        CompletionKind::Word => CompletionItemKind::KEYWORD,
        CompletionKind::Name => CompletionItemKind::VARIABLE,
        CompletionKind::Unit => CompletionItemKind::UNIT,
        CompletionKind::Function => CompletionItemKind::FUNCTION,
        CompletionKind::Path => CompletionItemKind::FILE,
        CompletionKind::Rule => CompletionItemKind::CONSTANT,
    }
}
