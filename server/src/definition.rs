//! `textDocument/definition`.

use crate::view::View;
use lsp_types::{GotoDefinitionResponse, Position};

/// Where the name at the position is defined; the built-in catalogue has no place that an editor could open.
pub fn answer(view: &View, position: Position) -> Option<GotoDefinitionResponse> {
    let analysis = view.analysis.as_ref().ok()?;
    let (_, place) = finwright_assist::definition(analysis, view.offset(position))?;
    view.location(place).map(GotoDefinitionResponse::Scalar)
}
