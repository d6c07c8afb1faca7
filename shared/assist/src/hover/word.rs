//! Hovers on words of the language: units, listed words, functions, what begins a statement.

use crate::definition::{expressions_at, links};
use finwright_checks::{rule, Analysis};
use finwright_grammar::vocabulary::{FieldKind, FieldWord};
use finwright_grammar::{Expr, ExprKind, Item, Span, Tree, Value, ValueKind};
use finwright_units::show;
use finwright_units::unit::find_unit;

/// In a remark that allows a rule: the rule.
pub(super) fn in_remark(tree: &Tree, remark: Span, offset: usize) -> Option<(Span, String)> {
    let text = tree.text(remark);
    let name = text.trim_start_matches('#').trim_start().strip_prefix("allow ")?.trim_start();
    let start = remark.range().start + text.len() - name.len();
    let name = name.split([' ', ':']).next()?;
    let span = Span::new(start, start + name.len());
    let known = rule(name).filter(|_| span.touches(offset))?;
    Some((span, format!("**{}** · {}\n\n{}", known.name, known.summary, known.why)))
}

/// On a path in quotes: what the file brings in.
pub(super) fn on_path(analysis: &Analysis, offset: usize) -> Option<(Span, String)> {
    let link = links(analysis).into_iter().find(|link| link.span.touches(offset))?;
    let shown = link.path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let Some(source) = analysis.design.files.iter().skip(1).find(|file| file.path == link.path) else {
        let is_use = link.path.extension().is_some_and(|ending| ending == "finw");
        return is_use.then(|| (link.span, format!("**{shown}** can't be read")));
    };
    let names = |word: &str| -> Vec<&str> {
        let blocks = source.tree.items.iter().filter_map(|item| match item {
            Item::Block(block) if source.tree.text(block.word) == word => Some(source.tree.text(block.name?)),
            Item::Let(binding) if word == "let" => Some(source.tree.text(binding.name)),
            _ => None,
        });
        blocks.collect()
    };
    let kinds = [
        ("materials", "material"),
        ("motors", "motor"),
        ("pads", "pad"),
        ("sites", "site"),
        ("rail sections", "section"),
        ("values", "let"),
        ("flights", "flight"),
    ];
    let brought = kinds.into_iter().filter_map(|(kind, word)| {
        let names = names(word);
        (!names.is_empty()).then(|| format!("{kind}: {}", names.join(", ")))
    });
    let lines: Vec<String> = std::iter::once(format!("**{shown}** brings in")).chain(brought).collect();
    Some((link.span, lines.join("\n\n")))
}

/// The word that begins a statement.
pub(super) fn on_keyword(tree: &Tree, item: &Item, offset: usize) -> Option<(Span, String)> {
    let (word, said) = match item {
        Item::Version { .. } => ("finwright", "the version of the language that this file is written in"),
        Item::Use { .. } => ("use", "brings in another file's materials, motors, pads, sites and named parts"),
        Item::Let(_) => ("let", "names a value, which other values may then use"),
        _ => return None,
    };
    let start = item.span().range().start;
    let span = Span::new(start, start + word.len());
    (tree.text(span) == word && span.touches(offset) && offset < start + word.len() + 1)
        .then(|| (span, format!("**{word}** {said}")))
}

/// On a unit, a listed word or a function in a field's value or a `let`.
pub(super) fn in_value(
    tree: &Tree,
    known: Option<&FieldWord>,
    value: Option<&Value>,
    offset: usize,
) -> Option<(Span, String)> {
    if let (Some(known), Some(value)) = (known, value) {
        let word = match &value.kind {
            ValueKind::Choice { word, .. } => Some(*word),
            ValueKind::Measure(measure) => measure.amount.as_name(),
            _ => None,
        };
        if let (FieldKind::Choice(choices) | FieldKind::ChoiceOr(choices, _), Some(span)) = (known.kind, word) {
            let choice = choices.iter().find(|choice| choice.word == tree.text(span) && span.touches(offset));
            if let Some(choice) = choice {
                return Some((span, format!("**{}**: {}", choice.word, choice.doc)));
            }
        }
    }
    let mut waiting = expressions_at(tree, offset);
    while let Some(expression) = waiting.pop() {
        if !expression.span.touches(offset) {
            continue;
        }
        match &expression.kind {
            ExprKind::Call { name, arguments } => {
                if name.touches(offset) {
                    return crate::signature::documentation(tree.text(*name)).map(|doc| (*name, doc));
                }
                waiting.extend(arguments);
            }
            ExprKind::Sum(terms) | ExprKind::Product(terms) => waiting.extend(terms.iter().map(|(_, term)| term)),
            ExprKind::Negative(inner) => waiting.push(inner),
            ExprKind::Quantity { number, unit: Some(unit) } if unit.touches(offset) => {
                return converted(tree, expression, *number, *unit);
            }
            _ => {}
        }
    }
    None
}

/// A quantity in the other units that fit.
fn converted(tree: &Tree, expression: &Expr, number: f64, unit: Span) -> Option<(Span, String)> {
    let own = find_unit(tree.text(unit)).ok()?;
    let si = number * own.factor + own.offset;
    let others = own.dimension.fitting_units().split(", ").filter(|name| !name.is_empty() && *name != tree.text(unit));
    let shown: Vec<String> = others
        .filter_map(|name| {
            let other = find_unit(name).ok()?;
            let value = (si - other.offset) / other.factor;
            // What would be a row of zeros tells nobody anything.
            (value == 0.0 || (1e-3..1e6).contains(&value.abs()))
                .then(|| format!("{} {name}", show::significant(value, 5, 7)))
        })
        .collect();
    let words = if shown.is_empty() { own.dimension.phrase() } else { format!("= {}", shown.join(" = ")) };
    Some((expression.span, format!("**{}** {words}", tree.text(expression.span))))
}
