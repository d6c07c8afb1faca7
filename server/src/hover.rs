//! `textDocument/hover`.

use crate::view::View;
use crate::words::markup;
use lsp_types::{Hover, HoverContents, Position};

/// What to show at the position.
pub fn answer(view: &View, position: Position) -> Option<Hover> {
    let analysis = view.analysis.as_ref().ok()?;
    let hover = finwright_assist::hover(analysis, view.offset(position))?;
    #[cfg(feature = "pictures")]
    let drawn = (view.terms.pictures && view.terms.markdown).then(|| crate::hover_picture::of(analysis, hover.span));
    #[cfg(not(feature = "pictures"))]
    let drawn: Option<Option<String>> = None;
    let value = hover.markdown + &drawn.flatten().unwrap_or_default();
    Some(Hover {
        contents: HoverContents::Markup(markup(view.terms.markdown, value)),
        range: Some(view.range(hover.span)),
    })
}
