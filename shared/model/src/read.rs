//! A block's fields against the vocabulary: each field's value in the form that its word calls for.

use crate::curve;
use crate::design::{Amount, Choice, Curve, Named};
use crate::evaluate::{of_dimension, Evaluator};
use crate::parts::Placed;
use crate::problem::{
    Problem, MISSING_UNIT, OUT_OF_RANGE, REPEATED_FIELD, UNKNOWN_BLOCK, UNKNOWN_FIELD, UNKNOWN_NAME, WRONG_FORM,
};
use finwright_grammar::vocabulary::{self, nearest, BlockWord, ChoiceWord, FieldKind, FieldWord, Limit};
use finwright_grammar::{Block, Field, FileId, Measure, Place, Relation, Span, ValueKind};
use finwright_units::{show, Dimension, Quantity};

/// A block's fields, typed.
#[derive(Default)]
pub(crate) struct Fields {
    values: Vec<(&'static str, Typed)>,
    /// Needed fields that the block doesn't have.
    pub missing: Vec<&'static str>,
    /// Fields that it has and that can't be understood, but for those that hardly matter.
    pub broken: Vec<&'static str>,
}

/// Fields whose default is near enough to go on with while they can't be understood: they touch drag, or only words.
const HARDLY_MATTERS: &[&str] =
    &["leading", "trailing", "surface", "clock", "drag", "delay", "code", "builder", "note"];

enum Typed {
    Amount(Amount),
    Choice(Choice),
    Text(Named<String>),
    Names(Vec<Named<String>>),
    Placed(Vec<Placed>),
    Curve(Curve),
}

impl Fields {
    pub fn amount(&mut self, word: &str) -> Option<Amount> {
        self.take(word, |t| if let Typed::Amount(a) = t { Ok(a) } else { Err(t) })
    }
    pub fn choice(&mut self, word: &str) -> Option<Choice> {
        self.take(word, |t| if let Typed::Choice(c) = t { Ok(c) } else { Err(t) })
    }
    pub fn text(&mut self, word: &str) -> Option<Named<String>> {
        self.take(word, |t| if let Typed::Text(n) = t { Ok(n) } else { Err(t) })
    }
    pub fn name(&mut self, word: &str) -> Option<Named<String>> {
        self.names(word).and_then(|names| names.into_iter().next())
    }
    pub fn names(&mut self, word: &str) -> Option<Vec<Named<String>>> {
        self.take(word, |t| if let Typed::Names(n) = t { Ok(n) } else { Err(t) })
    }
    pub fn curve(&mut self, word: &str) -> Option<Curve> {
        self.take(word, |t| if let Typed::Curve(c) = t { Ok(c) } else { Err(t) })
    }
    pub fn placed(&mut self, word: &str) -> Option<Placed> {
        self.places(word).into_iter().next()
    }
    pub fn places(&mut self, word: &str) -> Vec<Placed> {
        self.take(word, |t| if let Typed::Placed(places) = t { Ok(places) } else { Err(t) }).unwrap_or_default()
    }

    fn take<T>(&mut self, word: &str, pick: impl FnOnce(Typed) -> Result<T, Typed>) -> Option<T> {
        let at = self.values.iter().position(|(w, _)| *w == word)?;
        let (name, typed) = self.values.swap_remove(at);
        match pick(typed) {
            Ok(value) => Some(value),
            Err(other) => {
                self.values.push((name, other));
                None
            }
        }
    }
}

/// More copies of one part than this aren't a rocket.
const MOST_COPIES: usize = 24;
/// A part that is like a part that is like a part … ends somewhere.
const LONGEST_LIKENESS: usize = 8;

/// What reading a field may need besides the evaluator.
pub(crate) struct Context<'a> {
    /// Reads curve files.
    pub files: &'a dyn crate::files::Files,
}

/// Read all fields of a block whose word is known.
pub(crate) fn fields<'f>(
    cx: &Context,
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    word: &'static BlockWord,
) -> Fields {
    let mut read = Fields::default();
    let mut seen: Vec<(&'static str, Span)> = Vec::new();
    for field in block.fields() {
        let name = ev.text(file, field.name);
        let place = Place { file, span: field.name };
        let Some(known) = word.field(name) else {
            ev.report(unknown_field(word, name, place));
            continue;
        };
        if let Some((_, first)) = seen.iter().find(|(w, _)| *w == known.word) {
            ev.report(
                Problem::new(
                    REPEATED_FIELD,
                    place,
                    format!("`{name}` is said twice in this {}", word.word),
                    "keep one of them; the first one counts",
                )
                .label(Place { file, span: *first }, "the first one"),
            );
            continue;
        }
        seen.push((known.word, field.name));
        match typed(cx, ev, file, known, field) {
            Some(typed) => read.values.push((known.word, typed)),
            None if HARDLY_MATTERS.contains(&known.word) => {}
            None => read.broken.push(known.word),
        }
    }
    inherit(cx, ev, (file, block), word, &mut read, &mut seen);
    read.missing = word
        .fields
        .iter()
        .filter(|f| f.needed && !read.values.iter().any(|(w, _)| *w == f.word))
        .map(|f| f.word)
        .collect();
    read
}

/// Take the fields that a part doesn't say itself from the part that it is like.
fn inherit<'f>(
    cx: &Context,
    ev: &mut Evaluator<'f>,
    (mut file, mut block): (FileId, &'f Block),
    word: &'static BlockWord,
    read: &mut Fields,
    seen: &mut Vec<(&'static str, Span)>,
) {
    for _ in 0..LONGEST_LIKENESS {
        let Some(like) = block.like else { return };
        let name = ev.text(file, like);
        let place = Place { file, span: like };
        let Some((base_file, base)) = ev.block(file, name).filter(|(_, base)| !std::ptr::eq(*base, block)) else {
            let near = nearest(name, ev.block_names());
            ev.report(
                Problem::new(
                    UNKNOWN_NAME,
                    place,
                    format!("no part is named `{name}`"),
                    "name the part that this one is like",
                )
                .did_you_mean(near),
            );
            read.broken.push("like");
            return;
        };
        let base_word = ev.text(base_file, base.word);
        if base_word != word.word {
            ev.report(Problem::new(
                UNKNOWN_NAME,
                place,
                format!("`{name}` is a {base_word}, and this is a {}", word.word),
                format!("a {} can be like another {}", word.word, word.word),
            ));
            read.broken.push("like");
            return;
        }
        for field in base.fields() {
            let Some(known) = word.field(ev.text(base_file, field.name)) else { continue };
            if seen.iter().any(|(w, _)| *w == known.word) {
                continue;
            }
            seen.push((known.word, field.name));
            match typed(cx, ev, base_file, known, field) {
                Some(typed) => read.values.push((known.word, typed)),
                None if HARDLY_MATTERS.contains(&known.word) => {}
                None => read.broken.push(known.word),
            }
        }
        (file, block) = (base_file, base);
    }
}

/// Whether a block's word is one that may stand here; reports it if not.
pub(crate) fn known_block(
    ev: &mut Evaluator,
    file: FileId,
    block: &Block,
    parent: &'static str,
) -> Option<&'static BlockWord> {
    if block.word.is_empty() {
        return None;
    }
    let written = ev.text(file, block.word);
    let place = Place { file, span: block.word };
    let here = || vocabulary::blocks_inside(parent).map(|b| b.word);
    let container = if parent.is_empty() { "a file".to_string() } else { format!("`{parent}`") };
    match vocabulary::block(written) {
        Some(word) if word.inside.contains(&parent) => Some(word),
        Some(word) => {
            let homes: Vec<String> = word
                .inside
                .iter()
                .map(|w| if w.is_empty() { "the file itself".to_string() } else { format!("`{w}`") })
                .collect();
            ev.report(Problem::new(
                UNKNOWN_BLOCK,
                place,
                format!("`{written}` can't stand in {container}"),
                format!("it belongs in {}", homes.join(" or ")),
            ));
            None
        }
        None => {
            let list: Vec<&str> = here().collect();
            let help = if list.is_empty() {
                format!("{container} holds no blocks")
            } else {
                format!("{container} can hold {}", list.join(", "))
            };
            ev.report(
                Problem::new(UNKNOWN_BLOCK, place, format!("there is no block `{written}`"), help)
                    .did_you_mean(nearest(written, list)),
            );
            None
        }
    }
}

fn unknown_field(word: &BlockWord, name: &str, place: Place) -> Problem {
    let known: Vec<&str> = word.fields.iter().map(|f| f.word).collect();
    let help = if known.is_empty() {
        format!("`{}` has blocks in it, no fields", word.word)
    } else {
        format!("it has {}", known.join(", "))
    };
    Problem::new(UNKNOWN_FIELD, place, format!("`{}` has no field `{name}`", word.word), help)
        .did_you_mean(nearest(name, known))
}

fn typed<'f>(
    cx: &Context,
    ev: &mut Evaluator<'f>,
    file: FileId,
    known: &'static FieldWord,
    field: &'f Field,
) -> Option<Typed> {
    let value = field.value.as_ref()?;
    let place = Place { file, span: value.span };
    match (known.kind, &value.kind) {
        (FieldKind::Quantity(dimension), ValueKind::Measure(measure)) => {
            plain(ev, file, measure, known)?;
            let quantity = ev.measure(file, measure)?;
            let quantity = of_dimension(ev, place, quantity, dimension)?;
            within(ev, place, &quantity, known).then(|| Typed::Amount(amount(quantity, place)))
        }
        (FieldKind::Count, ValueKind::Measure(measure)) => {
            plain(ev, file, measure, known)?;
            let quantity = ev.measure(file, measure)?;
            let quantity = of_dimension(ev, place, quantity, Dimension::NUMBER)?;
            if quantity.value.fract() != 0.0 {
                ev.report(Problem::new(
                    OUT_OF_RANGE,
                    place,
                    format!("`{}` isn't a whole number", known.word),
                    "write a whole number, such as 3",
                ));
                return None;
            }
            within(ev, place, &quantity, known).then(|| Typed::Amount(amount(quantity, place)))
        }
        (FieldKind::Choice(choices) | FieldKind::ChoiceOr(choices, _), ValueKind::Choice { word, number }) => {
            let choice = chosen(ev, file, *word, choices, known)?;
            let (value, span) = *number;
            let Some((low, high, _)) = choice.number else {
                ev.report(Problem::new(
                    WRONG_FORM,
                    Place { file, span },
                    format!("`{}` takes no number", choice.word),
                    "take the number out",
                ));
                return None;
            };
            if !(low..=high).contains(&value) {
                ev.report(Problem::new(
                    OUT_OF_RANGE,
                    Place { file, span },
                    format!("`{}` takes a number from {} to {}", choice.word, show::number(low), show::number(high)),
                    choice.doc,
                ));
                return None;
            }
            Some(Typed::Choice(Choice { word: choice.word, number: Some(value), place }))
        }
        (FieldKind::Choice(choices), ValueKind::Measure(Measure { amount, tolerance: None, relation: None })) => {
            let Some(word) = amount.as_name() else { return wrong_form(ev, place, known) };
            let choice = chosen(ev, file, word, choices, known)?;
            Some(Typed::Choice(Choice { word: choice.word, number: choice.number.map(|n| n.2), place }))
        }
        (FieldKind::ChoiceOr(choices, dimension), ValueKind::Measure(measure)) => {
            let name = measure.amount.as_name().map(|span| ev.text(file, span));
            if let Some(choice) = name.and_then(|name| choices.iter().find(|c| c.word == name)) {
                return Some(Typed::Choice(Choice { word: choice.word, number: choice.number.map(|n| n.2), place }));
            }
            if let (Some(name), Some(span)) = (name, measure.amount.as_name()) {
                if let Some(near) = nearest(name, choices.iter().map(|c| c.word)) {
                    let place = Place { file, span };
                    ev.report(
                        Problem::new(UNKNOWN_NAME, place, format!("`{}` can't be `{name}`", known.word), "")
                            .did_you_mean(Some(near)),
                    );
                    return None;
                }
            }
            plain(ev, file, measure, known)?;
            let quantity = ev.measure(file, measure)?;
            let quantity = of_dimension(ev, place, quantity, dimension)?;
            within(ev, place, &quantity, known).then(|| Typed::Amount(amount(quantity, place)))
        }
        (FieldKind::Text, ValueKind::Text(span)) => {
            let value = ev.text(file, *span).trim_matches('"').to_string();
            Some(Typed::Text(Named { value, place }))
        }
        (FieldKind::ReferenceOr(_, dimension), ValueKind::Measure(measure)) => match measure.amount.as_name() {
            Some(span) if measure.tolerance.is_none() && measure.relation.is_none() => {
                let value = ev.text(file, span).to_string();
                Some(Typed::Names(vec![Named { value, place: Place { file, span } }]))
            }
            _ => {
                plain(ev, file, measure, known)?;
                let quantity = ev.measure(file, measure)?;
                let quantity = of_dimension(ev, place, quantity, dimension)?;
                let positive = FieldWord { limit: Limit::Positive, ..*known };
                within(ev, place, &quantity, &positive).then(|| Typed::Amount(amount(quantity, place)))
            }
        },
        (
            FieldKind::Reference(_) | FieldKind::References(_),
            ValueKind::Measure(Measure { amount, tolerance: None, relation: None }),
        ) => {
            let Some(span) = amount.as_name() else { return wrong_form(ev, place, known) };
            Some(Typed::Names(vec![Named { value: ev.text(file, span).to_string(), place: Place { file, span } }]))
        }
        (FieldKind::References(_), ValueKind::List(elements)) => {
            let mut names = Vec::new();
            for element in elements {
                match (element.first.as_name(), &element.second) {
                    (Some(span), None) => {
                        names.push(Named { value: ev.text(file, span).to_string(), place: Place { file, span } })
                    }
                    _ => {
                        wrong_form::<()>(ev, Place { file, span: element.span }, known);
                    }
                }
            }
            Some(Typed::Names(names))
        }
        (FieldKind::Place | FieldKind::Places, ValueKind::Measure(measure)) => {
            placed(ev, file, known.word, measure, place).map(|p| Typed::Placed(vec![p]))
        }
        (FieldKind::Places, ValueKind::List(elements)) => {
            let mut places = Vec::with_capacity(elements.len());
            for element in elements {
                let at = Place { file, span: element.span };
                match &element.place {
                    Some(measure) => places.push(placed(ev, file, known.word, measure, at)?),
                    None => return wrong_form(ev, at, known),
                }
            }
            if places.is_empty() || places.len() > MOST_COPIES {
                return wrong_form(ev, place, known);
            }
            Some(Typed::Placed(places))
        }
        (FieldKind::Curve(x, y), ValueKind::List(elements)) => {
            curve::from_list(ev, file, elements, x, y, place).map(Typed::Curve)
        }
        (FieldKind::Curve(..), ValueKind::File(path)) => curve::from_file(cx, ev, file, *path, place).map(Typed::Curve),
        _ => wrong_form(ev, place, known),
    }
}

fn wrong_form<T>(ev: &mut Evaluator, place: Place, known: &FieldWord) -> Option<T> {
    ev.report(Problem::new(
        WRONG_FORM,
        place,
        format!("`{}` takes {}", known.word, vocabulary::takes(known.kind)),
        format!("for example `{}: {}`", known.word, known.example),
    ));
    None
}

/// A quantity's field takes no place behind it.
fn plain(ev: &mut Evaluator, file: FileId, measure: &Measure, known: &FieldWord) -> Option<()> {
    let Some(relation) = &measure.relation else { return Some(()) };
    ev.report(Problem::new(
        WRONG_FORM,
        Place { file, span: relation.span },
        format!("`{}` is {}, not a place", known.word, vocabulary::takes(known.kind)),
        "take these words out; a part's place is its `at`",
    ));
    None
}

fn placed<'f>(ev: &mut Evaluator<'f>, file: FileId, word: &str, measure: &'f Measure, place: Place) -> Option<Placed> {
    // `at: balance` alone is zero from the balance point.
    if let (Some(span), None) = (measure.amount.as_name(), &measure.relation) {
        if ev.text(file, span) == "balance" {
            let zero = Amount { si: 0.0, spread: Default::default(), place };
            let relation = Relation { span, toward: finwright_grammar::Toward::Ahead, anchor: span, edge: None };
            return Some((zero, Some(relation), place));
        }
    }
    let quantity = ev.measure(file, measure)?;
    let amount_place = Place { file, span: measure.amount.span };
    let quantity = if quantity.dimension == Dimension::NUMBER && quantity.value == 0.0 {
        ev.report(Problem::new(MISSING_UNIT, amount_place, "`0` has no unit; a length is due", "write `0 mm`"));
        return None;
    } else {
        of_dimension(ev, amount_place, quantity, Dimension::LENGTH)?
    };
    if !sensible(ev, amount_place, &quantity, word) {
        return None;
    }
    Some((amount(quantity, amount_place), measure.relation.clone(), place))
}

fn chosen(
    ev: &mut Evaluator,
    file: FileId,
    word: Span,
    choices: &'static [ChoiceWord],
    known: &FieldWord,
) -> Option<&'static ChoiceWord> {
    let written = ev.text(file, word);
    if let Some(choice) = choices.iter().find(|c| c.word == written) {
        return Some(choice);
    }
    let list: Vec<&str> = choices.iter().map(|c| c.word).collect();
    ev.report(
        Problem::new(
            UNKNOWN_NAME,
            Place { file, span: word },
            format!("`{}` can't be `{written}`", known.word),
            format!("it can be {}", list.join(", ")),
        )
        .did_you_mean(nearest(written, list)),
    );
    None
}

/// Whether the value keeps the field's limit; reports it if not.
fn within(ev: &mut Evaluator, place: Place, quantity: &Quantity, known: &FieldWord) -> bool {
    let (ok, wanted) = match known.limit {
        Limit::Any => (true, String::new()),
        Limit::Positive => (quantity.value > 0.0, "must be more than zero".to_string()),
        Limit::NotNegative => (quantity.value >= 0.0, "can't be negative".to_string()),
        Limit::Between(low, high) => (
            (low..=high).contains(&quantity.value),
            format!(
                "must be from {} to {}",
                show::quantity(low, quantity.dimension),
                show::quantity(high, quantity.dimension)
            ),
        ),
    };
    if ok {
        return sensible(ev, place, quantity, known.word);
    }
    let shown = ev.text(place.file, place.span).trim().to_string();
    ev.report(Problem::new(OUT_OF_RANGE, place, format!("`{}` {wanted}, and is {shown}", known.word), known.doc));
    false
}

/// Whether the value's size is one that a rocket's parts can have at all; reports it if not. The bounds are far outside of
/// anything that flies, so that what lies beyond them is a slip of the exponent or the unit, and they keep every later
/// number finite.
fn sensible(ev: &mut Evaluator, place: Place, quantity: &Quantity, word: &str) -> bool {
    let (least, most) = match quantity.dimension {
        Dimension::LENGTH => (1e-8, 1e5),
        Dimension::MASS => (1e-9, 1e5),
        Dimension::TIME => (1e-6, 1e5),
        Dimension::FORCE => (1e-6, 1e8),
        Dimension::SPEED => (1e-6, 1e5),
        Dimension::DENSITY => (1e-3, 1e5),
        Dimension::PRESSURE => (1e-3, 1e13),
        Dimension::NUMBER | Dimension::ANGLE => (1e-6, 1e6),
        _ => (1e-20, 1e20),
    };
    let size = quantity.value.abs();
    if size == 0.0 || (least..=most).contains(&size) {
        return true;
    }
    let bound = if size > most {
        format!("more than {}", show::quantity(most, quantity.dimension))
    } else {
        format!("less than {}", show::quantity(least, quantity.dimension))
    };
    let shown = ev.text(place.file, place.span).trim().to_string();
    ev.report(Problem::new(
        OUT_OF_RANGE,
        place,
        format!("`{word}` can't be {shown}: that is {bound}"),
        "check the unit and the decimal point",
    ));
    false
}

pub(crate) fn amount(quantity: Quantity, place: Place) -> Amount {
    Amount { si: quantity.value, spread: quantity.spread, place }
}
