//! A field said in a block: the edit that writes it, laid as the formatter would lay it.

use crate::rule::Context;
use finwright_grammar::{Block, Item, Place, Span, Tree};

/// The edit that lets the block with a header say a field: its value replaced, or the field written in. `None` where the
/// block isn't one that can be written into.
pub(crate) fn said(cx: &Context, header: Place, word: &str, value: &str) -> Option<(Place, String)> {
    let file = cx.design.files.get(header.file.0 as usize)?;
    let tree = &file.tree;
    let block = tree.blocks_at(header.span.range().start).last().copied()?;
    let known = block.fields().find(|field| tree.text(field.name) == word);
    let (span, text) = match known {
        Some(field) => (field.value.as_ref()?.span, value.to_string()),
        None => written(tree, block, &format!("{word}: {value}"))?,
    };
    Some((Place { span, ..header }, text))
}

/// A field written into a block, ahead of what is in it.
fn written(tree: &Tree, block: &Block, field: &str) -> Option<(Span, String)> {
    let first = block.items.first().map(Item::span)?;
    let start = first.range().start;
    let line = tree.lines.line_of(start);
    let at = Span { start: first.start, end: first.start };
    if line == tree.lines.line_of(block.header.range().start) {
        return Some((at, format!("{field}; ")));
    }
    let begins = tree.lines.span(line).range().start;
    let indent = tree.text.get(begins..start)?;
    Some((at, format!("{field}\n{indent}")))
}
