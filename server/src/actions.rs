//! `textDocument/codeAction`: the fixes that findings offer, and a block to write down what the bench says.

use crate::diagnostics::diagnostic;
use crate::view::View;
use finwright_assist::measured_block;
use finwright_checks::{Finding, Fix};
use finwright_grammar::FileId;
use lsp_types::*;
use std::collections::{BTreeMap, HashMap};

/// The fixes of all findings that the range touches, and what may be written there.
pub fn answer(view: &View, range: Range, context: &CodeActionContext) -> CodeActionResponse {
    if !view.terms.actions {
        return Vec::new();
    }
    let mut actions = Vec::new();
    if is_wanted(context, &CodeActionKind::QUICKFIX) {
        actions.extend(fixes(view, range));
    }
    if is_wanted(context, &CodeActionKind::REFACTOR) {
        actions.extend(measured(view, range));
    }
    actions
}

fn measured(view: &View, range: Range) -> Option<CodeActionOrCommand> {
    let fix = measured_block(view.analysis.as_ref().ok()?, view.offset(range.start))?;
    Some(CodeActionOrCommand::CodeAction(CodeAction {
        edit: Some(workspace_edit(view, &fix)?),
        title: fix.title,
        kind: Some(CodeActionKind::REFACTOR),
        ..CodeAction::default()
    }))
}

fn fixes(view: &View, range: Range) -> CodeActionResponse {
    let (start, end) = (view.offset(range.start), view.offset(range.end));
    let touched = |finding: &&Finding| {
        let span = view.shown_at(finding).range();
        span.start <= end && start <= span.end
    };
    let mut actions = Vec::new();
    for finding in view.findings().iter().filter(touched) {
        let fixes = view.fixes(finding);
        let only = fixes.len() == 1;
        for fix in fixes {
            if let Some(edit) = workspace_edit(view, fix) {
                actions.push(CodeActionOrCommand::CodeAction(CodeAction {
                    title: fix.title.clone(),
                    kind: Some(CodeActionKind::QUICKFIX),
                    diagnostics: Some(vec![diagnostic(view, finding)]),
                    edit: Some(edit),
                    is_preferred: only.then_some(true),
                    ..CodeAction::default()
                }));
            }
        }
    }
    actions
}

/// Whether the client asks for a kind, or for everything.
fn is_wanted(context: &CodeActionContext, kind: &CodeActionKind) -> bool {
    match &context.only {
        Some(kinds) => kinds.contains(kind) || kinds.contains(&CodeActionKind::EMPTY),
        None => true,
    }
}

/// The edits by document; nothing when one of them would be in a text that is built in, since half a fix is none.
fn workspace_edit(view: &View, fix: &Fix) -> Option<WorkspaceEdit> {
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
    Some(match view.terms.versioned_edits {
        true => versioned(documents),
        false => plain(documents),
    })
}

fn versioned(documents: Vec<(Url, Option<i32>, Vec<TextEdit>)>) -> WorkspaceEdit {
    let edit = |(uri, version, edits): (Url, Option<i32>, Vec<TextEdit>)| TextDocumentEdit {
        text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
        edits: edits.into_iter().map(OneOf::Left).collect(),
    };
    WorkspaceEdit {
        document_changes: Some(DocumentChanges::Edits(documents.into_iter().map(edit).collect())),
        ..WorkspaceEdit::default()
    }
}

fn plain(documents: Vec<(Url, Option<i32>, Vec<TextEdit>)>) -> WorkspaceEdit {
    let changes: HashMap<_, _> = documents.into_iter().map(|(uri, _, edits)| (uri, edits)).collect();
    WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }
}
