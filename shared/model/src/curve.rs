//! Thrust curves: points in the file, or two columns in another one.

use crate::design::Curve;
use crate::evaluate::{of_dimension, Evaluator};
use crate::files::beside;
use crate::meant;
use crate::problem::{Problem, BROKEN_CURVE, BROKEN_OUTLINE, UNREADABLE_FILE, WRONG_FORM};
use crate::read::Context;
use finwright_grammar::{Element, FileId, Place, Span};
use finwright_units::Dimension;

/// More points than this aren't a thrust curve.
const MOST_POINTS: usize = 10_000;

/// Beyond these a value is a slip; they keep every later number finite. Time in s, thrust in N.
const LONGEST_BURN: f64 = 1e4;
const MOST_THRUST: f64 = 1e8;

/// A curve from a list of pairs.
pub(crate) fn from_list<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    elements: &'f [Element],
    x: Dimension,
    y: Dimension,
    place: Place,
) -> Option<Curve> {
    let mut curve =
        Curve { points: Vec::with_capacity(elements.len()), places: Vec::with_capacity(elements.len()), place };
    // What is wrong with all of the points is told once.
    if let Some(problem) = meant::points(ev, file, elements, (x, y), place) {
        ev.report(problem);
        return None;
    }
    let mut whole = true;
    for element in elements {
        let at = Place { file, span: element.span };
        let Some(second) = &element.second else {
            ev.report(Problem::new(
                WRONG_FORM,
                at,
                "a point of the curve has two values",
                "write time and thrust with a colon between them: `0.2 s: 14 N`",
            ));
            whole = false;
            continue;
        };
        let mut side = |expr: &'f finwright_grammar::Expr, wanted| {
            let quantity = ev.value(file, expr)?;
            of_dimension(ev, Place { file, span: expr.span }, quantity, wanted).map(|q| q.value)
        };
        match (side(&element.first, x), side(second, y)) {
            (Some(t), Some(f)) => {
                curve.points.push((t, f));
                curve.places.push(at);
            }
            _ => whole = false,
        }
    }
    if !whole {
        return None;
    }
    let sound = if x == Dimension::LENGTH { is_outline(ev, &curve) } else { checked(ev, &curve) };
    sound.then_some(curve)
}

/// Whether the points can be a fin's outline; reports the first that can't. Whether its edges cross is for geometry to say.
fn is_outline(ev: &mut Evaluator, curve: &Curve) -> bool {
    let last = curve.points.len().saturating_sub(1);
    let fault = curve.points.iter().enumerate().find_map(|(i, (_, out))| {
        let on_root = i == 0 || i == last;
        match (*out < 0.0, on_root && *out != 0.0) {
            (true, _) => {
                Some((i, "this corner lies inside the body", "count outwards from the body, never below zero"))
            }
            (_, true) => Some((
                i,
                "the first and last corners lie on the body",
                "begin and end the outline with `0 mm` outwards",
            )),
            _ => None,
        }
    });
    let (place, message, help) = match fault {
        Some((i, message, help)) => (curve.places.get(i).copied().unwrap_or(curve.place), message, help),
        None if curve.points.len() < 3 => (
            curve.place,
            "a fin's outline has three corners at least",
            "give each corner, how far back and how far out",
        ),
        None => return true,
    };
    ev.report(Problem::new(BROKEN_OUTLINE, place, message, help));
    false
}

/// A curve from a file of two columns: time in s and thrust in N, with or without a header, with `#` comments, columns
/// separated by a comma, a semicolon, a tab or spaces.
pub(crate) fn from_file(cx: &Context, ev: &mut Evaluator, file: FileId, path: Span, place: Place) -> Option<Curve> {
    let name = finwright_grammar::unquoted(ev.text(file, path)).to_string();
    let at = Place { file, span: path };
    let user = ev.files.get(file.0 as usize)?.path.clone();
    let text = match cx.files.read(&beside(&user, &name)) {
        Ok(text) => text,
        Err(reason) => {
            ev.report(Problem::new(
                UNREADABLE_FILE,
                at,
                format!("`{name}` can't be used: {reason}"),
                "the path is taken from this file's folder",
            ));
            return None;
        }
    };
    match read_columns(&text) {
        Ok(points) => {
            let curve = Curve { places: vec![at; points.len()], points, place };
            checked(ev, &curve).then_some(curve)
        }
        Err((line, reason, help)) => {
            ev.report(Problem::new(BROKEN_CURVE, at, format!("line {line} of `{name}`: {reason}"), help));
            None
        }
    }
}

type ColumnError = (usize, String, &'static str);

fn read_columns(text: &str) -> Result<Vec<(f64, f64)>, ColumnError> {
    let mut points = Vec::new();
    let mut header_seen = false;
    for (number, line) in text.trim_start_matches('\u{FEFF}').lines().enumerate() {
        let line = line.split('#').next().unwrap_or("").trim();
        if line.is_empty() {
            continue;
        }
        let separator = if line.contains(';') {
            ';'
        } else if line.contains('\t') {
            '\t'
        } else {
            ','
        };
        let columns: Vec<&str> = if line.contains(separator) {
            line.split(separator).map(str::trim).collect()
        } else {
            line.split_whitespace().collect()
        };
        let comma = columns.iter().any(|c| c.contains(',')) || (separator == ',' && columns.len() == 4);
        if comma {
            return Err((
                number + 1,
                format!("`{line}` has a decimal comma"),
                "write decimals with a point: `0.2; 14.5`",
            ));
        }
        match columns.as_slice() {
            [t, f] => match (t.parse::<f64>(), f.parse::<f64>()) {
                (Ok(t), Ok(f)) if t.is_finite() && f.is_finite() => points.push((t, f)),
                (Err(_), Err(_)) if points.is_empty() && !header_seen => header_seen = true,
                _ => {
                    return Err((
                        number + 1,
                        format!("`{line}` isn't two numbers"),
                        "each line is a time in s and a thrust in N",
                    ))
                }
            },
            _ => {
                return Err((
                    number + 1,
                    format!("`{line}` has {} columns, not two", columns.len()),
                    "each line is a time in s and a thrust in N",
                ))
            }
        }
        if points.len() > MOST_POINTS {
            return Err((number + 1, format!("more than {MOST_POINTS} points"), "thin the curve out"));
        }
    }
    Ok(points)
}

/// Whether the points can be a thrust curve; reports the first that can't.
fn checked(ev: &mut Evaluator, curve: &Curve) -> bool {
    let fault = |i: usize, message: String, help: &str| {
        let place = curve.places.get(i).copied().unwrap_or(curve.place);
        Some(Problem::new(BROKEN_CURVE, place, message, help))
    };
    let p = &curve.points;
    let mut found = None;
    if p.len() < 2 {
        found = fault(
            usize::MAX,
            format!("the thrust curve has {} points; two are the least", p.len()),
            "copy the points from the motor's data, time and thrust each",
        );
    }
    for i in 0..p.len() {
        if found.is_some() {
            break;
        }
        if p[i].0 < 0.0 {
            found = fault(i, format!("the curve's time {} s is before ignition", p[i].0), "times count from ignition");
        } else if i > 0 && p[i].0 <= p[i - 1].0 {
            found = fault(
                i,
                format!("the curve's time goes back, from {} s to {} s", p[i - 1].0, p[i].0),
                "put the points in order of time, each time once",
            );
        } else if p[i].0 > LONGEST_BURN || p[i].1 > MOST_THRUST {
            found =
                fault(i, "no motor burns or pushes like this".to_string(), "check the units and the decimal points");
        } else if p[i].1 < 0.0 {
            found = fault(
                i,
                format!("the thrust is negative: {} N", p[i].1),
                "a motor doesn't pull backwards; check the sign",
            );
        }
    }
    if found.is_none() && p.iter().all(|q| q.1 == 0.0) {
        found = fault(
            usize::MAX,
            "the thrust curve is zero throughout".to_string(),
            "copy the points from the motor's data",
        );
    }
    match found {
        Some(problem) => {
            ev.report(problem);
            false
        }
        None => true,
    }
}
