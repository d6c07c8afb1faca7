//! A field whose word isn't one of its block's.

use crate::evaluate::Evaluator;
use crate::problem::{Problem, UNKNOWN_FIELD};
use finwright_grammar::vocabulary::slips::{block_meant, field_meant, is_field_word, squeezed, FieldMeant};
use finwright_grammar::vocabulary::{self, nearest, BlockWord, FieldKind};
use finwright_grammar::{Block, Field, FileId, Measure, Place, Value, ValueKind};
use finwright_units::{show, Dimension, Quantity};

/// A field that its block doesn't have, and the field that its author says by it, as far as that can be told: it's said
/// then, in a way that can't be understood, and no default may stand in for it.
pub(crate) fn unknown_field<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    word: &'static BlockWord,
    field: &'f Field,
) -> (Problem, Option<&'static str>) {
    let name = ev.text(file, field.name);
    let place = Place { file, span: field.name };
    let said = |ev: &Evaluator, other: &str| block.fields().any(|f| ev.text(file, f.name) == other);
    if let Some((inner, problem)) = a_block(ev, file, word, field, place) {
        return (problem, Some(inner));
    }
    if let Some(meant) = field_meant(word.word, name) {
        let said = said(ev, meant.word);
        if let Some(problem) = from_wall(ev, file, block, word, field, meant).filter(|_| !said) {
            return (problem, Some(meant.word));
        }
        let problem = foreign(ev, file, word, field, meant, said);
        return (problem, Some(meant.word).filter(|_| !said));
    }
    let known: Vec<&'static str> = word.fields.iter().map(|f| f.word).collect();
    let help = if known.is_empty() {
        format!("`{}` has blocks in it, no fields", word.word)
    } else {
        format!("it has {}", known.join(", "))
    };
    let message = format!("`{}` has no field `{name}`", word.word);
    let near = nearest(name, known.iter().copied());
    let meant = known.into_iter().find(|known| Some(*known) == near && !said(ev, known));
    (Problem::new(UNKNOWN_FIELD, place, message, help).did_you_mean(near), meant)
}

/// A word that people use for a field.
fn foreign(ev: &Evaluator, file: FileId, word: &BlockWord, field: &Field, meant: FieldMeant, said: bool) -> Problem {
    let name = ev.text(file, field.name);
    let place = Place { file, span: field.name };
    let message = format!("`{}` has no field `{name}`", word.word);
    if said {
        return Problem::new(UNKNOWN_FIELD, place, message, format!("take it out: `{}` says it already", meant.word));
    }
    if !meant.sure {
        return Problem::new(UNKNOWN_FIELD, place, message, meant.note);
    }
    let value = field.value.as_ref().map_or("…", |value| ev.text(file, value.span).trim());
    let known = word.field(meant.word).map(|field| field.kind);
    let takes_number =
        matches!(known, Some(FieldKind::Quantity(_) | FieldKind::Count | FieldKind::Place | FieldKind::Places));
    let is_other = takes_number && !value.contains(|c: char| c.is_ascii_digit()) && !ev.defines(file, value);
    let value = if value.chars().count() > 32 || value.contains('\n') || is_other { "…" } else { value };
    let note = if meant.note.is_empty() { String::new() } else { format!("; {}", meant.note) };
    Problem::new(
        UNKNOWN_FIELD,
        place,
        format!("{message}: here it's `{}`", meant.word),
        format!("write `{}: {value}`{note}", meant.word),
    )
    .replaced_by(format!("write `{}`", meant.word), meant.word)
}

/// A tube's wall, where the two diameters are due: the one that isn't said, in numbers where the other one is known.
fn from_wall<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    word: &'static BlockWord,
    field: &'f Field,
    meant: FieldMeant,
) -> Option<Problem> {
    let (known, sign) = match (word.word, meant.word) {
        ("tube" | "coupler" | "tube_fins" | "ring_fin", "inner") => ("outer", -2.0),
        ("mount", "outer") => ("bore", 2.0),
        _ => return None,
    };
    let name = squeezed(ev.text(file, field.name));
    if !name.contains("wall") && !name.contains("thick") {
        return None;
    }
    let wall = length_of(ev, file, field.value.as_ref()?)?.value;
    // The other diameter may be said in other words too.
    let other = block.fields().find(|f| {
        let name = ev.text(file, f.name);
        name == known || field_meant(word.word, name).is_some_and(|meant| meant.sure && meant.word == known)
    })?;
    let outer = length_of(ev, file, other.value.as_ref()?)?.value;
    let result = outer + sign * wall;
    let place = Place { file, span: field.name };
    let message = format!("`{}` has no field `{}`: here it's `{}`", word.word, ev.text(file, field.name), meant.word);
    if result <= 0.0 {
        return Some(Problem::new(UNKNOWN_FIELD, place, message, meant.note));
    }
    let mm = |si: f64| format!("{} mm", show::trimmed(si * 1e3, 3));
    let text = format!("{}: {}", meant.word, mm(result));
    let verb = if sign < 0.0 { "less" } else { "and" };
    let help = format!("write `{text}`: `{known}`, {}, {verb} twice the wall of {}", mm(outer), mm(wall));
    let mut problem = Problem::new(UNKNOWN_FIELD, place, message, help);
    problem.replacement = Some(crate::problem::Replacement {
        title: format!("write `{text}`"),
        place: Place { file, span: field.span },
        text,
    });
    Some(problem)
}

/// A block written as a field: `rod: 1/8 in`.
fn a_block<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    word: &'static BlockWord,
    field: &'f Field,
    place: Place,
) -> Option<(&'static str, Problem)> {
    let name = ev.text(file, field.name);
    let inner = block_meant(name, Some(word.word)).filter(|meant| meant.sure)?;
    // `engine` may be this block's own field in other words.
    if inner.word != name && field_meant(word.word, name).is_some() {
        return None;
    }
    let inner = vocabulary::block(inner.word)?;
    let length = field.value.as_ref().and_then(|value| length_of(ev, file, value));
    let mut filled = false;
    let mut fields: Vec<String> = Vec::new();
    for needed in inner.fields.iter().filter(|f| f.needed) {
        // The value goes to the measure that people mean by it.
        let takes = !filled
            && matches!(needed.kind, FieldKind::Quantity(Dimension::LENGTH))
            && matches!(needed.word, "diameter" | "bore");
        let section = match (needed.word, &length) {
            ("slot", Some(width)) => section_of(ev, width.value),
            _ => None,
        };
        filled |= takes && length.is_some();
        let value = match (&field.value, section) {
            (_, Some(section)) => section,
            (Some(value), None) if takes && length.is_some() => ev.text(file, value.span).trim().to_string(),
            _ => "…".to_string(),
        };
        fields.push(format!("{}: {value}", needed.word));
    }
    let body = if fields.is_empty() { "…".to_string() } else { fields.join("; ") };
    let problem = Problem::new(
        UNKNOWN_FIELD,
        place,
        format!("`{}` is a block, not a field", inner.word),
        format!("write `{} {{ {body} }}`", inner.word),
    );
    Some((inner.word, problem))
}

fn length_of<'f>(ev: &mut Evaluator<'f>, file: FileId, value: &'f Value) -> Option<Quantity> {
    let ValueKind::Measure(Measure { amount, relation: None, height: None, .. }) = &value.kind else { return None };
    let before = ev.problems.len();
    let length = ev.value(file, amount).filter(|q| q.dimension == Dimension::LENGTH);
    ev.problems.truncate(before);
    length
}

/// The built-in rail section of a width.
fn section_of(ev: &Evaluator, width: f64) -> Option<String> {
    let mut sections = ev.built_in?.sections.iter();
    let found = sections.find(|s| s.width.as_ref().is_some_and(|w| (w.si - width).abs() < 0.2e-3))?;
    Some(found.name.value.clone())
}

/// A field that stands outside of any block.
pub(crate) fn outside_of_blocks(ev: &Evaluator, file: FileId, field: &Field) -> Problem {
    let name = ev.text(file, field.name);
    let place = Place { file, span: field.name };
    let whole = Place { file, span: field.span };
    let text = field.value.as_ref().map(|value| (ev.text(file, value.span).trim(), &value.kind));
    let message = format!("the field `{name}` stands outside of any block");
    let title = matches!(squeezed(name).as_str(), "design" | "title" | "name" | "rocket" | "rocketname" | "project");
    match text {
        Some((text, _)) if matches!(squeezed(name).as_str(), "finwright" | "version") => {
            let meant = "finwright 1";
            let message = format!("the language's version has no colon, as `{name}: {text}` has");
            Problem::new(UNKNOWN_FIELD, whole, message, format!("write `{meant}`"))
                .replaced_by(format!("write `{meant}`"), meant)
        }
        Some((text, ValueKind::Text(_))) if title => {
            let meant = format!("design {text} {{ }}");
            let help = format!("write `{meant}`");
            let mut problem =
                Problem::new(UNKNOWN_FIELD, place, "what the rocket is called is a block, `design`", help);
            problem.replacement =
                Some(crate::problem::Replacement { title: format!("write `{meant}`"), place: whole, text: meant });
            problem
        }
        Some((text, ValueKind::Measure(Measure { relation: None, height: None, .. })))
            if !is_field_word(name) && block_meant(name, None).is_none() =>
        {
            let meant = format!("let {name} = {text}");
            let mut problem = Problem::new(UNKNOWN_FIELD, place, message, format!("to name a value, write `{meant}`"));
            problem.replacement =
                Some(crate::problem::Replacement { title: format!("write `{meant}`"), place: whole, text: meant });
            problem
        }
        _ => match vocabulary::block(name) {
            Some(word) if word.inside.contains(&"") => {
                let first = if word.naming == vocabulary::Naming::Required {
                    format!("{name} my_{name} {{ … }}")
                } else {
                    format!("{name} {{ … }}")
                };
                Problem::new(
                    UNKNOWN_FIELD,
                    place,
                    format!("`{name}` is a block, not a field"),
                    format!("write `{first}`"),
                )
            }
            _ => Problem::new(
                UNKNOWN_FIELD,
                place,
                message,
                format!("put it in the block that it belongs to, or name a value: `let {name} = …`"),
            ),
        },
    }
}
