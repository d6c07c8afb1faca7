//! `textDocument/hover`.

use crate::view::View;
use crate::words::markup;
use lsp_types::{Hover, HoverContents, Position};

/// What to show at the position.
pub fn answer(view: &View, position: Position) -> Option<Hover> {
    let analysis = view.analysis.as_ref().ok()?;
    let hover = finwright_assist::hover(analysis, view.offset(position))?;
    Some(Hover {
        contents: HoverContents::Markup(markup(view.terms.markdown, hover.markdown)),
        range: Some(view.range(hover.span)),
    })
}
