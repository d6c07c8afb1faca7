//! Every good design, cut off before each word that a list could offer, with the braces left open as they are while
//! somebody types: what stands there in the whole text is among the first ten things offered.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_assist::completion;
use finwright_checks::{analyze, Files, Settings, Snapshot};
use finwright_grammar::vocabulary::{self, FieldKind};
use finwright_grammar::{parse, Block, Expr, ExprKind, Item, Measure, Relation, Span, Tree, ValueKind};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct Disk;
impl Files for Disk {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        std::fs::read_to_string(path).map(Arc::from).map_err(|error| error.to_string())
    }
}

/// The words of a tree that a list could offer: blocks, fields, listed words, units, names that are declared.
fn words(tree: &Tree) -> Vec<Span> {
    let mut found = Vec::new();
    in_items(tree, &tree.items, "", &mut found);
    found.sort();
    found
}

fn in_items(tree: &Tree, items: &[Item], block: &str, found: &mut Vec<Span>) {
    for item in items {
        match item {
            Item::Block(inner) => in_block(tree, inner, found),
            Item::Let(binding) => in_measure(&binding.value, found),
            Item::Field(field) => {
                found.push(field.name);
                let kind = vocabulary::block(block).and_then(|block| block.field(tree.text(field.name))).unwrap().kind;
                match field.value.as_ref().map(|value| &value.kind) {
                    Some(ValueKind::Measure(measure)) => in_measure(measure, found),
                    Some(ValueKind::Choice { word, .. }) => found.push(*word),
                    Some(ValueKind::Event(word)) => found.push(*word),
                    Some(ValueKind::List(elements)) => {
                        for element in elements {
                            match &element.place {
                                Some(place) => in_measure(place, found),
                                None if matches!(kind, FieldKind::Curve(..) | FieldKind::References(_)) => {
                                    in_expression(&element.first, found);
                                    element.second.iter().for_each(|second| in_expression(second, found));
                                }
                                None => {}
                            }
                        }
                    }
                    _ => {}
                }
            }
            _ => {}
        }
    }
}

fn in_block(tree: &Tree, block: &Block, found: &mut Vec<Span>) {
    found.push(block.word);
    found.extend(block.like);
    in_items(tree, &block.items, tree.text(block.word), found);
}

fn in_measure(measure: &Measure, found: &mut Vec<Span>) {
    in_expression(&measure.amount, found);
    measure.tolerance.iter().for_each(|tolerance| in_expression(tolerance, found));
    measure.height.iter().for_each(|height| in_expression(height, found));
    if let Some(Relation { span, anchor, edge, .. }) = measure.relation.as_deref() {
        found.push(Span::new(span.range().start, span.range().start + 1));
        found.push(*anchor);
        found.extend(*edge);
    }
}

fn in_expression(expression: &Expr, found: &mut Vec<Span>) {
    match &expression.kind {
        ExprKind::Quantity { unit, .. } => found.extend(*unit),
        ExprKind::Path(path) => found.extend(path),
        ExprKind::Call { arguments, .. } => arguments.iter().for_each(|argument| in_expression(argument, found)),
        ExprKind::Sum(terms) | ExprKind::Product(terms) => {
            terms.iter().for_each(|(_, term)| in_expression(term, found));
        }
        ExprKind::Negative(inner) => in_expression(inner, found),
    }
}

/// Whether a text is a word by itself; a unit such as `kg/m3` is more.
fn vocabulary_has(text: &str) -> bool {
    !text.contains('/')
}

/// The word that begins at an offset.
fn word_at(text: &str, start: usize) -> &str {
    let rest = &text[start..];
    let end = rest.find(|c: char| !(c.is_alphanumeric() || "_%°".contains(c))).unwrap_or(rest.len());
    &rest[..end]
}

#[test]
fn what_comes_next_is_among_the_first_ten() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good");
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "finw"));
    paths.sort();
    let (mut asked, mut missed) = (0, Vec::new());
    for path in paths {
        let text: Arc<str> = std::fs::read_to_string(&path).unwrap().into();
        for span in words(&parse(&text)) {
            let start = span.range().start;
            let word = if vocabulary_has(&text[span.range()]) { word_at(&text, start) } else { &text[span.range()] };
            // A name that is declared further down can't be known yet.
            let later =
                text[..start].matches(word).next().is_none() && text[start..].matches(&format!(" {word} ")).count() > 1;
            let analysis = analyze(&Snapshot {
                path: path.clone(),
                text: text[..start].into(),
                files: Arc::new(Disk),
                settings: Arc::new(Settings::default()),
            });
            let offers = completion(&analysis, start, &|_| Vec::new()).offers;
            asked += 1;
            let first: Vec<&str> = offers.iter().take(10).map(|offer| offer.label.split(' ').next().unwrap()).collect();
            if !first.contains(&word) {
                let line = text[..start].rsplit('\n').next().unwrap();
                let name = path.file_name().unwrap().to_string_lossy().into_owned();
                missed.push(format!("{name}{}: `{line}` {word} not in {first:?}", if later { " (later)" } else { "" }));
            }
        }
    }
    let share = 100.0 * (1.0 - missed.len() as f64 / asked as f64);
    assert!(share >= 97.0, "{share:.1} % of {asked}; missed:\n{}", missed.join("\n"));
}
