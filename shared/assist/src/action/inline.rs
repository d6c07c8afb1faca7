//! A value in place of its name.

use super::edit;
use crate::references::{references, target};
use finwright_checks::{Analysis, Fix};
use finwright_grammar::{ExprKind, Item, Span, Tree};

/// Write a `let`'s value wherever its name stands: at the cursor alone, or everywhere and without the `let` for a cursor
/// on it.
pub(super) fn inline(analysis: &Analysis, tree: &Tree, offset: usize) -> Option<Fix> {
    let target = target(analysis, offset).filter(|target| target.word == "let")?;
    let own = analysis.design.files.first().filter(|file| file.path == target.path)?;
    let binding = own.tree.items.iter().find_map(|item| match item {
        Item::Let(binding) if binding.name == target.given => Some(binding),
        _ => None,
    })?;
    let amount = &binding.value.amount;
    // A tolerance belongs to the value as a whole: written twice it would count twice.
    if binding.value.tolerance.is_some() {
        return None;
    }
    let bare = matches!(amount.kind, ExprKind::Quantity { .. } | ExprKind::Path(_) | ExprKind::Call { .. });
    let text = |at: Span| match bare || stands_alone(tree, at) {
        true => tree.text(amount.span).to_string(),
        false => format!("({})", tree.text(amount.span)),
    };
    let found = references(&analysis.design.files, &target);
    let uses: Vec<Span> = found.iter().filter(|one| !one.is_given).map(|one| one.span).collect();
    if target.span != target.given {
        return Some(Fix {
            title: format!("write the value of `{}` here", target.name),
            edits: vec![edit(target.span, text(target.span))],
        });
    }
    let line = tree.lines.line_of(binding.span.range().start);
    let own_line = tree.lines.span(line);
    let alone = tree.text(own_line).trim() == tree.text(binding.span);
    let mut edits: Vec<_> = uses.iter().map(|span| edit(*span, text(*span))).collect();
    if !alone || edits.is_empty() {
        return None;
    }
    edits.push(edit(own_line, ""));
    Some(Fix { title: format!("write the value of `{}` wherever it stands", target.name), edits })
}

/// Whether a name is all of a value, so that what takes its place needs no brackets.
fn stands_alone(tree: &Tree, span: Span) -> bool {
    crate::definition::expressions_at(tree, span.range().start).iter().any(|expression| expression.span == span)
}
