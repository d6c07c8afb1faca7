//! A number without its unit: the one that the rest of the file would give it.

use crate::evaluate::Evaluator;
use crate::problem::{Problem, MISSING_UNIT};
use finwright_grammar::vocabulary::{size, BlockWord, FieldWord};
use finwright_grammar::{Expr, ExprKind, Item, Measure, Place, Tree, ValueKind};
use finwright_units::{find_unit, Dimension};

/// A bare number where a quantity is due.
pub(crate) fn without_unit(
    ev: &Evaluator,
    place: Place,
    number: Option<f64>,
    of: &BlockWord,
    known: &FieldWord,
    dimension: Dimension,
) -> Problem {
    let shown = ev.text(place.file, place.span).trim();
    let message = format!("`{shown}` has no unit; {} is due", dimension.phrase());
    let units = dimension.fitting_units();
    let first = units.split(", ").next().unwrap_or("");
    let help = format!("units that fit: {units}. For example `{shown} {first}`");
    let problem = Problem::new(MISSING_UNIT, place, message, help);
    let unit = number.and_then(|number| {
        let trees = ev.files.get(place.file.0 as usize).map(|file| units_used(&file.tree)).unwrap_or_default();
        usual_unit(&trees, number, of.word, known.word, dimension)
    });
    match unit {
        Some(unit) => {
            let meant = format!("{shown} {unit}");
            let help = format!("did you mean `{meant}`? Of the units in this file, {unit} fits");
            Problem { help, ..problem }.replaced_by(format!("write `{meant}`"), meant)
        }
        None => problem,
    }
}

/// The only unit of the file's own with which the number is a usual size.
fn usual_unit<'u>(
    used: &[(&'u str, usize)],
    number: f64,
    of: &str,
    field: &str,
    dimension: Dimension,
) -> Option<&'u str> {
    let usual = size(of, field).map(|size| size.usual);
    let mut fitting = used.iter().filter(|(spelling, _)| {
        find_unit(spelling).is_ok_and(|unit| {
            let si = number * unit.factor + unit.offset;
            unit.dimension == dimension && usual.is_none_or(|(least, most)| least <= si && si <= most)
        })
    });
    match (fitting.next(), fitting.next()) {
        (Some((unit, _)), None) => Some(unit),
        _ => None,
    }
}

/// The units that a file's quantities are in, each with how often, the most used first.
pub fn units_used(tree: &Tree) -> Vec<(&str, usize)> {
    let mut units = Vec::new();
    items(tree, &tree.items, &mut units);
    let mut found: Vec<(&str, usize)> = Vec::new();
    for unit in units {
        match found.iter_mut().find(|(known, _)| *known == unit) {
            Some((_, count)) => *count += 1,
            None => found.push((unit, 1)),
        }
    }
    found.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
    found
}

fn items<'t>(tree: &'t Tree, all: &[Item], found: &mut Vec<&'t str>) {
    for item in all {
        match item {
            Item::Let(binding) => measure(tree, &binding.value, found),
            Item::Block(block) => items(tree, &block.items, found),
            Item::Field(field) => match field.value.as_ref().map(|value| &value.kind) {
                Some(ValueKind::Measure(m)) => measure(tree, m, found),
                Some(ValueKind::List(elements)) => elements.iter().for_each(|element| {
                    expression(tree, &element.first, found);
                    element.second.iter().for_each(|e| expression(tree, e, found));
                }),
                _ => {}
            },
            Item::Version { .. } | Item::Use { .. } => {}
        }
    }
}

fn measure<'t>(tree: &'t Tree, measure: &Measure, found: &mut Vec<&'t str>) {
    expression(tree, &measure.amount, found);
    measure.tolerance.iter().for_each(|t| expression(tree, t, found));
}

fn expression<'t>(tree: &'t Tree, expr: &Expr, found: &mut Vec<&'t str>) {
    match &expr.kind {
        ExprKind::Quantity { unit, .. } => found.extend(unit.map(|unit| tree.text(unit))),
        ExprKind::Path(_) => {}
        ExprKind::Call { arguments, .. } => arguments.iter().for_each(|a| expression(tree, a, found)),
        ExprKind::Sum(row) | ExprKind::Product(row) => row.iter().for_each(|(_, e)| expression(tree, e, found)),
        ExprKind::Negative(inner) => expression(tree, inner, found),
    }
}
