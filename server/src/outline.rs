//! `textDocument/foldingRange`, `textDocument/selectionRange` and `textDocument/documentLink`.

use crate::view::View;
use finwright_assist::{folds, links, selections, FoldKind};
use lsp_types::*;

/// What folds.
pub fn folding(view: &View) -> Option<Vec<FoldingRange>> {
    let tree = view.analysis.as_ref().ok()?.tree()?;
    let fold = |fold: finwright_assist::Fold| FoldingRange {
        start_line: fold.first as u32,
        end_line: fold.last as u32,
        kind: match fold.kind {
            FoldKind::Block => None,
            FoldKind::Remarks => Some(FoldingRangeKind::Comment),
            FoldKind::Uses => Some(FoldingRangeKind::Imports),
        },
        ..FoldingRange::default()
    };
    Some(folds(tree).into_iter().map(fold).collect())
}

/// What a selection at each position grows to.
pub fn selection(view: &View, positions: &[Position]) -> Option<Vec<SelectionRange>> {
    let tree = view.analysis.as_ref().ok()?.tree()?;
    let grown = |position: &Position| {
        let spans = selections(tree, view.offset(*position));
        let outer = spans.into_iter().rev().fold(None, |parent: Option<SelectionRange>, span| {
            Some(SelectionRange { range: view.range(span), parent: parent.map(Box::new) })
        });
        outer.unwrap_or(SelectionRange { range: Range::new(*position, *position), parent: None })
    };
    Some(positions.iter().map(grown).collect())
}

/// Paths that lead to files.
pub fn document_links(view: &View) -> Option<Vec<DocumentLink>> {
    let analysis = view.analysis.as_ref().ok()?;
    let link = |link: finwright_assist::Link| {
        let target = Url::from_file_path(&link.path).ok()?;
        Some(DocumentLink { range: view.range(link.span), target: Some(target), tooltip: None, data: None })
    };
    Some(links(analysis).into_iter().filter_map(link).collect())
}
