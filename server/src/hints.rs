//! `textDocument/inlayHint`: numbers between the words.

use crate::view::View;
use finwright_assist::HintKind;
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
    let hint = |hint: finwright_assist::Hint| InlayHint {
        position: view.position(hint.offset),
        label: InlayHintLabel::String(hint.text),
        kind: None,
        text_edits: None,
        tooltip: Some(InlayHintTooltip::String("computed, not measured".into())),
        padding_left: Some(true),
        padding_right: None,
        data: None,
    };
    Some(shown.map(hint).collect())
}
