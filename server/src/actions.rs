//! `textDocument/codeAction`: the fixes that findings offer, and what else may be done where the cursor stands.

use crate::diagnostics::diagnostic;
use crate::edit::workspace_edit;
use crate::view::View;
use finwright_assist::{actions, allow, measured_block, Action, ActionKind};
use finwright_checks::rule::Concern;
use finwright_checks::{rule, Edit, Finding, Fix};
use lsp_types::*;

/// Allowing a finding mends nothing, so it's no quick fix.
const ALLOW: CodeActionKind = CodeActionKind::new("refactor.allow");

/// The fixes of all findings that the range touches, and what may be done there.
pub fn answer(view: &View, range: Range, context: &CodeActionContext) -> CodeActionResponse {
    if !view.terms.actions {
        return Vec::new();
    }
    let mut found = Vec::new();
    if is_wanted(context, &CodeActionKind::QUICKFIX) {
        found.extend(fixes(view, range));
    }
    if is_wanted(context, &ALLOW) {
        found.extend(allowances(view, range));
    }
    found.extend(others(view, range, context));
    // Everything that can be mended at once is asked for by its name, or by whoever opens the whole list.
    let whole_list = context.only.is_none() && context.trigger_kind != Some(CodeActionTriggerKind::AUTOMATIC);
    let by_name = context.only.as_ref().is_some_and(|only| {
        only.iter().any(|kind| *kind != CodeActionKind::EMPTY && covers(kind, &CodeActionKind::SOURCE_FIX_ALL))
    });
    if whole_list || by_name {
        found.extend(fix_all(view, if by_name { 1 } else { 2 }));
    }
    found
}

/// What isn't about a finding.
fn others(view: &View, range: Range, context: &CodeActionContext) -> Vec<CodeActionOrCommand> {
    let Ok(analysis) = &view.analysis else { return Vec::new() };
    let offset = view.offset(range.start);
    let mut all: Vec<Action> = actions(analysis, offset);
    let block = measured_block(analysis, offset);
    all.extend(block.map(|fix| Action { fix, kind: ActionKind::Insert, is_tried: false }));
    let wanted = all.into_iter().filter(|action| is_wanted(context, &kind(action.kind)));
    let tried = wanted.filter(|action| !action.is_tried || view.does_no_harm(&action.fix));
    tried.filter_map(|action| refactoring(view, &action)).collect()
}

fn kind(kind: ActionKind) -> CodeActionKind {
    match kind {
        ActionKind::Insert => CodeActionKind::REFACTOR,
        ActionKind::Extract => CodeActionKind::REFACTOR_EXTRACT,
        ActionKind::Inline => CodeActionKind::REFACTOR_INLINE,
        ActionKind::Rewrite => CodeActionKind::REFACTOR_REWRITE,
    }
}

fn refactoring(view: &View, action: &Action) -> Option<CodeActionOrCommand> {
    Some(CodeActionOrCommand::CodeAction(CodeAction {
        edit: Some(workspace_edit(view, &action.fix)?),
        title: action.fix.title.clone(),
        kind: Some(kind(action.kind)),
        ..CodeAction::default()
    }))
}

/// The findings that a range touches.
fn touched(view: &View, range: Range) -> impl Iterator<Item = &Finding> {
    let (start, end) = (view.offset(range.start), view.offset(range.end));
    view.findings().iter().filter(move |finding| {
        let span = view.shown_at(finding).range();
        span.start <= end && start <= span.end
    })
}

fn fixes(view: &View, range: Range) -> CodeActionResponse {
    let mut found = Vec::new();
    for finding in touched(view, range) {
        let fixes = view.fixes(finding);
        let only = fixes.len() == 1;
        for fix in fixes {
            if let Some(edit) = workspace_edit(view, fix) {
                found.push(CodeActionOrCommand::CodeAction(CodeAction {
                    title: format!("{}{}", fix.title, where_else(view, fix)),
                    kind: Some(CodeActionKind::QUICKFIX),
                    diagnostics: Some(vec![diagnostic(view, finding)]),
                    edit: Some(edit),
                    is_preferred: only.then_some(true),
                    ..CodeAction::default()
                }));
            }
        }
    }
    found
}

/// The other files that a fix changes, for its title: what they hold may be others' too.
fn where_else(view: &View, fix: &Fix) -> String {
    let others = fix.edits.iter().map(|edit| edit.place.file).filter(|file| file.0 != 0);
    let name = |file| {
        let path = view.source(file)?.uri.as_ref()?.path_segments()?.next_back()?.to_string();
        Some(path)
    };
    let mut names: Vec<String> = others.filter_map(name).collect();
    names.dedup();
    if names.is_empty() {
        String::new()
    } else {
        format!(", in {}", names.join(" and "))
    }
}

/// A remark for each finding that its author may allow.
fn allowances(view: &View, range: Range) -> CodeActionResponse {
    let Ok(analysis) = &view.analysis else { return Vec::new() };
    let one = |finding: &Finding| {
        let fix = allow(analysis, finding)?;
        Some(CodeActionOrCommand::CodeAction(CodeAction {
            edit: Some(workspace_edit(view, &fix)?),
            title: fix.title,
            kind: Some(ALLOW),
            diagnostics: Some(vec![diagnostic(view, finding)]),
            ..CodeAction::default()
        }))
    };
    touched(view, range).filter_map(one).collect()
}

/// All slips of the pen at once: where it's plain what was meant, and only there. What a design should be is for its
/// author to choose.
fn fix_all(view: &View, at_least: usize) -> Option<CodeActionOrCommand> {
    let mut edits: Vec<Edit> = Vec::new();
    let mut count = 0;
    let slips: Vec<&Finding> = view.findings().iter().filter(|finding| is_slip(finding)).collect();
    for finding in slips.iter().filter(|_| slips.len() >= at_least) {
        let [fix] = view.fixes(finding)[..] else { continue };
        let over = |new: &Edit| {
            edits.iter().any(|old| {
                old.place.file == new.place.file
                    && new.place.span.start <= old.place.span.end
                    && old.place.span.start <= new.place.span.end
            })
        };
        if !fix.edits.iter().any(over) {
            edits.extend(fix.edits.iter().cloned());
            count += 1;
        }
    }
    let title = if count == 1 {
        "mend the slip in this file".to_string()
    } else {
        format!("mend all {count} slips in this file")
    };
    let fix = Fix { title, edits };
    let edit = workspace_edit(view, &fix).filter(|_| count >= at_least)?;
    Some(CodeActionOrCommand::CodeAction(CodeAction {
        title: fix.title,
        kind: Some(CodeActionKind::SOURCE_FIX_ALL),
        edit: Some(edit),
        ..CodeAction::default()
    }))
}

fn is_slip(finding: &Finding) -> bool {
    rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words)
}

/// Whether the client asks for a kind, or for everything.
fn is_wanted(context: &CodeActionContext, kind: &CodeActionKind) -> bool {
    context.only.as_ref().is_none_or(|kinds| kinds.iter().any(|asked| covers(asked, kind)))
}

/// Whether a kind is the one that is asked for, or a narrower one.
fn covers(asked: &CodeActionKind, kind: &CodeActionKind) -> bool {
    let rest = kind.as_str().strip_prefix(asked.as_str());
    *asked == CodeActionKind::EMPTY || rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}
