//! A material from the catalogue for a part that says none.

use super::{edit, indent, newline};
use finwright_checks::{Analysis, Fix};
use finwright_grammar::vocabulary::{self, usual_materials};
use finwright_grammar::{Item, Span, Tree};
use finwright_units::{show, Dimension};

/// As many are offered, the most usual first.
const OFFERED: usize = 3;

/// Say what the innermost part is made of, with what is usual for it.
pub(super) fn materials(analysis: &Analysis, tree: &Tree, offset: usize) -> Vec<Fix> {
    let Some(block) = tree.blocks_at(offset).last().copied() else { return Vec::new() };
    let word = tree.text(block.word);
    let takes = vocabulary::block(word).is_some_and(|known| known.field("material").is_some());
    let says = block.fields().any(|field| ["material", "mass"].contains(&tree.text(field.name)));
    let last = block.items.iter().rfind(|item| matches!(item, Item::Field(_)));
    let (Some(last), true) = (last, takes && !says && block.like.is_none()) else { return Vec::new() };
    let own_line = tree.lines.line_of(last.span().range().start) != tree.lines.line_of(block.header.range().start);
    let before = match own_line {
        true => format!("{}{}", newline(tree), indent(tree, last.span().range().start)),
        false => "; ".to_string(),
    };
    let end = last.span().range().end;
    let fix = |name: &&str| {
        let material = analysis.design.materials.get(analysis.design.material_named(name)?)?;
        let density = show::quantity(material.density.as_ref()?.si, Dimension::DENSITY);
        let title = format!("make this {word} of {name} ({density}, built in)");
        Some(Fix { title, edits: vec![edit(Span::new(end, end), format!("{before}material: {name}"))] })
    };
    usual_materials(word).iter().take(OFFERED).filter_map(fix).collect()
}
