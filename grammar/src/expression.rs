//! Arithmetic as a tree. Sums and products are flat rows, so that a long one doesn't nest deeply.

use crate::line::Rule;
use crate::span::Span;
use pest::iterators::Pair;

/// A value to be computed.
#[derive(Clone, Debug, PartialEq)]
pub struct Expr {
    /// All of it.
    pub span: Span,
    /// What it is.
    pub kind: ExprKind,
}

/// The forms of an expression.
#[derive(Clone, Debug, PartialEq)]
pub enum ExprKind {
    /// A number with its unit, if it has one.
    Quantity {
        /// The number as written.
        number: f64,
        /// The unit's place.
        unit: Option<Span>,
    },
    /// A name: `caliber`, or a path: `body.length`.
    Path(Vec<Span>),
    /// A function of values.
    Call {
        /// The function's name.
        name: Span,
        /// Its arguments.
        arguments: Vec<Expr>,
    },
    /// The terms, each with whether it is subtracted.
    Sum(Vec<(bool, Expr)>),
    /// The factors, each with whether it divides.
    Product(Vec<(bool, Expr)>),
    /// The negative of a value.
    Negative(Box<Expr>),
}

impl Expr {
    /// The single name that this is, if it is one.
    pub fn as_name(&self) -> Option<Span> {
        match &self.kind {
            ExprKind::Path(path) if path.len() == 1 => path.first().copied(),
            _ => None,
        }
    }
}

/// Build from the grammar's `sum`, `group`, `quantity` … at a place in the file.
pub(crate) fn expression(base: usize, pair: Pair<'_, Rule>) -> Expr {
    let span = at(base, &pair);
    match pair.as_rule() {
        Rule::sum => row(base, pair, ExprKind::Sum),
        Rule::product => row(base, pair, ExprKind::Product),
        Rule::factor => factor(base, pair),
        Rule::group => match pair.into_inner().next() {
            // A group keeps its brackets in its span, so that a message about it shows them.
            Some(inner) => Expr { span, ..expression(base, inner) },
            None => Expr { span, kind: ExprKind::Sum(Vec::new()) },
        },
        Rule::call => {
            let mut inner = pair.into_inner();
            let name = inner.next().map_or(span, |name| at(base, &name));
            Expr { span, kind: ExprKind::Call { name, arguments: inner.map(|a| expression(base, a)).collect() } }
        }
        Rule::quantity => {
            let (mut number, mut unit) = (0.0, None);
            for part in pair.into_inner() {
                match part.as_rule() {
                    Rule::number => number = read_number(part.as_str()),
                    _ => unit = Some(at(base, &part)),
                }
            }
            Expr { span, kind: ExprKind::Quantity { number, unit } }
        }
        _ => Expr { span, kind: ExprKind::Path(pair.into_inner().map(|name| at(base, &name)).collect()) },
    }
}

/// A number's value: decimal, fraction `1/8` or mixed `1 1/2`. Too large a number is infinite, which is refused later.
pub(crate) fn read_number(text: &str) -> f64 {
    let Some((whole_and_top, bottom)) = text.split_once('/') else {
        return text.parse().unwrap_or(f64::INFINITY);
    };
    let read = |t: &str| t.trim().parse::<f64>().unwrap_or(f64::INFINITY);
    match whole_and_top.trim_end().rsplit_once(' ') {
        Some((whole, top)) => read(whole) + read(top) / read(bottom),
        None => read(whole_and_top) / read(bottom),
    }
}

/// The place in the file of a pair from a line that starts at `base`.
pub(crate) fn at(base: usize, pair: &Pair<'_, Rule>) -> Span {
    let span = pair.as_span();
    Span::new(base + span.start(), base + span.end())
}

/// A row of operands with operators between them; a row of one is just that operand.
fn row(base: usize, pair: Pair<'_, Rule>, make: fn(Vec<(bool, Expr)>) -> ExprKind) -> Expr {
    let span = at(base, &pair);
    let mut inverse = false;
    let mut operands = Vec::new();
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::plus_or_minus => inverse = part.as_str() != "+",
            Rule::times_or_over => inverse = part.as_str() == "/",
            _ => operands.push((inverse, expression(base, part))),
        }
    }
    match operands.pop() {
        Some((_, only)) if operands.is_empty() => only,
        Some(last) => {
            operands.push(last);
            Expr { span, kind: make(operands) }
        }
        None => Expr { span, kind: make(operands) },
    }
}

fn factor(base: usize, pair: Pair<'_, Rule>) -> Expr {
    let span = at(base, &pair);
    let mut negative = false;
    let mut value = None;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::sign => negative ^= !part.as_str().starts_with('+'),
            _ => value = Some(expression(base, part)),
        }
    }
    match value {
        Some(value) if negative => Expr { span, kind: ExprKind::Negative(Box::new(value)) },
        Some(value) => value,
        None => Expr { span, kind: ExprKind::Sum(Vec::new()) },
    }
}
