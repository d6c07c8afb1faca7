//! The shape of a text: what folds, and how a selection grows.

use finwright_grammar::{Expr, ExprKind, Item, Span, Tree, ValueKind};

/// Lines that fold to one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fold {
    /// The first line, from 0.
    pub first: usize,
    /// The last one.
    pub last: usize,
    /// What it is.
    pub kind: FoldKind,
}

/// What folds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoldKind {
    /// A block or a list.
    Block,
    /// Remarks.
    Remarks,
    /// Files that are used.
    Uses,
}

/// Everything that folds: blocks and lists over several lines, rows of remarks and of `use`.
pub fn folds(tree: &Tree) -> Vec<Fold> {
    let mut found = Vec::new();
    let line = |offset: u32| tree.lines.line_of(offset as usize);
    let mut waiting: Vec<&Item> = tree.items.iter().collect();
    while let Some(item) = waiting.pop() {
        let span = match item {
            Item::Block(block) => {
                waiting.extend(&block.items);
                block.span
            }
            Item::Field(field) => field.span,
            _ => continue,
        };
        // The closing brace stays in sight.
        let closes = tree.text(span).ends_with(['}', ']']);
        let (first, last) = (line(span.start), line(span.end).saturating_sub(usize::from(closes)));
        if first < last {
            found.push(Fold { first, last, kind: FoldKind::Block });
        }
    }
    let alone = |span: &&Span| tree.text(tree.lines.span(line(span.start))).trim_start().starts_with('#');
    found.extend(rows(tree.comments.iter().filter(alone).map(|span| line(span.start)), FoldKind::Remarks));
    let uses = tree.items.iter().filter(|item| matches!(item, Item::Use { .. })).map(|item| line(item.span().start));
    found.extend(rows(uses, FoldKind::Uses));
    found.sort_by_key(|fold| (fold.first, fold.last));
    found
}

/// Lines that follow one another without a gap.
fn rows(lines: impl Iterator<Item = usize>, kind: FoldKind) -> Vec<Fold> {
    let mut found: Vec<Fold> = Vec::new();
    for line in lines {
        match found.last_mut().filter(|fold| fold.last + 1 == line) {
            Some(fold) => fold.last = line,
            None => found.push(Fold { first: line, last: line, kind }),
        }
    }
    found.retain(|fold| fold.first < fold.last);
    found
}

/// What a selection at an offset grows to, the smallest first: a word, its value, its statement, its blocks, the text.
pub fn selections(tree: &Tree, offset: usize) -> Vec<Span> {
    let mut found = vec![Span::new(0, tree.text.len())];
    for block in tree.blocks_at(offset) {
        found.push(block.span);
        if block.header.touches(offset) {
            found.push(block.header);
            found
                .extend([block.name, block.like, Some(block.word)].into_iter().flatten().filter(|s| s.touches(offset)));
        } else if let (Some(first), Some(last)) = (block.items.first(), block.items.last()) {
            found.push(first.span().to(last.span()));
        }
    }
    let blocks = tree.blocks_at(offset);
    let items = blocks.last().map_or(&tree.items, |block| &block.items);
    match items.iter().find(|item| item.span().touches(offset)) {
        Some(Item::Field(field)) => {
            found.push(field.span);
            match &field.value {
                Some(value) if value.span.touches(offset) => {
                    found.push(value.span);
                    if let ValueKind::List(elements) = &value.kind {
                        found.extend(elements.iter().map(|element| element.span));
                    }
                }
                _ => found.push(field.name),
            }
        }
        Some(Item::Let(binding)) => found.extend([binding.span, binding.name, binding.value.amount.span]),
        Some(Item::Use { span, path }) => found.extend([*span, *path]),
        _ => {}
    }
    let mut waiting = crate::definition::expressions_at(tree, offset);
    while let Some(expression) = waiting.pop() {
        found.push(expression.span);
        waiting.extend(inner(expression));
    }
    found.extend(tree.comments.iter().copied());
    found.push(word_at(tree, offset));
    found.retain(|span| span.touches(offset));
    found.sort_by_key(|span| (span.len(), span.start));
    found.dedup();
    // Each must lie in the next.
    let mut nested: Vec<Span> = Vec::new();
    for span in found {
        if nested.last().is_none_or(|inner| span.start <= inner.start && inner.end <= span.end) {
            nested.push(span);
        }
    }
    nested
}

fn inner(expression: &Expr) -> Vec<&Expr> {
    match &expression.kind {
        ExprKind::Call { arguments, .. } => arguments.iter().collect(),
        ExprKind::Sum(terms) | ExprKind::Product(terms) => terms.iter().map(|(_, term)| term).collect(),
        ExprKind::Negative(inner) => vec![inner],
        ExprKind::Quantity { .. } | ExprKind::Path(_) => Vec::new(),
    }
}

fn word_at(tree: &Tree, offset: usize) -> Span {
    let is_word = |c: &char| crate::cursor::is_word(*c);
    let (Some(before), Some(after)) = (tree.text.get(..offset), tree.text.get(offset..)) else {
        return Span::new(offset, offset);
    };
    let start = offset - before.chars().rev().take_while(is_word).map(char::len_utf8).sum::<usize>();
    let end = offset + after.chars().take_while(is_word).map(char::len_utf8).sum::<usize>();
    Span::new(start, end)
}
