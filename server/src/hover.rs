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
    #[cfg(feature = "pictures")]
    let drawn = view.terms.pictures.then(|| crate::hover_picture::of(analysis, hover.span)).flatten();
    #[cfg(not(feature = "pictures"))]
    let drawn: Option<String> = None;
    let value = hover.markdown + &drawn.filter(|_| view.terms.markdown).unwrap_or_default();
    Some(Hover { contents: HoverContents::Markup(MarkupContent { kind, value }), range: Some(view.range(hover.span)) })
}
