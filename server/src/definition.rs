//! `textDocument/definition` and `textDocument/documentHighlight`.

use crate::built_in::built_in;
use crate::view::View;
use finwright_assist::{is_built_in, Origin};
use finwright_grammar::FileId;
use lsp_types::*;

/// Where what is at the position comes from; the built-in catalogue opens as a file that can only be read.
pub fn answer(view: &View, position: Position) -> Option<GotoDefinitionResponse> {
    let analysis = view.analysis.as_ref().ok()?;
    let (_, origin) = finwright_assist::definition(analysis, view.offset(position))?;
    let location = match origin {
        Origin::Place(place) if is_built_in(place) => Location::new(built_in()?, view.range_in(place.file, place.span)),
        Origin::Place(place) => view.location(place)?,
        // What is open counts, whether or not it's saved.
        Origin::File(path) => match analysis.sources.iter().position(|source| source.path == path) {
            Some(file) => Location::new(view.source(FileId(file as u32))?.uri.clone()?, Range::default()),
            None => Location::new(path.exists().then(|| Url::from_file_path(path).ok())??, Range::default()),
        },
    };
    Some(GotoDefinitionResponse::Scalar(location))
}

/// The places of the document where the name at the position is meant.
pub fn highlights(view: &View, position: Position) -> Option<Vec<DocumentHighlight>> {
    let analysis = view.analysis.as_ref().ok()?;
    let target = finwright_assist::target(analysis, view.offset(position))?;
    let found = finwright_assist::references(&analysis.design.files, &target);
    let highlight = |reference: finwright_assist::Reference| DocumentHighlight {
        range: view.range(reference.span),
        kind: Some(match reference.is_given {
            true => DocumentHighlightKind::WRITE,
            false => DocumentHighlightKind::READ,
        }),
    };
    Some(found.into_iter().map(highlight).collect())
}
