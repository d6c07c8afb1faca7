//! A list of points in another form than pairs with a colon.

use super::units_used;
use crate::evaluate::Evaluator;
use crate::problem::{Problem, MISSING_UNIT, WRONG_FORM};
use finwright_grammar::{Element, Expr, ExprKind, FileId, Place, Span};
use finwright_units::{find_unit, Dimension};

/// What is wrong with the points of a list as such: a comma for a decimal point or for the colon, no units at all.
pub(crate) fn points(
    ev: &Evaluator,
    file: FileId,
    elements: &[Element],
    (x, y): (Dimension, Dimension),
    list: Place,
) -> Option<Problem> {
    decimal_comma(ev, file, elements)
        .or_else(|| without_colons(ev, file, elements, list))
        .or_else(|| without_units(ev, file, elements, (x, y), list))
}

/// `0,1 s: 8 N`, which reads as a point of `0` alone and another at 1 s.
fn decimal_comma(ev: &Evaluator, file: FileId, elements: &[Element]) -> Option<Problem> {
    let (whole, next) = elements.windows(2).find_map(|pair| {
        let [whole, next] = pair else { return None };
        let is_bare = whole.second.is_none() && is_bare(&whole.first);
        let touches = next.span.start == whole.span.end + 1 && matches!(next.first.kind, ExprKind::Quantity { .. });
        (is_bare && touches).then_some((whole.span, next.first.span))
    })?;
    let number = whole.to(next);
    let shown = ev.text(file, number);
    let meant = shown.replacen(',', ".", 1);
    let digits = shown.split_whitespace().next().unwrap_or(shown);
    Some(
        Problem::new(
            WRONG_FORM,
            Place { file, span: number },
            format!("`{digits}` has a comma in the number"),
            format!("decimals take a point: `{meant}`"),
        )
        .replaced_by(format!("write `{meant}`"), meant),
    )
}

/// `0 s, 0 N, 0.1 s, 8 N`: values in pairs, with nothing that makes pairs of them.
fn without_colons(ev: &Evaluator, file: FileId, elements: &[Element], list: Place) -> Option<Problem> {
    let unit = |element: &Element| match element.first.kind {
        ExprKind::Quantity { unit: Some(unit), .. } if element.second.is_none() => {
            find_unit(ev.text(file, unit)).ok().map(|unit| unit.dimension)
        }
        _ => None,
    };
    let pairs = elements.chunks(2);
    let is_pairs =
        elements.len() >= 4 && elements.len() % 2 == 0 && elements.iter().all(|element| unit(element).is_some());
    if !is_pairs {
        return None;
    }
    let text = |pair: &[Element]| pair.iter().map(|e| ev.text(file, e.span).trim()).collect::<Vec<_>>().join(": ");
    let between = pairs.filter_map(|pair| match pair {
        [a, b] => Some((Span { start: a.span.end, end: b.span.start }, ": ".to_string())),
        _ => None,
    });
    let meant = rewritten(ev, list, between);
    let first = elements.first().zip(elements.get(1)).map(|(a, b)| a.span.to(b.span))?;
    let help = format!("write `{}`, and a comma before the next point", text(elements.get(..2)?));
    let mut problem =
        Problem::new(WRONG_FORM, Place { file, span: first }, "a colon stands between a point's two values", help);
    problem.replacement =
        Some(crate::problem::Replacement { title: "write colons".to_string(), place: list, text: meant });
    Some(problem)
}

/// `0: 0, 0.1: 8`: numbers alone.
fn without_units(
    ev: &Evaluator,
    file: FileId,
    elements: &[Element],
    (x, y): (Dimension, Dimension),
    list: Place,
) -> Option<Problem> {
    let is_bare = |element: &Element| is_bare(&element.first) && element.second.as_ref().is_some_and(is_bare);
    if elements.len() < 2 || !elements.iter().all(is_bare) {
        return None;
    }
    let first = elements.first()?;
    let place = Place { file, span: first.span };
    let message = format!("the points have no units; {} and {} are due", x.phrase(), y.phrase());
    let unit = |dimension: Dimension| {
        let trees = ev.files.get(file.0 as usize).map(|file| units_used(&file.tree)).unwrap_or_default();
        let mut used = trees.iter().filter(|(unit, _)| find_unit(unit).is_ok_and(|unit| unit.dimension == dimension));
        let only = used.next().filter(|_| used.next().is_none()).map(|(unit, _)| (*unit).to_string());
        // A motor's data are in seconds and newtons the world over.
        match dimension {
            Dimension::TIME => Some("s".to_string()),
            Dimension::FORCE => Some("N".to_string()),
            _ => only,
        }
    };
    let shown = |span: Span| ev.text(file, span).trim();
    let Some((x, y)) = unit(x).zip(unit(y)) else {
        let units = x.fitting_units();
        return Some(Problem::new(MISSING_UNIT, place, message, format!("units that fit: {units}")));
    };
    let point = elements.get(1)?;
    let second = point.second.as_ref().map_or("", |second| shown(second.span));
    let help = format!("write `{} {x}: {second} {y}`, and so for each point", shown(point.first.span));
    let behind = |expr: &Expr, unit: &str| (Span { start: expr.span.end, end: expr.span.end }, format!(" {unit}"));
    let units = elements.iter().flat_map(|element| {
        [Some(behind(&element.first, &x)), element.second.as_ref().map(|second| behind(second, &y))]
    });
    let text = rewritten(ev, list, units.flatten());
    let mut problem = Problem::new(MISSING_UNIT, place, message, help);
    problem.replacement = Some(crate::problem::Replacement { title: format!("write {x} and {y}"), place: list, text });
    Some(problem)
}

/// A list's text with other text in some places, in order.
fn rewritten(ev: &Evaluator, list: Place, edits: impl Iterator<Item = (Span, String)>) -> String {
    let (mut out, mut done) = (String::new(), list.span.start);
    for (span, text) in edits {
        out.push_str(ev.text(list.file, Span { start: done, end: span.start.max(done) }));
        out.push_str(&text);
        done = span.end;
    }
    out + ev.text(list.file, Span { start: done, end: list.span.end.max(done) })
}

fn is_bare(expr: &Expr) -> bool {
    matches!(expr.kind, ExprKind::Quantity { unit: None, .. })
}
