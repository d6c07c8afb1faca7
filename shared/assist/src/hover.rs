//! What a reader sees when the cursor rests on something: values first, then where they come from.

mod definitions;
mod field;
mod flight;
mod part;

use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{self, BlockWord};
use finwright_grammar::{Block, ExprKind, FileId, Item, Measure, Place, Span, Tree, ValueKind};
use finwright_units::reader::with;

/// What a hover shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Hover {
    /// What the hover is about.
    pub span: Span,
    /// The text, in Markdown.
    pub markdown: String,
}

/// The hover at a byte offset of the analysed file.
pub fn hover(analysis: &Analysis, offset: usize) -> Option<Hover> {
    with(analysis.settings.units, || at(analysis, offset))
}

fn at(analysis: &Analysis, offset: usize) -> Option<Hover> {
    let tree = analysis.tree()?;
    let blocks = tree.blocks_at(offset);
    if let Some(block) = blocks.last() {
        if block.header.touches(offset) {
            return on_block(analysis, tree, block);
        }
    }
    let items = blocks.last().map_or(&tree.items, |block| &block.items);
    let item = items.iter().find(|item| item.span().touches(offset))?;
    match item {
        Item::Field(found) => {
            let word = block_word(tree, blocks.last()?)?;
            let known = word.field(tree.text(found.name))?;
            if !found.name.touches(offset) {
                if let Some(reference) = on_reference(analysis, tree, found.value.as_ref().map(|v| &v.kind)?, offset) {
                    return Some(reference);
                }
            }
            Some(Hover { span: found.span, markdown: field::markdown(analysis, tree, word, known, found) })
        }
        Item::Let(binding) => {
            let used = name_at(&binding.value, offset);
            let markdown = definitions::value(analysis, tree.text(used.unwrap_or(binding.name)))?;
            Some(Hover { span: used.unwrap_or(binding.span), markdown })
        }
        _ => None,
    }
}

fn on_block(analysis: &Analysis, tree: &Tree, block: &Block) -> Option<Hover> {
    let place = Place { file: FileId(0), span: block.span };
    let header = Place { file: FileId(0), span: block.header };
    let markdown = if let Some(id) = analysis.design.parts.iter().position(|p| p.block == place) {
        part::markdown(analysis, id)
    } else if let Some(number) = analysis.design.flights.iter().position(|f| f.header == header) {
        flight::markdown(analysis, number)
    } else {
        let named = block.name.map(|span| tree.text(span)).unwrap_or("");
        definitions::of_block(analysis, tree.text(block.word), named)
            .or_else(|| block_word(tree, block).map(about_block))?
    };
    Some(Hover { span: block.header, markdown })
}

/// A name in a field's value: what it refers to.
fn on_reference(analysis: &Analysis, tree: &Tree, value: &ValueKind, offset: usize) -> Option<Hover> {
    let span = match value {
        ValueKind::Measure(measure) => name_at(measure, offset)?,
        ValueKind::List(elements) => {
            elements.iter().find(|e| e.span.touches(offset)).and_then(|e| e.first.as_name())?
        }
        _ => return None,
    };
    let name = tree.text(span);
    let markdown = match analysis.design.parts.iter().position(|p| p.name.as_ref().is_some_and(|n| n.value == name)) {
        Some(id) => part::markdown(analysis, id),
        None => definitions::value(analysis, name).or_else(|| definitions::named(analysis, name))?,
    };
    Some(Hover { span, markdown })
}

/// The single name under the cursor in a value.
fn name_at(measure: &Measure, offset: usize) -> Option<Span> {
    let mut waiting = vec![&measure.amount];
    while let Some(expr) = waiting.pop() {
        if !expr.span.touches(offset) {
            continue;
        }
        match &expr.kind {
            ExprKind::Path(path) => return path.iter().copied().find(|span| span.touches(offset)),
            ExprKind::Sum(operands) | ExprKind::Product(operands) => waiting.extend(operands.iter().map(|(_, e)| e)),
            ExprKind::Negative(inner) => waiting.push(inner),
            ExprKind::Call { arguments, .. } => waiting.extend(arguments),
            ExprKind::Quantity { .. } => {}
        }
    }
    None
}

fn block_word(tree: &Tree, block: &Block) -> Option<&'static BlockWord> {
    vocabulary::block(tree.text(block.word))
}

/// What a block's word means, for blocks that compute nothing.
fn about_block(word: &BlockWord) -> String {
    let fields: Vec<String> = word.fields.iter().map(|f| format!("`{}`", f.word)).collect();
    let fields = if fields.is_empty() { String::new() } else { format!("\n\nFields: {}", fields.join(", ")) };
    format!("**{}**\n\n{}{fields}", word.word, word.doc)
}
