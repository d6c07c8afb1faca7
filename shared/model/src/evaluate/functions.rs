//! The functions that an expression may call.

use super::{due, Evaluator};
use crate::problem::{Problem, UNKNOWN_NAME, WRONG_DIMENSION};
use finwright_grammar::vocabulary::nearest;
use finwright_grammar::{Expr, FileId, Place, Span};
use finwright_units::{Dimension, Quantity};

/// Functions that an expression may call.
pub const FUNCTIONS: &[&str] = &["min", "max", "sqrt", "sin", "cos", "tan", "abs", "round"];

/// A function of some values. `None` where it can't be computed, which has been reported.
pub(crate) fn call<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    span: Span,
    name: Span,
    arguments: &'f [Expr],
) -> Option<Quantity> {
    let function = ev.text(file, name);
    let place = Place { file, span: name };
    let mut values = Vec::with_capacity(arguments.len());
    for argument in arguments {
        values.push(ev.value(file, argument)?);
    }
    let (Some(first), wanted) = (values.first(), if matches!(function, "min" | "max") { 2..=32 } else { 1..=1 }) else {
        ev.report(Problem::new(
            WRONG_DIMENSION,
            place,
            format!("`{function}` needs a value in its brackets"),
            format!("write `{function}(…)`"),
        ));
        return None;
    };
    if FUNCTIONS.contains(&function) && !wanted.contains(&values.len()) {
        let count = if *wanted.start() == 1 { "one value" } else { "two values or more" };
        ev.report(Problem::new(
            WRONG_DIMENSION,
            Place { file, span },
            format!("`{function}` takes {count}"),
            "separate values with a comma",
        ));
        return None;
    }
    let x = first.value;
    match function {
        "min" | "max" => extreme(ev, Place { file, span }, function, &values),
        "abs" => Some(first.map(x.abs(), x.signum(), first.dimension)),
        "sqrt" => match first.dimension.root() {
            Some(dimension) => Some(first.map(x.sqrt(), 0.5 / x.sqrt().max(f64::MIN_POSITIVE), dimension)),
            None => {
                let message = format!("{} has no square root with a unit", first.dimension.phrase());
                ev.report(Problem::new(
                    WRONG_DIMENSION,
                    Place { file, span },
                    message,
                    "take the root of an area or of a plain number",
                ));
                None
            }
        },
        "sin" | "cos" | "tan" if first.dimension == Dimension::ANGLE => {
            let (value, slope) = match function {
                "sin" => (x.sin(), x.cos()),
                "cos" => (x.cos(), -x.sin()),
                _ => (x.tan(), 1.0 + x.tan() * x.tan()),
            };
            Some(first.map(value, slope, Dimension::NUMBER))
        }
        "round" if first.dimension == Dimension::NUMBER => Some(first.map(x.round(), 1.0, first.dimension)),
        "sin" | "cos" | "tan" | "round" => {
            let wanted = if function == "round" { Dimension::NUMBER } else { Dimension::ANGLE };
            let message = format!("`{function}` takes {}, this is {}", wanted.phrase(), first.dimension.phrase());
            ev.report(Problem::new(WRONG_DIMENSION, Place { file, span }, message, due(wanted)));
            None
        }
        _ => {
            let (message, help) =
                (format!("there is no function `{function}`"), format!("there are {}", FUNCTIONS.join(", ")));
            let near = nearest(function, FUNCTIONS.iter().copied());
            ev.report(Problem::new(UNKNOWN_NAME, place, message, help).did_you_mean(near));
            None
        }
    }
}

/// The least or the greatest of some values of one dimension.
fn extreme(ev: &mut Evaluator, place: Place, function: &str, values: &[Quantity]) -> Option<Quantity> {
    let (first, others) = values.split_first()?;
    let mut best = first;
    for other in others {
        if other.dimension != best.dimension {
            let (one, another) = (first.dimension.phrase(), other.dimension.phrase());
            let message = format!("`{function}` compares {one} with {another}");
            ev.report(Problem::new(WRONG_DIMENSION, place, message, due(first.dimension)));
            return None;
        }
        if (other.value < best.value) == (function == "min") {
            best = other;
        }
    }
    Some(best.clone())
}
