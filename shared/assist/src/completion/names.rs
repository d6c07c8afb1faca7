//! Names that are defined somewhere, the nearest first.

use super::document::About;
use super::offer::{CompletionKind, Offer};
use crate::cursor::{is_word, Cursor};
use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{usual_materials, Kind};
use finwright_grammar::{Block, FileId, Item, Tree};
use finwright_model::{Sought, CATALOG};
use finwright_units::{show, Dimension};

/// The names of a kind, without those already said.
pub(super) fn of_kind(analysis: &Analysis, cursor: &Cursor, kind: Kind, said: &[&str]) -> Vec<Offer> {
    let named = blocks(analysis, |block, tree| Sought::Kind(kind).holds(tree.text(block.word)));
    let mut offers = Vec::new();
    for (name, word, file) in nearest_first(cursor, named) {
        if !said.contains(&name.as_str()) {
            let detail = detail(analysis, kind, &name);
            let from = match file {
                FileId(0) => String::new(),
                CATALOG => "built in".to_string(),
                FileId(number) => analysis.sources.get(number as usize).map_or(String::new(), |source| {
                    source.path.file_name().map_or(String::new(), |name| name.to_string_lossy().into_owned())
                }),
            };
            let detail = [detail, from].into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>().join(" · ");
            let about = About::Named(word, name.clone());
            offers.push(Offer::new(CompletionKind::Name, &name, name.clone()).detail(detail).about(about));
        }
    }
    offers
}

/// The names of parts, the nearest first.
pub(super) fn of_parts(analysis: &Analysis, cursor: &Cursor, wanted: impl Fn(&str) -> bool) -> Vec<(String, String)> {
    let named =
        blocks(analysis, |block, tree| Sought::Part.holds(tree.text(block.word)) && wanted(tree.text(block.word)));
    nearest_first(cursor, named).into_iter().map(|(name, word, _)| (name, word)).collect()
}

/// The values named with `let`, those of a dimension first, and the nearest first.
pub(super) fn of_values(analysis: &Analysis, cursor: &Cursor, dimension: Option<Dimension>) -> Vec<Offer> {
    let mut named: Vec<(String, String, FileId)> = Vec::new();
    for (number, file) in analysis.design.files.iter().enumerate() {
        for item in &file.tree.items {
            if let Item::Let(binding) = item {
                let name = file.tree.text(binding.name).to_string();
                // A name that is only being given stands for nothing yet.
                let own = number == 0 && (cursor.statement..cursor.offset).contains(&binding.name.range().start);
                if !own && !named.iter().any(|(known, ..)| *known == name) {
                    named.push((name, "let".to_string(), FileId(number as u32)));
                }
            }
        }
    }
    let value_of = |name: &str| analysis.design.values.iter().find(|(n, _)| n.value == name).map(|(_, value)| value);
    let mut offers: Vec<(bool, Offer)> = nearest_first(cursor, named)
        .into_iter()
        .map(|(name, word, _)| {
            let value = value_of(&name);
            let fits = dimension.is_none() || value.is_none_or(|value| Some(value.dimension) == dimension);
            let shown = value.map_or(String::new(), |value| show::quantity(value.value, value.dimension));
            let about = About::Named(word, name.clone());
            (!fits, Offer::new(CompletionKind::Name, &name, name.clone()).detail(shown).about(about))
        })
        .collect();
    offers.sort_by_key(|(misfits, _)| *misfits);
    offers.into_iter().map(|(_, offer)| offer).collect()
}

/// What there is to know of a thing in two words: its density, its impulse.
fn detail(analysis: &Analysis, kind: Kind, name: &str) -> String {
    let design = &analysis.design;
    let found = match kind {
        Kind::Material => design.material_named(name).and_then(|id| design.materials.get(id)).and_then(|material| {
            material.density.as_ref().map(|density| show::quantity(density.si, Dimension::DENSITY))
        }),
        Kind::Motor => design.motors.iter().position(|motor| motor.name.value == name).and_then(|id| {
            let numbers = analysis.assessment.airframe.motors.get(id)?.as_ref()?;
            Some(format!("{} N s, {} mm", show::number(numbers.impulse), diameter(analysis, id)?))
        }),
        Kind::Pad => design
            .pads
            .iter()
            .find(|pad| pad.name.value == name)
            .and_then(|pad| Some(format!("{} {}", show::length(pad.rail_length()?.si), pad.rail_word()))),
        Kind::Section => design
            .section_named(name)
            .and_then(|id| design.sections.get(id))
            .and_then(|section| Some(format!("{} wide", show::length(section.width.as_ref()?.si)))),
        Kind::Site => design
            .sites
            .iter()
            .find(|site| site.name.value == name)
            .and_then(|site| Some(format!("wind {}", show::speed(site.wind.as_ref()?.si)))),
        Kind::Guide | Kind::Flight | Kind::Piece => None,
    };
    found.unwrap_or_default()
}

fn diameter(analysis: &Analysis, motor: usize) -> Option<String> {
    let diameter = analysis.design.motors.get(motor)?.diameter.as_ref()?;
    Some(show::number(diameter.si * 1e3))
}

/// The named blocks of all files: name, word and file. A file's own definition hides the others of its name.
fn blocks(analysis: &Analysis, wanted: impl Fn(&Block, &Tree) -> bool) -> Vec<(String, String, FileId)> {
    let mut found: Vec<(String, String, FileId)> = Vec::new();
    // The catalogue comes last.
    let files = analysis.design.files.iter().enumerate();
    let (built_in, others): (Vec<_>, Vec<_>) = files.partition(|(number, _)| *number == CATALOG.0 as usize);
    for (number, file) in others.into_iter().chain(built_in) {
        let mut waiting: Vec<&Item> = file.tree.items.iter().rev().collect();
        while let Some(item) = waiting.pop() {
            let Item::Block(block) = item else { continue };
            if wanted(block, &file.tree) {
                // A part without a name goes by its word.
                let name = file.tree.text(block.name.unwrap_or(block.word)).to_string();
                if !found.iter().any(|(known, ..)| *known == name) {
                    found.push((name, file.tree.text(block.word).to_string(), FileId(number as u32)));
                }
            }
            waiting.extend(block.items.iter().rev());
        }
    }
    found
}

/// Those that the file mentions, by the distance of the nearest mention; then the others as they come, but built-in
/// materials that are usual in the cursor's block before the rest.
fn nearest_first(cursor: &Cursor, mut named: Vec<(String, String, FileId)>) -> Vec<(String, String, FileId)> {
    let usual = usual_materials(cursor.block().map_or("", |block| block.word));
    named.sort_by_cached_key(|(name, _, file)| {
        let mentioned = distance(cursor, name);
        let habit = usual.iter().position(|usual| usual == name).unwrap_or(usual.len());
        (mentioned.is_none(), mentioned.unwrap_or(0), *file == CATALOG, habit)
    });
    named
}

/// How far from the cursor a name is mentioned, outside the word that is being typed.
fn distance(cursor: &Cursor, name: &str) -> Option<usize> {
    let typed = cursor.word().range();
    let is_whole = |at: usize| {
        let (before, after) = (&cursor.text[..at], &cursor.text[at + name.len()..]);
        !before.ends_with(is_word) && !after.starts_with(is_word)
    };
    let mentions = cursor.text.match_indices(name).map(|(at, _)| at);
    mentions.filter(|at| is_whole(*at) && !typed.contains(at)).map(|at| at.abs_diff(cursor.offset)).min()
}
