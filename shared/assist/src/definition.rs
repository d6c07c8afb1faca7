//! Where the name under the cursor is defined.

use finwright_checks::Analysis;
use finwright_grammar::{Item, Place, Span, Tree};
use finwright_model::rank;

/// The name at a byte offset of the analysed file and the place where it's defined, which may be in another file.
pub fn definition(analysis: &Analysis, offset: usize) -> Option<(Span, Place)> {
    let tree = analysis.tree()?;
    let span = name_at(tree, offset)?;
    let name = tree.text(span);
    let design = &analysis.design;
    let all = design
        .values
        .iter()
        .map(|(name, _)| name)
        .chain(design.parts.iter().filter_map(|p| p.name.as_ref()))
        .chain(design.motors.iter().map(|m| &m.name))
        .chain(design.pads.iter().map(|p| &p.name))
        .chain(design.sites.iter().map(|s| &s.name))
        .chain(design.materials.iter().map(|m| &m.name))
        .chain(design.sections.iter().map(|s| &s.name));
    // A file's own definition wins over a used file's, and that over the catalogue's.
    let place = all.filter(|n| n.value == name).map(|n| n.place).min_by_key(|place| rank(*place))?;
    (place.span != span || place.file.0 != 0).then_some((span, place))
}

/// The word at an offset, where it stands for something: in a value or behind `like`, outside of comments and texts.
fn name_at(tree: &Tree, offset: usize) -> Option<Span> {
    let in_comment = tree.comments.iter().any(|c| c.start as usize <= offset && offset < c.end as usize);
    let blocks = tree.blocks_at(offset);
    let items = blocks.last().map_or(&tree.items, |b| &b.items);
    let refers = |item: &&Item| match item {
        Item::Field(field) => field.value.as_ref().is_some_and(|v| v.span.touches(offset)),
        Item::Let(binding) => binding.value.amount.span.touches(offset),
        _ => false,
    };
    let like = blocks.last().and_then(|b| b.like).is_some_and(|span| span.touches(offset));
    if in_comment || !(like || items.iter().any(|item| refers(&item))) {
        return None;
    }
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let (before, after) = (tree.text.get(..offset)?, tree.text.get(offset..)?);
    let start = offset - before.chars().rev().take_while(|c| is_word(*c)).map(char::len_utf8).sum::<usize>();
    let end = offset + after.chars().take_while(|c| is_word(*c)).map(char::len_utf8).sum::<usize>();
    (start < end).then(|| Span::new(start, end))
}
