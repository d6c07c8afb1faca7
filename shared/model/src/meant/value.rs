//! A value in a form that the language doesn't have, or a word that nothing defines.

use crate::evaluate::Evaluator;
use crate::part_word::is_placed_by_middle;
use crate::problem::{Problem, UNKNOWN_NAME, WRONG_FORM};
use crate::sought::Sought;
use finwright_grammar::vocabulary::slips::{as_name, is_name, is_yes_or_no, place_meant, says_unknown, PlaceMeant};
use finwright_grammar::vocabulary::{self, FieldKind, FieldWord, Kind};
use finwright_grammar::{unquoted, Block, Expr, ExprKind, Field, FileId, Item, Measure, Place, ValueKind};
use finwright_units::{find_unit, show, Dimension};

/// What is wrong with a field's value by its looks, before it's computed; `None` where nothing is.
pub(crate) fn of_field<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    known: &FieldWord,
    field: &'f Field,
) -> Option<Problem> {
    let value = field.value.as_ref()?;
    let place = Place { file, span: value.span };
    let shown = ev.text(file, value.span).trim();
    match &value.kind {
        ValueKind::Measure(Measure { amount, tolerance: None, relation: None, height: None }) => match amount.as_name()
        {
            Some(span) => lone_name(ev, file, block, known, Place { file, span }),
            None => names_with_signs(ev, file, known, amount, place, shown),
        },
        ValueKind::Text(span) => quoted(known, place, unquoted(ev.text(file, *span))),
        // `mm 12`
        ValueKind::Choice { word, number } if matches!(known.kind, FieldKind::Quantity(_)) => {
            let unit = ev.text(file, *word);
            find_unit(unit).ok()?;
            let meant = format!("{} {unit}", ev.text(file, number.1));
            Some(
                Problem::new(WRONG_FORM, place, "a unit stands behind its number", format!("write `{meant}`"))
                    .replaced_by(format!("write `{meant}`"), meant),
            )
        }
        _ => None,
    }
}

/// A lone name that nothing defines, where its field takes none.
fn lone_name<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    known: &FieldWord,
    place: Place,
) -> Option<Problem> {
    let name = ev.text(file, place.span);
    if says_unknown(name) && !ev.defines(file, name) {
        return Some(not_known(known.word, name, place));
    }
    match known.kind {
        FieldKind::Text => {
            let meant = format!("\"{name}\"");
            Some(
                Problem::new(
                    WRONG_FORM,
                    place,
                    format!("`{}` takes a text in quotes", known.word),
                    format!("write `{meant}`"),
                )
                .replaced_by(format!("write `{meant}`"), meant),
            )
        }
        FieldKind::Choice(choices) | FieldKind::ChoiceOr(choices, _) if is_yes_or_no(name) => {
            let list: Vec<&str> = choices.iter().map(|c| c.word).collect();
            let message = format!("`{}` takes a word of its own, not `{name}`", known.word);
            Some(Problem::new(UNKNOWN_NAME, place, message, format!("it can be {}", list.join(", "))))
        }
        FieldKind::Place | FieldKind::Places if name == "balance" => None,
        FieldKind::Place | FieldKind::Places if !ev.defines(file, name) || name == "tail" => {
            lone_place(ev, file, block, known, place)
        }
        FieldKind::Place | FieldKind::Places if ev.binding(file, name).is_none() => {
            let is_part = ev.block(file, name, Sought::Part).is_some();
            let what = match ev.block(file, name, Sought::Block)? {
                _ if is_part => "part",
                (at, block) => ev.text(at, block.word),
            };
            let message = format!("`{}` takes how far and from where, and `{name}` is a {what}", known.word);
            let help = if is_part {
                format!("for example `3 mm from {name}.front` or `3 mm from {name}.back`")
            } else {
                "for example `3 mm from front` or `3 mm from back`".to_string()
            };
            Some(Problem::new(WRONG_FORM, place, message, help))
        }
        FieldKind::Quantity(_) | FieldKind::Count if is_yes_or_no(name) && !ev.defines(file, name) => {
            let message = format!("`{}` takes {}, not `{name}`", known.word, short(known.kind));
            Some(Problem::new(WRONG_FORM, place, message, format!("for example `{}: {}`", known.word, known.example)))
        }
        _ => None,
    }
}

/// A place without a distance: `at: bottom`.
fn lone_place<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    known: &FieldWord,
    place: Place,
) -> Option<Problem> {
    let name = ev.text(file, place.span);
    let meant = if name == "tail" { PlaceMeant::Back } else { place_meant(name)? };
    let how = format!("`{}` takes how far and from where, and `{name}` is only where", known.word);
    let by_middle = is_placed_by_middle(ev.text(file, block.word));
    match meant {
        PlaceMeant::Balance => Some(
            Problem::new(
                UNKNOWN_NAME,
                place,
                format!("the balance point is `balance` here, not `{name}`"),
                "write `balance`",
            )
            .replaced_by("write `balance`", "balance"),
        ),
        PlaceMeant::Middle => {
            let example = "a part is placed by an edge, for example `90 mm from front`; `balance` is the balance point";
            Some(Problem::new(WRONG_FORM, place, how, example))
        }
        PlaceMeant::Front | PlaceMeant::Back | PlaceMeant::Tip => {
            // A small thing is placed by its middle, and lies within where that is half its length from the edge.
            let half = if by_middle { own_length(ev, file, block).map_or(0.0, |length| length / 2.0) } else { 0.0 };
            let meant = format!("{} mm from {}", show::trimmed(half * 1e3, 2), meant.word().unwrap_or("front"));
            let middle = if half > 0.0 { ": it's placed by its middle" } else { "" };
            Some(
                Problem::new(WRONG_FORM, place, how, format!("write `{meant}`{middle}"))
                    .replaced_by(format!("write `{meant}`"), meant),
            )
        }
    }
}

/// How long a guide or a load is along the rocket, where it says so.
fn own_length<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block) -> Option<f64> {
    if !matches!(ev.text(file, block.word), "lug" | "rail_guide" | "load") {
        return None;
    }
    let field = block.fields().find(|f| ev.text(file, f.name) == "length")?;
    let ValueKind::Measure(measure) = &field.value.as_ref()?.kind else { return None };
    let before = ev.problems.len();
    let length = ev.value(file, &measure.amount).filter(|q| q.dimension == Dimension::LENGTH);
    ev.problems.truncate(before);
    length.map(|q| q.value)
}

/// A name with a dash in it, or several names added up, where names are due: `motor: C7-5`, `guided_by: aft + fore`.
fn names_with_signs(
    ev: &Evaluator,
    file: FileId,
    known: &FieldWord,
    amount: &Expr,
    place: Place,
    shown: &str,
) -> Option<Problem> {
    let ExprKind::Sum(terms) = &amount.kind else { return None };
    let of_names = terms.iter().all(|(_, term)| term.as_name().is_some());
    match known.kind {
        FieldKind::Text if !shown.contains('"') => {
            let meant = format!("\"{shown}\"");
            Some(
                Problem::new(
                    WRONG_FORM,
                    place,
                    format!("`{}` takes a text in quotes", known.word),
                    format!("write `{meant}`"),
                )
                .replaced_by(format!("write `{meant}`"), meant),
            )
        }
        FieldKind::References(_) if of_names && terms.iter().all(|(subtracts, _)| !subtracts) => {
            let names: Vec<&str> = terms.iter().map(|(_, term)| ev.text(file, term.span)).collect();
            let meant = format!("[{}]", names.join(", "));
            Some(
                Problem::new(
                    WRONG_FORM,
                    place,
                    format!("several values for `{}` stand in a list", known.word),
                    format!("write `{meant}`"),
                )
                .replaced_by(format!("write `{meant}`"), meant),
            )
        }
        FieldKind::Reference(_) | FieldKind::References(_) | FieldKind::ReferenceOr(..) => {
            not_a_name(ev, file, known, place, shown)
        }
        _ => None,
    }
}

/// A name with a dash in it, where it's referred to.
fn not_a_name(ev: &Evaluator, file: FileId, known: &FieldWord, place: Place, shown: &str) -> Option<Problem> {
    let is_one_word = shown.contains('-') && shown.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_'));
    let motor =
        matches!(known.kind, FieldKind::Reference(Kind::Motor)).then(|| motor_of_code(ev, file, shown)).flatten();
    if let Some(name) = motor {
        let message = format!("`{shown}` is a motor's code, and its name is `{name}`");
        return Some(
            Problem::new(WRONG_FORM, place, message, format!("write `{}: {name}`", known.word))
                .replaced_by(format!("write `{name}`"), name),
        );
    }
    is_one_word.then(|| {
        let meant = as_name(known.word, shown);
        let message = format!("a name has no dash in it, and `{shown}` has one");
        Problem::new(WRONG_FORM, place, message, format!("write `{meant}`, here and where it's named"))
            .replaced_by(format!("write `{meant}`"), meant)
    })
}

/// The name of the motor that has this code.
fn motor_of_code<'f>(ev: &Evaluator<'f>, file: FileId, code: &str) -> Option<&'f str> {
    let tree = &ev.files.get(file.0 as usize)?.tree;
    let motors = tree.items.iter().filter_map(|item| match item {
        Item::Block(block) if tree.text(block.word) == "motor" => Some(block),
        _ => None,
    });
    let is_its_own = |field: &Field| {
        let value = field.value.as_ref().map_or("", |value| unquoted(tree.text(value.span)));
        tree.text(field.name) == "code" && value == code
    };
    motors.filter(|motor| motor.fields().any(is_its_own)).find_map(|motor| motor.name).map(|name| tree.text(name))
}

/// A value in quotes where none belong: `length: "12 mm"`, `shape: "ogive"`.
fn quoted(known: &FieldWord, place: Place, inside: &str) -> Option<Problem> {
    let inside = inside.trim();
    let is_sound = match known.kind {
        FieldKind::Quantity(dimension) | FieldKind::AtHeight(dimension) => {
            let digits = inside.find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
            let is_number = inside.get(..digits)?.parse::<f64>().is_ok();
            is_number && find_unit(inside.get(digits..)?.trim()).is_ok_and(|unit| unit.dimension == dimension)
        }
        FieldKind::Count => inside.parse::<u32>().is_ok(),
        FieldKind::Choice(choices) | FieldKind::ChoiceOr(choices, _) => choices.iter().any(|c| c.word == inside),
        FieldKind::Reference(_) | FieldKind::ReferenceOr(..) | FieldKind::References(_) => is_name(inside),
        FieldKind::Place | FieldKind::Places => {
            inside.contains(" from ") || inside.contains(" of balance") || inside == "balance"
        }
        FieldKind::Text | FieldKind::Curve(..) | FieldKind::Recording(..) | FieldKind::Opening => false,
    };
    is_sound.then(|| {
        Problem::new(
            WRONG_FORM,
            place,
            format!("`{}` takes {} without quotes", known.word, short(known.kind)),
            format!("write `{inside}`"),
        )
        .replaced_by(format!("write `{inside}`"), inside)
    })
}

/// What a field takes, in three words.
fn short(kind: FieldKind) -> String {
    match kind {
        FieldKind::Quantity(dimension) | FieldKind::AtHeight(dimension) => dimension.phrase(),
        FieldKind::Count => "a whole number".to_string(),
        FieldKind::Choice(_) | FieldKind::ChoiceOr(..) => "a word".to_string(),
        FieldKind::Reference(_) | FieldKind::ReferenceOr(..) | FieldKind::References(_) => "a name".to_string(),
        FieldKind::Place | FieldKind::Places => "a place".to_string(),
        other => vocabulary::takes(other),
    }
}

/// A value that says that it isn't known.
fn not_known(field: &str, written: &str, place: Place) -> Problem {
    Problem::new(
        UNKNOWN_NAME,
        place,
        format!("`{written}` isn't a value for `{field}`"),
        format!("leave `{field}` out while it isn't known"),
    )
}
