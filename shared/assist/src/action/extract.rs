//! A name for a value.

use super::{edit, newline};
use crate::mention::{mentions, Meant};
use finwright_checks::{Analysis, Fix};
use finwright_grammar::vocabulary::{self, FieldKind};
use finwright_grammar::{ExprKind, Item, Span, Tree, ValueKind};

/// Name the value of the field under the cursor with a `let` above everything that could use it.
pub(super) fn extract(analysis: &Analysis, tree: &Tree, offset: usize) -> Option<Fix> {
    let block = *tree.blocks_at(offset).last()?;
    let field = block.fields().find(|field| field.span.touches(offset))?;
    let value = field.value.as_ref().filter(|value| value.span.touches(offset))?;
    let ValueKind::Measure(measure) = &value.kind else { return None };
    let kind = vocabulary::block(tree.text(block.word))?.field(tree.text(field.name))?.kind;
    let is_amount = matches!(kind, FieldKind::Quantity(_) | FieldKind::ChoiceOr(..) | FieldKind::AtHeight(_));
    // A name is named already, and what can't be computed has no value to name.
    let place = finwright_grammar::Place { file: finwright_grammar::FileId(0), span: value.span };
    if !is_amount || matches!(measure.amount.kind, ExprKind::Path(_)) || analysis.design.amount_at(place).is_none() {
        return None;
    }
    let end = measure.tolerance.as_ref().map_or(measure.amount.span.end, |tolerance| tolerance.span.end);
    let span = Span { start: value.span.start, end };
    let owner = block.name.map_or(tree.text(block.word), |name| tree.text(name));
    let name = free(tree, &format!("{owner}_{}", tree.text(field.name)));
    let at = first_statement(tree);
    let line = format!("let {name} = {}{}", tree.text(span), newline(tree));
    Some(Fix {
        title: format!("name this value `{name}`"),
        edits: vec![edit(Span::new(at, at), line), edit(span, name)],
    })
}

/// Where a `let` may stand: before the first block, behind the version and what is used.
fn first_statement(tree: &Tree) -> usize {
    let head = |item: &&Item| matches!(item, Item::Version { .. } | Item::Use { .. } | Item::Let(_));
    let behind =
        tree.items.iter().take_while(head).last().map(|item| tree.lines.line_of(item.span().range().start) + 1);
    let line = match behind {
        Some(line) => line,
        None => tree.items.first().map_or(0, |item| tree.lines.line_of(item.span().range().start)),
    };
    if line >= tree.lines.count() {
        tree.text.len()
    } else {
        tree.lines.span(line).range().start
    }
}

/// The name, or the first one with a number behind it that nothing has yet.
fn free(tree: &Tree, name: &str) -> String {
    let taken: Vec<&str> = mentions(tree)
        .iter()
        .filter(|mention| mention.meant == Meant::Itself)
        .map(|mention| tree.text(mention.span))
        .collect();
    let numbered = (2..).map(|number| format!("{name}_{number}"));
    std::iter::once(name.to_string()).chain(numbered).find(|name| !taken.contains(&name.as_str())).unwrap_or_default()
}
