//! `textDocument/references`, `textDocument/rename` and `workspace/willRenameFiles`: a name or a path in all designs of
//! the workspace.

use crate::edit::{of_documents, DocumentEdits};
use crate::survey::{Design, Workspace};
use crate::view::View;
use finwright_assist::{clash, moved_path, not_a_name, references, target, Target};
use finwright_disk::real_path;
use finwright_grammar::{parse_shared, Item, Span, Tree, ValueKind};
use finwright_model::beside;
use lsp_types::*;
use std::path::{Path, PathBuf};
use tower_lsp::jsonrpc::{Error, Result};

/// What the name at the position stands for.
pub fn target_at(view: &View, position: Position) -> Option<Target> {
    target(view.analysis.as_ref().ok()?, view.offset(position))
}

/// Everywhere that the target is meant.
pub fn answer(
    workspace: &Workspace,
    target: &Target,
    with_definition: bool,
    wanted: &(impl Fn() -> bool + Sync),
) -> Vec<Location> {
    workspace.search(&target.name, wanted, |design| {
        let found = references(&workspace.load(design), target);
        let shown = found.into_iter().filter(|reference| with_definition || !reference.is_given);
        shown.filter_map(|reference| workspace.location(design, reference.span)).collect()
    })
}

/// The name at the position, where it could be another one.
pub fn prepare(view: &View, position: Position) -> Result<Option<PrepareRenameResponse>> {
    let Some(target) = target_at(view, position) else { return Ok(None) };
    renamed(&target)?;
    let range = view.range(target.span);
    Ok(Some(PrepareRenameResponse::RangeWithPlaceholder { range, placeholder: target.name }))
}

/// The edits that give a target another name everywhere.
pub fn rename(
    workspace: &Workspace,
    target: &Target,
    new: &str,
    wanted: &(impl Fn() -> bool + Sync),
) -> Result<WorkspaceEdit> {
    renamed(target)?;
    if let Some(reason) = not_a_name(new) {
        return Err(refused(format!("`{new}` can't be a name: {reason}")));
    }
    let found: Vec<Result<DocumentEdits>> = workspace.search(&target.name, wanted, |design| {
        let files = workspace.load(design);
        let found = references(&files, target);
        if found.is_empty() {
            return Vec::new();
        }
        if let Some((path, span)) = clash(&files, target, new) {
            let line = files.first().map_or(0, |own| own.tree.lines.line_of(span.range().start)) + 1;
            let shown = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            return vec![Err(refused(format!("`{new}` is a name already, in line {line} of {shown}")))];
        }
        let edits = found.iter().map(|one| TextEdit::new(workspace.range(&design.text, one.span), new.to_string()));
        let edits = edits.collect();
        workspace.name(&design.path).map(|(uri, version)| Ok((uri, version, edits))).into_iter().collect()
    });
    Ok(of_documents(&workspace.terms, found.into_iter().collect::<Result<_>>()?))
}

fn renamed(target: &Target) -> Result<()> {
    match target.may_be_renamed {
        true => Ok(()),
        false if target.word == target.name => {
            Err(refused(format!("this {} has no name yet; write one behind its word", target.word)))
        }
        false => Err(refused(format!("`{}` is built in and keeps its name", target.name))),
    }
}

fn refused(message: String) -> Error {
    Error { message: message.into(), ..Error::invalid_params("") }
}

/// The edits that keep every path right when files or folders move: those that lead to them, and their own.
pub fn move_files(workspace: &Workspace, moves: &[(PathBuf, PathBuf)]) -> Option<WorkspaceEdit> {
    let moves: Vec<(PathBuf, PathBuf)> = moves.iter().map(|(from, to)| (real_path(from), to.clone())).collect();
    let after = |path: &Path| {
        let moved = moves.iter().find_map(|(from, to)| Some((to, path.strip_prefix(from).ok()?)));
        moved.map(|(to, rest)| if rest.as_os_str().is_empty() { to.clone() } else { to.join(rest) })
    };
    let documents = workspace.search("\"", &|| true, |design: &Design| {
        let tree = parse_shared(design.text.clone());
        let own = after(&design.path).unwrap_or_else(|| design.path.clone());
        let mut edits = Vec::new();
        for span in paths(&tree) {
            let there = beside(&design.path, tree.text(span));
            let now = after(&there).unwrap_or_else(|| there.clone());
            let new = moved_path(&own, &now);
            let moves = now != there || own != design.path;
            if let Some(new) =
                new.filter(|new| moves && beside(&own, tree.text(span)) != now && *new != tree.text(span))
            {
                edits.push(TextEdit::new(workspace.range(&design.text, span), new));
            }
        }
        let named = (!edits.is_empty()).then(|| workspace.name(&design.path)).flatten();
        named.map(|(uri, version)| (uri, version, edits)).into_iter().collect()
    });
    (!documents.is_empty()).then(|| of_documents(&workspace.terms, documents))
}

/// The paths in quotes of a text, without their quotes.
fn paths(tree: &Tree) -> Vec<Span> {
    let mut found = Vec::new();
    let mut waiting: Vec<&Item> = tree.items.iter().collect();
    while let Some(item) = waiting.pop() {
        match item {
            Item::Use { path, .. } => found.push(*path),
            Item::Block(block) => waiting.extend(&block.items),
            Item::Field(field) => {
                if let Some(ValueKind::File(path)) = field.value.as_ref().map(|value| &value.kind) {
                    found.push(*path);
                }
            }
            _ => {}
        }
    }
    found.retain(|span| span.len() > 2);
    found.iter().map(|span| Span { start: span.start + 1, end: span.end - 1 }).collect()
}
