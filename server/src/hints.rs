//! `textDocument/inlayHint`: numbers between the words.

use crate::view::View;
use finwright_assist::{Hint, HintKind};
use lsp_types::*;

/// The numbers of a stretch of text, those of them that the user wants to see.
pub fn answer(view: &View, range: Range) -> Option<Vec<InlayHint>> {
    let analysis = view.analysis.as_ref().ok()?;
    let options = view.options();
    let wanted = |kind| match kind {
        HintKind::Station => options.stations,
        HintKind::Mass => options.masses,
        HintKind::Value => options.values,
    };
    let (start, end) = (view.offset(range.start), view.offset(range.end));
    let shown = finwright_assist::hints(analysis)
        .into_iter()
        .filter(|hint| wanted(hint.kind) && (start..=end).contains(&hint.offset));
    let hint = |hint: Hint| InlayHint {
        position: view.position(hint.offset),
        label: InlayHintLabel::String(hint.text),
        kind: None,
        text_edits: None,
        tooltip: Some(InlayHintTooltip::String("computed, not measured".into())),
        padding_left: Some(true),
        padding_right: None,
        data: None,
    };
    Some(together(shown).into_iter().map(hint).collect())
}

/// Numbers at one place are one hint, with a point between them.
fn together(hints: impl Iterator<Item = Hint>) -> Vec<Hint> {
    let mut found: Vec<Hint> = Vec::new();
    for hint in hints {
        match found.last_mut().filter(|last| last.offset == hint.offset) {
            Some(last) => last.text = format!("{} · {}", last.text, hint.text),
            None => found.push(hint),
        }
    }
    found
}
