//! `textDocument/hover`.

use crate::view::View;
use lsp_types::{Hover, HoverContents, MarkupContent, MarkupKind, Position};

/// What to show at the position.
pub fn answer(view: &View, position: Position) -> Option<Hover> {
    let analysis = view.analysis.as_ref().ok()?;
    let hover = finwright_assist::hover(analysis, view.offset(position))?;
    let kind = match view.terms.markdown {
        true => MarkupKind::Markdown,
        false => MarkupKind::PlainText,
    };
    Some(Hover {
        contents: HoverContents::Markup(MarkupContent { kind, value: hover.markdown }),
        range: Some(view.range(hover.span)),
    })
}
