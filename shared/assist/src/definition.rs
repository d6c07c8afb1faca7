//! Where what is under the cursor comes from.

use crate::mention::{meaning, mention_at};
use finwright_checks::Analysis;
use finwright_grammar::{Block, Expr, ExprKind, Field, FileId, Item, Measure, Place, Span, Tree, ValueKind};
use finwright_model::{beside, CATALOG};
use std::path::PathBuf;

/// Where something comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// A place in one of the analysis' texts.
    Place(Place),
    /// A file, as it is on disk.
    File(PathBuf),
}

/// What is under a byte offset of the analysed file and where it comes from, which may be another file.
pub fn definition(analysis: &Analysis, offset: usize) -> Option<(Span, Origin)> {
    let tree = analysis.tree()?;
    let files = &analysis.design.files;
    if let Some(link) = links(analysis).into_iter().find(|link| link.span.touches(offset)) {
        return Some((link.span, Origin::File(link.path)));
    }
    if let Some(mention) = mention_at(tree, offset) {
        let found = meaning(files, FileId(0), &mention)?;
        return Some((mention.span, Origin::Place(found.place)));
    }
    field_of_path(analysis, tree, offset).map(|(span, place)| (span, Origin::Place(place)))
}

/// A path in quotes that leads to a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// The path without its quotes.
    pub span: Span,
    /// Where it leads, whether or not there is such a file.
    pub path: PathBuf,
}

/// The paths of a file that lead to others.
pub fn links(analysis: &Analysis) -> Vec<Link> {
    let Some(file) = analysis.design.files.first() else { return Vec::new() };
    let mut found = Vec::new();
    let mut waiting: Vec<&Item> = file.tree.items.iter().rev().collect();
    while let Some(item) = waiting.pop() {
        let quoted = match item {
            Item::Use { path, .. } => Some(*path),
            Item::Field(Field { value: Some(value), .. }) => match &value.kind {
                ValueKind::File(path) => Some(*path),
                _ => None,
            },
            Item::Block(block) => {
                waiting.extend(block.items.iter().rev());
                None
            }
            _ => None,
        };
        if let Some(span) = quoted.filter(|span| span.len() > 2) {
            let span = Span { start: span.start + 1, end: span.end - 1 };
            found.push(Link { span, path: beside(&file.path, file.tree.text(span)) });
        }
    }
    found
}

/// In `main.root` the field that the second name means: of the block itself, or of the one that it's like.
fn field_of_path(analysis: &Analysis, tree: &Tree, offset: usize) -> Option<(Span, Place)> {
    let path = path_at(tree, offset)?;
    let [first, second, ..] = path.as_slice() else { return None };
    let mut mention = mention_at(tree, first.range().start)?;
    let mut file = FileId(0);
    // As many likenesses as anybody writes, and none in a circle for ever.
    for _ in 0..16 {
        let found = meaning(&analysis.design.files, file, &mention)?;
        let source = analysis.design.files.get(found.place.file.0 as usize)?;
        let block = block_named(&source.tree, found.place.span)?;
        if let Some(field) = block.fields().find(|field| source.tree.text(field.name) == tree.text(*second)) {
            return Some((*second, Place { file: found.place.file, span: field.name }));
        }
        mention = mention_at(&source.tree, block.like?.range().start)?;
        file = found.place.file;
    }
    None
}

/// The block whose name, or word where it has none, stands at a span.
pub(crate) fn block_named(tree: &Tree, span: Span) -> Option<&Block> {
    let blocks = tree.blocks_at(span.range().start);
    blocks.into_iter().find(|block| block.name.unwrap_or(block.word) == span)
}

/// The path at an offset behind its first name.
pub(crate) fn path_at(tree: &Tree, offset: usize) -> Option<Vec<Span>> {
    let mut waiting = expressions_at(tree, offset);
    while let Some(expression) = waiting.pop() {
        match &expression.kind {
            ExprKind::Path(path) => {
                if path.iter().skip(1).any(|span| span.touches(offset)) {
                    return Some(path.clone());
                }
            }
            ExprKind::Call { arguments, .. } => waiting.extend(arguments),
            ExprKind::Sum(terms) | ExprKind::Product(terms) => waiting.extend(terms.iter().map(|(_, term)| term)),
            ExprKind::Negative(inner) => waiting.push(inner),
            ExprKind::Quantity { .. } => {}
        }
    }
    None
}

/// The outermost expressions of the statement at an offset.
pub(crate) fn expressions_at(tree: &Tree, offset: usize) -> Vec<&Expr> {
    let blocks = tree.blocks_at(offset);
    let items = blocks.last().map_or(&tree.items, |block| &block.items);
    let Some(item) = items.iter().find(|item| item.span().touches(offset)) else { return Vec::new() };
    let measures = match item {
        Item::Let(binding) => vec![&binding.value],
        Item::Field(Field { value: Some(value), .. }) => match &value.kind {
            ValueKind::Measure(measure) => vec![measure],
            ValueKind::List(elements) => {
                let rows = elements.iter().filter(|element| element.place.is_none());
                let amounts = rows.flat_map(|element| std::iter::once(&element.first).chain(&element.second));
                let places = elements.iter().filter_map(|element| element.place.as_ref());
                return amounts.chain(places.map(|place| &place.amount)).collect();
            }
            _ => Vec::new(),
        },
        _ => Vec::new(),
    };
    measures.into_iter().flat_map(Measure::amounts).collect()
}

/// Whether a place is in what is built in.
pub fn is_built_in(place: Place) -> bool {
    place.file == CATALOG
}
