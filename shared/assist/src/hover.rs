//! What a reader sees when the cursor rests on something: values first, then where they come from.

mod definitions;
mod field;
mod flight;
mod part;
mod word;

use crate::mention::{meaning, mention_at};
use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{self, BlockWord};
use finwright_grammar::{Block, FileId, Item, Place, Span, Tree};
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

/// What is to be said of whatever is named so in a block of this word, or of a `let`.
pub(crate) fn of_named(analysis: &Analysis, word: &str, name: &str) -> Option<String> {
    match analysis.design.parts.iter().position(|p| p.word == word && p.name.as_ref().is_some_and(|n| n.value == name))
    {
        Some(id) => Some(part::markdown(analysis, id)),
        None if word == "let" => definitions::value(analysis, name),
        None => definitions::of_block(analysis, word, name),
    }
}

fn at(analysis: &Analysis, offset: usize) -> Option<Hover> {
    let tree = analysis.tree()?;
    if let Some(remark) = tree.comments.iter().find(|remark| remark.touches(offset) && remark.range().start < offset) {
        return said(word::in_remark(tree, *remark, offset)?);
    }
    let blocks = tree.blocks_at(offset);
    if let Some(like) = blocks.last().and_then(|block| block.like).filter(|like| like.touches(offset)) {
        return on_name(analysis, tree, like.range().start);
    }
    if let Some(block) = blocks.last().filter(|block| block.header.touches(offset)) {
        return on_block(analysis, tree, block);
    }
    if let Some(found) = word::on_path(analysis, offset) {
        return said(found);
    }
    let items = blocks.last().map_or(&tree.items, |block| &block.items);
    let item = items.iter().find(|item| item.span().touches(offset))?;
    match item {
        Item::Field(found) => {
            let word = block_word(tree, blocks.last()?)?;
            let known = word.field(tree.text(found.name))?;
            if !found.name.touches(offset) {
                let inside = on_name(analysis, tree, offset)
                    .or_else(|| on_path(analysis, tree, offset))
                    .or_else(|| said(word::in_value(tree, Some(known), found.value.as_ref(), offset)?));
                if inside.is_some() {
                    return inside;
                }
            }
            Some(Hover { span: found.span, markdown: field::markdown(analysis, tree, word, known, found) })
        }
        Item::Let(binding) if offset >= binding.name.range().start => on_name(analysis, tree, offset)
            .or_else(|| on_path(analysis, tree, offset))
            .or_else(|| said(word::in_value(tree, None, None, offset)?))
            .or_else(|| {
                let markdown = definitions::value(analysis, tree.text(binding.name))?;
                Some(Hover { span: binding.span, markdown })
            }),
        other => said(word::on_keyword(tree, other, offset)?),
    }
}

fn said((span, markdown): (Span, String)) -> Option<Hover> {
    Some(Hover { span, markdown })
}

/// On a name: what it stands for there.
fn on_name(analysis: &Analysis, tree: &Tree, offset: usize) -> Option<Hover> {
    let mention = mention_at(tree, offset)?;
    let files = &analysis.design.files;
    let found = meaning(files, FileId(0), &mention)?;
    let source = files.get(found.place.file.0 as usize)?;
    let part = analysis.design.parts.iter().position(|part| {
        let given = part.name.as_ref().map_or(part.header, |name| name.place);
        given.file == found.place.file && given.span.touches(found.place.span.range().start)
    });
    let name = source.tree.text(found.place.span);
    let markdown = match part {
        Some(id) if found.word != "let" => part::markdown(analysis, id),
        _ if found.word == "let" => definitions::value(analysis, name)?,
        _ => definitions::of_block(analysis, &found.word, name)
            .or_else(|| vocabulary::block(&found.word).map(about_block))?,
    };
    Some(Hover { span: mention.span, markdown })
}

/// On the field in `main.root`: what it says there.
fn on_path(analysis: &Analysis, tree: &Tree, offset: usize) -> Option<Hover> {
    let (span, crate::definition::Origin::Place(place)) = crate::definition::definition(analysis, offset)? else {
        return None;
    };
    crate::definition::path_at(tree, offset)?;
    let source = analysis.design.files.get(place.file.0 as usize)?;
    let block = *source.tree.blocks_at(place.span.range().start).last()?;
    let field = block.fields().find(|field| field.name == place.span)?;
    let value = source.tree.text(field.value.as_ref()?.span);
    let known = block_word(&source.tree, block)?.field(source.tree.text(field.name))?;
    let of = block.name.map_or(source.tree.text(block.word), |name| source.tree.text(name));
    Some(Hover { span, markdown: format!("**{}** of {of}: {value}\n\n{}", known.word, known.doc) })
}

fn on_block(analysis: &Analysis, tree: &Tree, block: &Block) -> Option<Hover> {
    let place = Place { file: FileId(0), span: block.span };
    let header = Place { file: FileId(0), span: block.header };
    let markdown = if let Some(id) = analysis.design.parts.iter().position(|p| p.block == place) {
        part::markdown(analysis, id)
    } else if let Some(number) = analysis.design.flights.iter().position(|f| f.header == header) {
        flight::markdown(analysis, number)
    } else if let Some(found) = analysis
        .design
        .flown
        .iter()
        .position(|flown| flown.header == header)
        .and_then(|number| definitions::flown(analysis, number))
    {
        found
    } else {
        let named = block.name.map(|span| tree.text(span)).unwrap_or("");
        definitions::of_block(analysis, tree.text(block.word), named)
            .or_else(|| block_word(tree, block).map(about_block))?
    };
    Some(Hover { span: block.header, markdown })
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
