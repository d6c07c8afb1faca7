//! What each word of a text is, for colours that know what they show.

use crate::mention::{mentions, Meant};
use finwright_grammar::vocabulary::{self, FieldKind};
use finwright_grammar::{Expr, ExprKind, Item, Measure, Span, Tree, ValueKind};

/// A word with what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Where it stands, on one line.
    pub span: Span,
    /// What it is.
    pub kind: ColourKind,
    /// Whether something is defined by it.
    pub defines: bool,
}

/// What a word can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // The words say it.
pub enum ColourKind {
    Remark,
    Keyword,
    Block,
    Field,
    Listed,
    Name,
    Function,
    Number,
    Unit,
    Text,
}

/// The words of a text in order. What can't be read has no colour, and neither have words that mean nothing.
pub fn colours(tree: &Tree) -> Vec<Colour> {
    let mut found: Vec<Colour> = tree.comments.iter().map(|span| plain(*span, ColourKind::Remark)).collect();
    for mention in mentions(tree) {
        let defines = mention.meant == Meant::Itself;
        found.push(Colour { span: mention.span, kind: ColourKind::Name, defines });
    }
    in_items(tree, &tree.items, "", &mut found);
    found.retain(|colour| !colour.span.is_empty());
    found.sort_by_key(|colour| (colour.span, colour.kind));
    // Where two would lie over one another the first counts.
    let mut end = 0;
    found.retain(|colour| {
        let free = colour.span.start >= end;
        if free {
            end = colour.span.end;
        }
        free
    });
    found
}

fn plain(span: Span, kind: ColourKind) -> Colour {
    Colour { span, kind, defines: false }
}

fn in_items(tree: &Tree, items: &[Item], block: &str, found: &mut Vec<Colour>) {
    for item in items {
        match item {
            Item::Version { span, number } => {
                found.extend([keyword(tree, *span, "finwright"), plain(*number, ColourKind::Number)]);
            }
            Item::Use { span, path } => found.extend([keyword(tree, *span, "use"), plain(*path, ColourKind::Text)]),
            Item::Let(binding) => {
                found.push(keyword(tree, binding.span, "let"));
                in_measure(tree, &binding.value, found);
            }
            Item::Block(inner) => {
                let word = tree.text(inner.word);
                if vocabulary::block(word).is_some() {
                    found.push(plain(inner.word, ColourKind::Block));
                }
                found.extend(inner.title.map(|title| plain(title, ColourKind::Text)));
                if let Some(like) = inner.like {
                    let before = Span { start: inner.word.end, end: like.start };
                    let at = tree.text(before).rfind("like").map_or(0, |at| at as u32);
                    found.push(plain(
                        Span { start: before.start + at, end: before.start + at + 4 },
                        ColourKind::Keyword,
                    ));
                }
                in_items(tree, &inner.items, word, found);
            }
            Item::Field(field) => in_field(tree, block, field, found),
        }
    }
}

fn in_field(tree: &Tree, block: &str, field: &finwright_grammar::Field, found: &mut Vec<Colour>) {
    let known = vocabulary::block(block).and_then(|block| block.field(tree.text(field.name)));
    found.extend(known.map(|_| plain(field.name, ColourKind::Field)));
    match field.value.as_ref().map(|value| &value.kind) {
        Some(ValueKind::Measure(measure)) => {
            if let (Some(FieldKind::Choice(words) | FieldKind::ChoiceOr(words, _)), Some(name)) =
                (known.map(|known| known.kind), measure.amount.as_name())
            {
                if words.iter().any(|word| word.word == tree.text(name)) {
                    found.push(plain(name, ColourKind::Listed));
                }
            }
            in_measure(tree, measure, found);
        }
        Some(ValueKind::Choice { word, number }) => {
            found.extend([plain(*word, ColourKind::Listed), plain(number.1, ColourKind::Number)]);
        }
        Some(ValueKind::Text(span)) => found.push(plain(*span, ColourKind::Text)),
        Some(ValueKind::File(path)) => {
            let value = field.value.as_ref().map_or(*path, |value| value.span);
            found.extend([keyword(tree, value, "file"), plain(*path, ColourKind::Text)]);
        }
        Some(ValueKind::List(elements)) => {
            for element in elements {
                match &element.place {
                    Some(place) => in_measure(tree, place, found),
                    None => {
                        std::iter::once(&element.first).chain(&element.second).for_each(|e| in_expression(e, found))
                    }
                }
            }
        }
        Some(ValueKind::Event(word)) => {
            let value = field.value.as_ref().map_or(*word, |value| value.span);
            found.extend([keyword(tree, value, "at"), plain(*word, ColourKind::Keyword)]);
        }
        None => {}
    }
}

fn in_measure(tree: &Tree, measure: &Measure, found: &mut Vec<Colour>) {
    measure.amounts().for_each(|amount| in_expression(amount, found));
    if let Some(relation) = &measure.relation {
        let before = Span { start: relation.span.start, end: relation.anchor.start };
        let text = tree.text(before);
        found.push(plain(
            Span { start: before.start, end: before.start + text.trim_end().len() as u32 },
            ColourKind::Keyword,
        ));
        found.push(plain(relation.edge.unwrap_or(relation.anchor), ColourKind::Keyword));
    }
}

fn in_expression(expression: &Expr, found: &mut Vec<Colour>) {
    match &expression.kind {
        ExprKind::Quantity { unit, .. } => {
            let end = unit.map_or(expression.span.end, |unit| unit.start);
            found.push(plain(
                Span { start: expression.span.start, end: end.max(expression.span.start) },
                ColourKind::Number,
            ));
            found.extend(unit.map(|unit| plain(unit, ColourKind::Unit)));
        }
        ExprKind::Path(path) => found.extend(path.iter().skip(1).map(|span| plain(*span, ColourKind::Field))),
        ExprKind::Call { name, arguments } => {
            found.push(plain(*name, ColourKind::Function));
            arguments.iter().for_each(|argument| in_expression(argument, found));
        }
        ExprKind::Sum(terms) | ExprKind::Product(terms) => {
            terms.iter().for_each(|(_, term)| in_expression(term, found));
        }
        ExprKind::Negative(inner) => in_expression(inner, found),
    }
}

fn keyword(tree: &Tree, of: Span, word: &str) -> Colour {
    let at = tree.text(of).find(word).unwrap_or(0) as u32;
    plain(Span { start: of.start + at, end: of.start + at + word.len() as u32 }, ColourKind::Keyword)
}
