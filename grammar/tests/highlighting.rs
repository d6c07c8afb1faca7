//! The editors' colours: their word lists come from the vocabulary, so that no word can be missing or stale.
//!
//! Each template in `tests/highlighting/` has `<<blocks>>`, `<<fields>>` and so on in it, and is written to its place
//! in `editors/`; `FINWRIGHT_UPDATE=1 cargo test -p finwright-grammar highlighting` writes them anew.
#![allow(clippy::unwrap_used)]

use finwright_grammar::vocabulary::{ChoiceWord, FieldKind, BLOCKS};
use std::collections::BTreeSet;
use std::path::PathBuf;

#[test]
fn the_colours_for_visual_studio_code_know_every_word() {
    written("finwright.tmLanguage.json", "vscode/syntaxes/finwright.tmLanguage.json", |words| words.join("|"));
}

#[test]
fn the_colours_for_tree_sitter_know_every_word() {
    let quoted = |words: &[&str]| words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(" ");
    for place in ["tree-sitter/queries/highlights.scm", "neovim/queries/finwright/highlights.scm"] {
        written("highlights.scm", place, quoted);
    }
}

/// The template with its word lists has to stand in `editors/`.
fn written(template: &str, place: &str, join: impl Fn(&[&str]) -> String) {
    let here = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let mut fresh = std::fs::read_to_string(here.join("tests/highlighting").join(template)).unwrap();
    for (mark, words) in lists() {
        assert!(fresh.contains(mark), "{template} takes {mark}");
        fresh = fresh.replace(mark, &join(&words.into_iter().collect::<Vec<_>>()));
    }
    assert!(!fresh.contains("<<"), "{template} asks for a list that there isn't");
    let place = here.join("../editors").join(place);
    if std::env::var_os("FINWRIGHT_UPDATE").is_some() {
        std::fs::write(&place, &fresh).unwrap();
    }
    let stored = std::fs::read_to_string(&place).unwrap().replace("\r\n", "\n");
    let differs = stored.lines().zip(fresh.lines()).find(|(old, new)| old != new);
    assert!(stored == fresh, "{} is stale; FINWRIGHT_UPDATE=1 writes it anew: {differs:?}", place.display());
}

fn lists() -> [(&'static str, BTreeSet<&'static str>); 4] {
    let fields = || BLOCKS.iter().flat_map(|block| block.fields);
    let choices = fields().flat_map(|field| match field.kind {
        FieldKind::Choice(words) | FieldKind::ChoiceOr(words, _) => words,
        _ => &[] as &[ChoiceWord],
    });
    [
        ("<<blocks>>", BLOCKS.iter().map(|block| block.word).collect()),
        ("<<fields>>", fields().map(|field| field.word).collect()),
        ("<<choices>>", choices.map(|choice| choice.word).collect()),
        ("<<functions>>", finwright_model::functions::FUNCTIONS.iter().copied().collect()),
    ]
}
