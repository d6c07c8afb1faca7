//! Arithmetic as a tree. Sums and products are flat rows, so that a long one doesn't nest deeply.

use crate::grammar::Rule;
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
        Rule::sum => row(base, pair),
        Rule::group => match pair.into_inner().next() {
            // A group keeps its brackets in its span, so that a message about it shows them.
            Some(inner) => Expr { span, ..expression(base, inner) },
            None => Expr { span, kind: ExprKind::Sum(Vec::new()) },
        },
        Rule::signed => signed(base, pair),
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
        _ => named(base, pair),
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

/// A sum of products, as the grammar has them: a flat row of operands and operators.
fn row(base: usize, pair: Pair<'_, Rule>) -> Expr {
    let mut parts = pair.into_inner();
    let Some(first) = parts.next() else { return Expr { span: Span::default(), kind: ExprKind::Sum(Vec::new()) } };
    let first = expression(base, first);
    let Some(operator) = parts.next() else { return first };
    let mut row = Row::starting_with(first);
    let mut operator = Some(operator);
    while let (Some(sign), Some(operand)) = (operator, parts.next()) {
        row.push(sign.as_str().as_bytes().first().copied().unwrap_or(b'-'), expression(base, operand));
        operator = parts.next();
    }
    row.finish()
}

/// A flat row of operands and operators; `*` and `/` bind before `+` and `-`, and all from the left.
pub(crate) struct Row {
    terms: Vec<(bool, Expr)>,
    /// The product under way, and whether it is subtracted.
    factors: Vec<(bool, Expr)>,
    subtracts: bool,
}

impl Row {
    /// A row of one operand so far.
    pub fn starting_with(first: Expr) -> Row {
        Row { terms: Vec::new(), factors: vec![(false, first)], subtracts: false }
    }

    /// One more operand behind an operator, which is `*`, `/`, `+` or else a minus.
    pub fn push(&mut self, operator: u8, operand: Expr) {
        if matches!(operator, b'*' | b'/') {
            self.factors.push((operator == b'/', operand));
            return;
        }
        self.end_product();
        self.factors.push((false, operand));
        self.subtracts = operator != b'+';
    }

    /// The row as one value.
    pub fn finish(mut self) -> Expr {
        self.end_product();
        collapsed(self.terms, ExprKind::Sum)
    }

    fn end_product(&mut self) {
        self.terms.push((self.subtracts, collapsed(std::mem::take(&mut self.factors), ExprKind::Product)));
    }
}

/// A row of one is just that operand.
fn collapsed(mut operands: Vec<(bool, Expr)>, make: fn(Vec<(bool, Expr)>) -> ExprKind) -> Expr {
    if operands.len() == 1 {
        if let Some((_, only)) = operands.pop() {
            return only;
        }
    }
    let span = match (operands.first(), operands.last()) {
        (Some((_, first)), Some((_, last))) => first.span.to(last.span),
        _ => Span::default(),
    };
    Expr { span, kind: make(operands) }
}

fn signed(base: usize, pair: Pair<'_, Rule>) -> Expr {
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

/// A name, a path of names, or a function with its arguments.
fn named(base: usize, pair: Pair<'_, Rule>) -> Expr {
    let span = at(base, &pair);
    let mut path = Vec::new();
    for part in pair.into_inner() {
        if part.as_rule() == Rule::arguments {
            let arguments = part.into_inner().map(|a| expression(base, a)).collect();
            let name = path.last().copied().unwrap_or(span);
            return Expr { span, kind: ExprKind::Call { name, arguments } };
        }
        path.push(at(base, &part));
    }
    Expr { span, kind: ExprKind::Path(path) }
}
