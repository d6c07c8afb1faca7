//! Edits for the client: by document, each with the version that it was made for.

use crate::terms::Terms;
use crate::view::View;
use finwright_checks::Fix;
use finwright_grammar::FileId;
use lsp_types::*;
use std::collections::{BTreeMap, HashMap};

/// A document's edits, with its version where it's open.
pub type DocumentEdits = (Url, Option<i32>, Vec<TextEdit>);

/// The edits of a fix by document; nothing when one of them would be in a text that is built in, since half a fix is
/// none.
pub fn workspace_edit(view: &View, fix: &Fix) -> Option<WorkspaceEdit> {
    let mut by_file: BTreeMap<FileId, Vec<TextEdit>> = BTreeMap::new();
    for edit in &fix.edits {
        let range = view.range_in(edit.place.file, edit.place.span);
        by_file.entry(edit.place.file).or_default().push(TextEdit::new(range, edit.text.clone()));
    }
    let mut documents = Vec::new();
    for (file, edits) in by_file {
        let source = view.source(file)?;
        documents.push((source.uri.clone()?, source.version, edits));
    }
    Some(of_documents(&view.terms, documents))
}

/// Edits of several documents as one.
pub fn of_documents(terms: &Terms, documents: Vec<DocumentEdits>) -> WorkspaceEdit {
    match terms.versioned_edits {
        true => versioned(documents),
        false => plain(documents),
    }
}

fn versioned(documents: Vec<DocumentEdits>) -> WorkspaceEdit {
    let edit = |(uri, version, edits): DocumentEdits| TextDocumentEdit {
        text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
        edits: edits.into_iter().map(OneOf::Left).collect(),
    };
    WorkspaceEdit {
        document_changes: Some(DocumentChanges::Edits(documents.into_iter().map(edit).collect())),
        ..WorkspaceEdit::default()
    }
}

fn plain(documents: Vec<DocumentEdits>) -> WorkspaceEdit {
    let changes: HashMap<_, _> = documents.into_iter().map(|(uri, _, edits)| (uri, edits)).collect();
    WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }
}
