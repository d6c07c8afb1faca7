//! Behind a field's colon and a `let`'s sign: words, names, numbers' units, and what a placement goes on with.

mod place;

use super::document::About;
use super::names;
use super::offer::{CompletionKind, Offer};
use super::{quoted, FilesNear, Found};
use crate::cursor::Cursor;
use crate::tokens::Token;
use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{self, ChoiceWord, FieldKind, Kind};
use finwright_units::Dimension;
use place::{of_moment, of_place};

/// How far a value has come that is an amount.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Reached<'t> {
    /// A number, name or bracket is due.
    Operand,
    /// A number stands there without its unit.
    Number,
    /// A name and a point: what belongs to it is due.
    Path(&'t str),
    /// It may end here.
    End,
}

/// How far the last amount among some tokens has come.
fn reached<'t>(tokens: &[Token<'t>]) -> Reached<'t> {
    match tokens {
        [.., Token::Word(name), Token::Mark('.')] => Reached::Path(name),
        // A number that ends with its point goes on.
        [.., Token::Number(number)] if number.ends_with('.') => Reached::End,
        [.., Token::Number(_)] => Reached::Number,
        [] | [.., Token::Mark('+' | '-' | '*' | '/' | '(' | ',' | '[' | ':' | '=' | '±')] => Reached::Operand,
        _ => Reached::End,
    }
}

/// Behind `let name =`.
pub(super) fn of_let(analysis: &Analysis, cursor: &Cursor, value: &[Token]) -> Found {
    match reached(value) {
        Reached::Operand => Found::due(amounts(analysis, cursor, None)),
        Reached::Number => Found::due(all_units()),
        Reached::Path(name) => Found::due(of_path(analysis, name)),
        Reached::End => Found::default(),
    }
}

/// Behind `field:`.
pub(super) fn of_field(analysis: &Analysis, cursor: &Cursor, field: &str, value: &[Token], files: FilesNear) -> Found {
    let block = cursor.block().map_or("", |open| open.word);
    let Some(known) = vocabulary::block(block).and_then(|block| block.field(field)) else { return Found::default() };
    let words = |choices: &'static [ChoiceWord]| choices.iter().map(|choice| Offer::word(choice.word, choice.doc));
    match (known.kind, value) {
        (FieldKind::Choice(choices), []) => Found::due(words(choices).collect()),
        (FieldKind::ChoiceOr(choices, dimension), []) => {
            Found::due(words(choices).chain(amounts(analysis, cursor, Some(dimension))).collect())
        }
        (FieldKind::Reference(kind) | FieldKind::ReferenceOr(kind, _), []) => {
            Found::due(names::of_kind(analysis, cursor, kind, &[]))
        }
        (FieldKind::References(kind), value) => of_list(analysis, cursor, kind, value),
        (FieldKind::ChoiceOr(_, dimension), value) | (FieldKind::ReferenceOr(_, dimension), value) => {
            of_amount(analysis, cursor, dimension, value)
        }
        (FieldKind::Quantity(dimension), value) => of_amount(analysis, cursor, dimension, value),
        (FieldKind::Count, value) => of_amount(analysis, cursor, Dimension::NUMBER, value),
        (FieldKind::AtHeight(dimension), value) => of_wind(analysis, cursor, dimension, value),
        (FieldKind::Place | FieldKind::Places, value) => of_place(analysis, cursor, value),
        (FieldKind::Opening, value) => of_moment(value),
        (FieldKind::Curve(x, y), value) => of_curve(analysis, cursor, (x, y), value, files),
        (FieldKind::Recording(..), value) => of_recording(value, files),
        _ => Found::default(),
    }
}

fn of_amount(analysis: &Analysis, cursor: &Cursor, dimension: Dimension, value: &[Token]) -> Found {
    let after_tolerance = value.contains(&Token::Mark('±'));
    match reached(value) {
        Reached::Operand => Found::due(amounts(analysis, cursor, Some(dimension))),
        // A number alone may be a factor, or the share that a tolerance is.
        Reached::Number if dimension == Dimension::NUMBER && !after_tolerance => Found::default(),
        Reached::Number => {
            let share = after_tolerance.then(|| unit("%", Dimension::NUMBER));
            Found::due(units(dimension).into_iter().chain(share).collect())
        }
        Reached::Path(name) => Found::due(of_path(analysis, name)),
        Reached::End => Found::default(),
    }
}

fn of_wind(analysis: &Analysis, cursor: &Cursor, dimension: Dimension, value: &[Token]) -> Found {
    let at = value.iter().position(|token| *token == Token::Word("at"));
    match at {
        Some(at) => of_amount(analysis, cursor, Dimension::LENGTH, value.get(at + 1..).unwrap_or_default()),
        None if reached(value) == Reached::End => {
            Found::possible(vec![Offer::word("at", "the height above ground at which it's read: `at 2 m`").goes_on()])
        }
        None => of_amount(analysis, cursor, dimension, value),
    }
}

fn of_list(analysis: &Analysis, cursor: &Cursor, kind: Kind, value: &[Token]) -> Found {
    let said: Vec<&str> = value
        .iter()
        .filter_map(|token| match token {
            Token::Word(word) => Some(*word),
            _ => None,
        })
        .collect();
    match value {
        [] | [.., Token::Mark('[' | ',')] => Found::due(names::of_kind(analysis, cursor, kind, &said)),
        _ => Found::default(),
    }
}

fn of_curve(
    analysis: &Analysis,
    cursor: &Cursor,
    (x, y): (Dimension, Dimension),
    value: &[Token],
    files: FilesNear,
) -> Found {
    if let [Token::Word("file")] = value {
        return Found::due(quoted(files("csv")));
    }
    let Some((Token::Mark('['), rows)) = value.split_first() else {
        let rows = Offer { text: "[".into(), ..Offer::word("[", "rows: `[0 s: 0 N, 0.2 s: 22 N, 1.9 s: 0 N]`") };
        let file = Offer { text: "file \"".into(), ..Offer::word("file", "two columns in a file: `file \"d9.csv\"`") };
        return if value.is_empty() { Found::due(vec![rows, file.goes_on()]) } else { Found::default() };
    };
    let begun = rows.iter().rposition(|token| *token == Token::Mark(',')).map_or(0, |at| at + 1);
    let row = rows.get(begun..).unwrap_or_default();
    match row.iter().position(|token| *token == Token::Mark(':')) {
        Some(at) => match row.get(at + 1..).unwrap_or_default() {
            [] => Found::default(),
            second => of_amount(analysis, cursor, y, second),
        },
        None if row.is_empty() => Found::default(),
        None => of_amount(analysis, cursor, x, row),
    }
}

/// A file that an instrument wrote.
fn of_recording(value: &[Token], files: FilesNear) -> Found {
    match value {
        [] => {
            let file = Offer { text: "file \"".into(), ..Offer::word("file", "what it wrote: `file \"stand.csv\"`") };
            Found::due(vec![file.goes_on()])
        }
        [Token::Word("file")] => Found::due(quoted(files("csv"))),
        _ => Found::default(),
    }
}

/// Named values, parts whose fields are values too, and functions.
fn amounts(analysis: &Analysis, cursor: &Cursor, dimension: Option<Dimension>) -> Vec<Offer> {
    let mut offers = names::of_values(analysis, cursor, dimension);
    let number = dimension == Some(Dimension::NUMBER);
    let parts = names::of_parts(analysis, cursor, |_| !number).into_iter().map(|(name, block)| {
        let offer = Offer::new(CompletionKind::Name, &name, format!("{name}.")).detail(block.clone());
        offer.about(About::Named(block, name)).goes_on()
    });
    offers.extend(parts);
    if dimension.is_none_or(|dimension| dimension == Dimension::LENGTH) {
        offers.push(Offer::word("balance", "the balance point, motor in and unlit, from the tip"));
        offers.push(Offer::word("tail", "the rocket's end, from the tip"));
    }
    offers.extend(
        finwright_model::functions::FUNCTIONS
            .iter()
            .map(|name| Offer::new(CompletionKind::Function, name, format!("{name}(")).detail("function")),
    );
    offers
}

/// What belongs to a name: the fields of its block, those that it says first, and its points along the rocket.
fn of_path(analysis: &Analysis, name: &str) -> Vec<Offer> {
    let mut found = None;
    for file in &analysis.design.files {
        let mut waiting: Vec<_> = file.tree.items.iter().rev().collect();
        while let Some(item) = waiting.pop() {
            let finwright_grammar::Item::Block(block) = item else { continue };
            let own = block.name.map_or(file.tree.text(block.word), |name| file.tree.text(name));
            if own == name && found.is_none() {
                found = Some((file, block));
            }
            waiting.extend(block.items.iter().rev());
        }
    }
    let Some((file, block)) = found else { return Vec::new() };
    let word = file.tree.text(block.word);
    let Some(known) = vocabulary::block(word) else { return Vec::new() };
    let said = |field: &str| block.fields().find(|said| file.tree.text(said.name) == field);
    let amounts = known.fields.iter().filter(|field| matches!(field.kind, FieldKind::Quantity(_) | FieldKind::Count));
    let mut fields: Vec<_> = amounts.map(|field| (said(field.word), field)).collect();
    let points = [("begins", "where it begins"), ("middle", "its middle"), ("ends", "where it ends")];
    let points = points.map(|(point, doc)| Offer::word(point, &format!("{doc}, from the rocket's tip")));
    let has_points = !known.inside.contains(&"");
    let (said, unsaid): (Vec<_>, Vec<_>) = fields.drain(..).partition(|(said, _)| said.is_some());
    let field_offers = |fields: Vec<(Option<&finwright_grammar::Field>, &vocabulary::FieldWord)>| -> Vec<Offer> {
        fields
            .into_iter()
            .map(|(said, field)| {
                let value = said.and_then(|said| said.value.as_ref()).map_or("", |value| file.tree.text(value.span));
                let about = About::Field(word.to_string(), field.word.to_string());
                Offer::new(CompletionKind::Field, field.word, field.word).detail(value).about(about)
            })
            .collect()
    };
    let mut offers = field_offers(said);
    offers.extend(points.into_iter().filter(|_| has_points));
    offers.extend(field_offers(unsaid));
    offers
}

/// The units of a dimension, those that a reader would list first.
fn units(dimension: Dimension) -> Vec<Offer> {
    let listed: Vec<&str> = dimension.fitting_units().split(", ").filter(|unit| !unit.is_empty()).collect();
    let all = finwright_units::unit::spellings().filter(|(_, unit)| unit.dimension == dimension).map(|(name, _)| name);
    let others = all.filter(|name| !listed.contains(name));
    listed.iter().copied().chain(others).map(|name| unit(name, dimension)).collect()
}

/// All units, those of lengths, masses and what else is measured often first.
fn all_units() -> Vec<Offer> {
    type D = Dimension;
    let often = [(D::LENGTH, 5), (D::MASS, 2), (D::ANGLE, 1), (D::TIME, 1), (D::SPEED, 1), (D::FORCE, 1)];
    let mut offers: Vec<Offer> = Vec::new();
    for (dimension, count) in often {
        offers.extend(units(dimension).into_iter().take(count));
    }
    for (name, known) in finwright_units::unit::spellings() {
        if offers.iter().all(|offer| offer.label != name) {
            offers.push(unit(name, known.dimension));
        }
    }
    offers
}

fn unit(name: &str, dimension: Dimension) -> Offer {
    Offer::new(CompletionKind::Unit, name, name).detail(dimension.phrase())
}
