//! The same quantity in another unit.

use super::edit;
use crate::definition::expressions_at;
use finwright_checks::Fix;
use finwright_grammar::{ExprKind, Tree};
use finwright_units::show;
use finwright_units::unit::find_unit;

/// What is lost by rounding is less than this share of the value.
const EXACT: f64 = 1e-6;

/// Write the quantity under the cursor in each other unit that fits and says the same.
pub(super) fn conversions(tree: &Tree, offset: usize) -> Vec<Fix> {
    let mut waiting = expressions_at(tree, offset);
    while let Some(expression) = waiting.pop() {
        if !expression.span.touches(offset) {
            continue;
        }
        match &expression.kind {
            ExprKind::Call { arguments, .. } => waiting.extend(arguments),
            ExprKind::Sum(terms) | ExprKind::Product(terms) => waiting.extend(terms.iter().map(|(_, term)| term)),
            ExprKind::Negative(inner) => waiting.push(inner),
            ExprKind::Quantity { number, unit: Some(unit) } => {
                let Ok(own) = find_unit(tree.text(*unit)) else { return Vec::new() };
                let si = number * own.factor + own.offset;
                let names = own.dimension.fitting_units().split(", ").filter(|name| *name != tree.text(*unit));
                let fix = |name: &str| {
                    let other = find_unit(name).ok()?;
                    let value = (si - other.offset) / other.factor;
                    let shown = show::significant(value, 8, 6);
                    let back = shown.parse::<f64>().ok()?;
                    let near = (back - value).abs() <= EXACT * value.abs().max(1e-3);
                    let text = format!("{shown} {name}");
                    let title = format!("write it as {text}");
                    near.then(|| Fix { title, edits: vec![edit(expression.span, text)] })
                };
                return names.filter_map(fix).collect();
            }
            _ => {}
        }
    }
    Vec::new()
}
