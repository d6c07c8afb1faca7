//! One field's value in the form that its word calls for, within the limits that it has.

use crate::curve;
use crate::design::{Amount, Choice, Curve, Named, Opening, Opens};
use crate::evaluate::{of_dimension, Evaluator};
use crate::meant;
use crate::problem::{Problem, MISSING_UNIT, OUT_OF_RANGE, WRONG_FORM};
use finwright_grammar::vocabulary::{self, BlockWord, ChoiceWord, FieldKind, FieldWord, Kind, Limit};
use finwright_grammar::{
    unquoted, Block, Element, Expr, ExprKind, Field, FileId, Measure, Place, Relation, Span, Toward, ValueKind,
};
use finwright_units::{show, Dimension, Quantity};

/// A value, typed.
pub(crate) enum Typed {
    Amount(Amount),
    Choice(Choice),
    Text(Named<String>),
    Names(Vec<Named<String>>),
    Placed(Vec<Placed>),
    Curve(Curve),
    AtHeight(Amount, Option<Amount>),
    Opening(Opening),
}

/// A placement as written: the distance, what it is relative to, and the whole value's place.
pub(crate) type Placed = (Amount, Option<Relation>, Place);

/// More copies of one part than this aren't a rocket.
const MOST_COPIES: usize = 24;

/// A field that is being read.
#[derive(Clone, Copy)]
struct Asked {
    file: FileId,
    /// The whole value.
    place: Place,
    of: &'static BlockWord,
    known: &'static FieldWord,
}

/// A field's value in the form that its word calls for. `None` where it has no such form, which has been reported, or no
/// value yet.
pub(crate) fn typed<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    (block, of): (&'f Block, &'static BlockWord),
    known: &'static FieldWord,
    field: &'f Field,
) -> Option<Typed> {
    let value = field.value.as_ref()?;
    let place = Place { file, span: value.span };
    if let Some(problem) = meant::of_field(ev, file, block, known, field) {
        ev.report(problem);
        return None;
    }
    let asked = Asked { file, place, of, known };
    match (known.kind, &value.kind) {
        (FieldKind::Quantity(dimension), ValueKind::Measure(measure)) => quantity(ev, asked, measure, dimension),
        (FieldKind::AtHeight(dimension), ValueKind::Measure(measure)) => at_height(ev, asked, measure, dimension),
        (FieldKind::Opening, ValueKind::Event(name)) => {
            let when = match ev.text(file, *name) {
                "delay" => Opens::AtDelay,
                "top" => Opens::AtTop,
                _ => return wrong_form(ev, place, known),
            };
            Some(Typed::Opening(Opening { when, place }))
        }
        (FieldKind::Opening, ValueKind::Measure(measure)) => opening(ev, file, measure, place, known),
        (FieldKind::Count, ValueKind::Measure(measure)) => count(ev, asked, measure),
        (FieldKind::Choice(choices) | FieldKind::ChoiceOr(choices, _), ValueKind::Choice { word, number }) => {
            choice_with_number(ev, asked, choices, *word, *number)
        }
        (
            FieldKind::Choice(choices),
            ValueKind::Measure(Measure { amount, tolerance: None, relation: None, height: None }),
        ) => {
            let Some(word) = amount.as_name() else { return wrong_form(ev, place, known) };
            let choice = chosen(ev, file, word, choices, known)?;
            Some(Typed::Choice(Choice { word: choice.word, number: choice.number.map(|n| n.2), place }))
        }
        (FieldKind::ChoiceOr(choices, dimension), ValueKind::Measure(measure)) => {
            choice_or_quantity(ev, asked, choices, measure, dimension)
        }
        (FieldKind::Text, ValueKind::Text(span)) => {
            let value = unquoted(ev.text(file, *span)).to_string();
            Some(Typed::Text(Named { value, place }))
        }
        (FieldKind::ReferenceOr(kind, dimension), ValueKind::Measure(measure)) => {
            reference_or_quantity(ev, asked, measure, (kind, dimension))
        }
        (
            FieldKind::Reference(_) | FieldKind::References(_),
            ValueKind::Measure(Measure { amount, tolerance: None, relation: None, height: None }),
        ) => {
            let Some(span) = amount.as_name() else { return wrong_form(ev, place, known) };
            Some(Typed::Names(vec![named(ev, file, span)]))
        }
        (FieldKind::References(_), ValueKind::List(elements)) => Some(references(ev, asked, elements)),
        (FieldKind::Place | FieldKind::Places, ValueKind::Measure(measure)) => {
            placed(ev, file, known.word, measure, place).map(|p| Typed::Placed(vec![p]))
        }
        (FieldKind::Places, ValueKind::List(elements)) => places(ev, asked, elements),
        (FieldKind::Curve(x, y), ValueKind::List(elements)) => {
            curve::from_list(ev, file, elements, x, y, place).map(Typed::Curve)
        }
        (FieldKind::Curve(x, _), ValueKind::File(path)) => {
            curve::from_file(ev, file, *path, x, place).map(Typed::Curve)
        }
        (FieldKind::Recording(x, y), ValueKind::File(path)) => {
            curve::recording(ev, file, *path, (x, y), place).map(Typed::Curve)
        }
        _ => wrong_form(ev, place, known),
    }
}

fn quantity<'f>(
    ev: &mut Evaluator<'f>,
    Asked { file, place, of, known }: Asked,
    measure: &'f Measure,
    dimension: Dimension,
) -> Option<Typed> {
    plain(ev, file, measure, known)?;
    let quantity = due(ev, place, measure, (of, known), dimension)?;
    if !within(ev, place, &quantity, known) || !meant::possible(ev, place, of, known, &quantity, measure) {
        return None;
    }
    sensible(ev, place, &quantity, known.word).then(|| Typed::Amount(amount(quantity, place)))
}

fn at_height<'f>(
    ev: &mut Evaluator<'f>,
    Asked { file, place, of, known }: Asked,
    measure: &'f Measure,
    dimension: Dimension,
) -> Option<Typed> {
    not_placed(ev, file, measure, known)?;
    let quantity = due(ev, place, measure, (of, known), dimension)?;
    let fits = within(ev, place, &quantity, known) && sensible(ev, place, &quantity, known.word);
    let height = match &measure.height {
        Some(height) => Some(height_of(ev, file, height)?),
        None => None,
    };
    fits.then(|| Typed::AtHeight(amount(quantity, place), height))
}

fn count<'f>(ev: &mut Evaluator<'f>, asked: Asked, measure: &'f Measure) -> Option<Typed> {
    let Asked { file, place, known, .. } = asked;
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
    sized(ev, place, quantity, known)
}

fn choice_with_number(
    ev: &mut Evaluator,
    Asked { file, place, known, .. }: Asked,
    choices: &'static [ChoiceWord],
    word: Span,
    (value, span): (f64, Span),
) -> Option<Typed> {
    let choice = chosen(ev, file, word, choices, known)?;
    let there = Place { file, span };
    let Some((low, high, _)) = choice.number else {
        let message = format!("`{}` takes no number", choice.word);
        ev.report(Problem::new(WRONG_FORM, there, message, "take the number out"));
        return None;
    };
    if !(low..=high).contains(&value) {
        let (low, high) = (show::number(low), show::number(high));
        let message = format!("`{}` takes a number from {low} to {high}", choice.word);
        ev.report(Problem::new(OUT_OF_RANGE, there, message, choice.doc));
        return None;
    }
    Some(Typed::Choice(Choice { word: choice.word, number: Some(value), place }))
}

fn choice_or_quantity<'f>(
    ev: &mut Evaluator<'f>,
    asked: Asked,
    choices: &'static [ChoiceWord],
    measure: &'f Measure,
    dimension: Dimension,
) -> Option<Typed> {
    let Asked { file, place, of, known } = asked;
    let name = measure.amount.as_name().map(|span| ev.text(file, span));
    if let Some(choice) = name.and_then(|name| choices.iter().find(|c| c.word == name)) {
        return Some(Typed::Choice(Choice { word: choice.word, number: choice.number.map(|n| n.2), place }));
    }
    if let (Some(name), Some(span)) = (name, measure.amount.as_name()) {
        let problem = meant::choice(Place { file, span }, name, known, choices);
        if problem.replacement.is_some() && !ev.defines(file, name) {
            ev.report(problem);
            return None;
        }
    }
    plain(ev, file, measure, known)?;
    let quantity = due(ev, place, measure, (of, known), dimension)?;
    sized(ev, place, quantity, known)
}

fn reference_or_quantity<'f>(
    ev: &mut Evaluator<'f>,
    Asked { file, place, of, known }: Asked,
    measure: &'f Measure,
    (kind, dimension): (Kind, Dimension),
) -> Option<Typed> {
    let is_bare = measure.tolerance.is_none() && measure.relation.is_none();
    let name = measure.amount.as_name().filter(|_| is_bare);
    match name.filter(|span| !ev.is_value_and_no(kind, file, ev.text(file, *span))) {
        Some(span) => Some(Typed::Names(vec![named(ev, file, span)])),
        _ => {
            plain(ev, file, measure, known)?;
            let quantity = due(ev, place, measure, (of, known), dimension)?;
            let positive = FieldWord { limit: Limit::Positive, ..*known };
            sized(ev, place, quantity, &positive)
        }
    }
}

/// A quantity as an amount, where its size is within a field's limits and makes sense.
fn sized(ev: &mut Evaluator, place: Place, quantity: Quantity, known: &FieldWord) -> Option<Typed> {
    let fits = within(ev, place, &quantity, known) && sensible(ev, place, &quantity, known.word);
    fits.then(|| Typed::Amount(amount(quantity, place)))
}

/// Names in a list; what isn't one is told and left out.
fn references(ev: &mut Evaluator, Asked { file, known, .. }: Asked, elements: &[Element]) -> Typed {
    let mut names = Vec::new();
    for element in elements {
        match (element.first.as_name(), &element.second) {
            (Some(span), None) => names.push(named(ev, file, span)),
            _ => drop(wrong_form::<()>(ev, Place { file, span: element.span }, known)),
        }
    }
    Typed::Names(names)
}

fn places<'f>(
    ev: &mut Evaluator<'f>,
    Asked { file, place, known, .. }: Asked,
    elements: &'f [Element],
) -> Option<Typed> {
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

fn named(ev: &Evaluator, file: FileId, span: Span) -> Named<String> {
    Named { value: ev.text(file, span).to_string(), place: Place { file, span } }
}

/// A measure's quantity, which must be of a dimension.
fn due<'f>(
    ev: &mut Evaluator<'f>,
    place: Place,
    measure: &'f Measure,
    (of, known): (&BlockWord, &FieldWord),
    dimension: Dimension,
) -> Option<Quantity> {
    ev.wanted = Some(dimension);
    let quantity = ev.measure(place.file, measure);
    ev.wanted = None;
    let quantity = quantity?;
    let bare = match &measure.amount.kind {
        ExprKind::Quantity { number, unit: None } if measure.tolerance.is_none() => Some(*number),
        _ => None,
    };
    if quantity.dimension == Dimension::NUMBER && dimension != Dimension::NUMBER {
        let problem = meant::without_unit(ev, place, bare, of, known, dimension);
        ev.report(problem);
        return None;
    }
    of_dimension(ev, place, quantity, dimension)
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

/// When something opens, with an amount: so high above the ground, or so long after the highest point.
fn opening<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    measure: &'f Measure,
    place: Place,
    known: &FieldWord,
) -> Option<Typed> {
    let Some(relation) = measure.relation.as_ref().filter(|_| measure.height.is_none()) else {
        return wrong_form(ev, place, known);
    };
    let dimension = match (relation.toward, ev.text(file, relation.anchor)) {
        (Toward::Above, "ground") => Dimension::LENGTH,
        (Toward::After, "top") => Dimension::TIME,
        _ => return wrong_form(ev, place, known),
    };
    let quantity = ev.measure(file, measure)?;
    let at = Place { file, span: measure.amount.span };
    let quantity = of_dimension(ev, at, quantity, dimension)?;
    let limited = FieldWord { limit: Limit::NotNegative, ..*known };
    if !(within(ev, at, &quantity, &limited) && sensible(ev, at, &quantity, known.word)) {
        return None;
    }
    let said = amount(quantity, at);
    let when = if dimension == Dimension::LENGTH { Opens::AboveGround(said) } else { Opens::AfterTop(said) };
    Some(Typed::Opening(Opening { when, place }))
}

/// The height at which a wind is read.
fn height_of<'f>(ev: &mut Evaluator<'f>, file: FileId, height: &'f Expr) -> Option<Amount> {
    /// From a hand near the ground to a tall mast, m.
    const HEIGHTS: (f64, f64) = (0.5, 200.0);
    let at = Place { file, span: height.span };
    let quantity = ev.value(file, height)?;
    let quantity = of_dimension(ev, at, quantity, Dimension::LENGTH)?;
    if !(HEIGHTS.0..=HEIGHTS.1).contains(&quantity.value) {
        let (low, high) = (show::length(HEIGHTS.0), show::length(HEIGHTS.1));
        let message = format!("a wind is read from {low} to {high} up");
        ev.report(Problem::new(OUT_OF_RANGE, at, message, "a meter in the hand is about 2 m up, a mast 10 m"));
        return None;
    }
    Some(amount(quantity, at))
}

/// A quantity's field takes no place and no height behind it.
fn plain(ev: &mut Evaluator, file: FileId, measure: &Measure, known: &FieldWord) -> Option<()> {
    if let Some(height) = &measure.height {
        ev.report(Problem::new(
            WRONG_FORM,
            Place { file, span: height.span },
            format!("`{}` takes no height", known.word),
            format!("for example `{}: {}`", known.word, known.example),
        ));
        return None;
    }
    not_placed(ev, file, measure, known)
}

fn not_placed(ev: &mut Evaluator, file: FileId, measure: &Measure, known: &FieldWord) -> Option<()> {
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
        ev.report(
            Problem::new(MISSING_UNIT, amount_place, "`0` has no unit; a length is due", "write `0 mm`")
                .replaced_by("write `0 mm`", "0 mm"),
        );
        return None;
    } else {
        of_dimension(ev, amount_place, quantity, Dimension::LENGTH)?
    };
    if !sensible(ev, amount_place, &quantity, word) {
        return None;
    }
    Some((amount(quantity, amount_place), measure.relation.as_deref().cloned(), place))
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
    ev.report(meant::choice(Place { file, span: word }, written, known, choices));
    None
}

/// Whether the value keeps the field's limit; reports it if not.
fn within(ev: &mut Evaluator, place: Place, quantity: &Quantity, known: &FieldWord) -> bool {
    let ok = match known.limit {
        Limit::Any => true,
        Limit::Positive => quantity.value > 0.0,
        Limit::NotNegative => quantity.value >= 0.0,
        Limit::Between(low, high) => (low..=high).contains(&quantity.value),
    };
    if !ok {
        let wanted = wanted(known.limit, quantity.dimension);
        let shown = ev.text(place.file, place.span).trim().to_string();
        ev.report(Problem::new(OUT_OF_RANGE, place, format!("`{}` {wanted}, and is {shown}", known.word), known.doc));
        return false;
    }
    // With a tolerance as large as the value it could be nothing at all.
    let all_of_it = known.limit == Limit::Positive && quantity.spread.total() >= quantity.value;
    if all_of_it {
        let shown = ev.text(place.file, place.span).trim();
        let message = format!("`{}` could be zero within its tolerance: {shown}", known.word);
        ev.report(Problem::new(OUT_OF_RANGE, place, message, "give a tolerance that is less than the value"));
    }
    !all_of_it
}

/// What a limit wants of a value.
fn wanted(limit: Limit, dimension: Dimension) -> String {
    match limit {
        Limit::Any => String::new(),
        Limit::Positive => "must be more than zero".to_string(),
        Limit::NotNegative => "can't be negative".to_string(),
        Limit::Between(low, high) => {
            format!("must be from {} to {}", show::quantity(low, dimension), show::quantity(high, dimension))
        }
    }
}

/// Whether the value's size is one that a rocket's parts can have at all; reports it if not. The bounds are far outside
/// of anything that flies, so that what lies beyond them is a slip of the exponent or the unit, and they keep every
/// later number finite.
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
