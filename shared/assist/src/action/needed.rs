//! The fields that a block needs and doesn't say, to fill in.

use super::{edit, indent, newline};
use finwright_checks::Fix;
use finwright_grammar::vocabulary;
use finwright_grammar::{Span, Tree};

/// Write down the names of the needed fields that are missing from the innermost block.
pub(super) fn needed(tree: &Tree, offset: usize) -> Vec<Fix> {
    let Some(block) = tree.blocks_at(offset).last().copied() else { return Vec::new() };
    let Some(known) = vocabulary::block(tree.text(block.word)).filter(|_| block.like.is_none()) else {
        return Vec::new();
    };
    let said: Vec<&str> = block.fields().map(|field| tree.text(field.name)).collect();
    let missing: Vec<&str> = known
        .fields
        .iter()
        .filter(|field| field.needed && !said.contains(&field.word))
        .map(|field| field.word)
        .collect();
    let Some(close) = block.close.filter(|_| !missing.is_empty()) else { return Vec::new() };
    let lines = tree.lines.line_of(block.header.range().start) != tree.lines.line_of(close.range().start);
    let (at, text) = match (lines, block.items.last()) {
        (true, _) => {
            let start = tree.lines.span(tree.lines.line_of(close.range().start)).range().start;
            let inner = format!("{}  ", indent(tree, block.header.range().start));
            (start, missing.iter().map(|word| format!("{inner}{word}: {}", newline(tree))).collect::<String>())
        }
        (false, None) => (close.range().start, format!("{}: ", missing.join(": ; "))),
        (false, Some(last)) => {
            let text: String = missing.iter().map(|word| format!("; {word}: ")).collect();
            (last.span().range().end, text.trim_end().to_string())
        }
    };
    let names = missing.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
    let title = format!("add what this {} needs: {names}", known.word);
    vec![Fix { title, edits: vec![edit(Span::new(at, at), text)] }]
}
