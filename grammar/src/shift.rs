//! Moving places: what was read of a line by itself, to where the line stands in its file.

use crate::expression::{Expr, ExprKind};
use crate::parse::Piece;
use crate::problem::Problem;
use crate::read::LineRead;
use crate::span::Span;
use crate::tree::{Block, Element, Field, Item, Let, Measure, Relation, Value, ValueKind};

/// Something with places in it.
pub(crate) trait Shift {
    /// Move every place by so many bytes.
    fn shift(&mut self, by: u32);
}

impl Shift for Span {
    fn shift(&mut self, by: u32) {
        self.start += by;
        self.end += by;
    }
}

impl<T: Shift> Shift for Option<T> {
    fn shift(&mut self, by: u32) {
        if let Some(inner) = self {
            inner.shift(by);
        }
    }
}

impl<T: Shift> Shift for Vec<T> {
    fn shift(&mut self, by: u32) {
        self.iter_mut().for_each(|inner| inner.shift(by));
    }
}

impl Shift for (bool, Expr) {
    fn shift(&mut self, by: u32) {
        self.1.shift(by);
    }
}

macro_rules! shift_fields {
    ($($type:ident: $($field:ident)*;)*) => {
        $(impl Shift for $type {
            fn shift(&mut self, by: u32) {
                $(self.$field.shift(by);)*
            }
        })*
    };
}

shift_fields! {
    LineRead: pieces comments problems lost braceless;
    Let: span name value;
    Block: span header word name like title items close;
    Field: span name value;
    Measure: amount tolerance relation;
    Element: span first second place;
    Relation: span anchor edge;
    Expr: span kind;
    Value: span kind;
}

impl Shift for Problem {
    fn shift(&mut self, by: u32) {
        self.span.shift(by);
        if let Some((span, _)) = &mut self.label {
            span.shift(by);
        }
    }
}

impl Shift for Piece {
    fn shift(&mut self, by: u32) {
        match self {
            Piece::Header { span, word, name, like, title } => {
                span.shift(by);
                word.shift(by);
                name.shift(by);
                like.shift(by);
                title.shift(by);
            }
            Piece::Close(span) | Piece::Brace(span) | Piece::ListEnd(span) | Piece::Unread(span) => span.shift(by),
            Piece::Statement { item, .. } => item.shift(by),
            Piece::Rows { span, elements, .. } => {
                span.shift(by);
                elements.shift(by);
            }
        }
    }
}

impl Shift for Item {
    fn shift(&mut self, by: u32) {
        match self {
            Item::Version { span, number: inner } | Item::Use { span, path: inner } => {
                span.shift(by);
                inner.shift(by);
            }
            Item::Let(inner) => inner.shift(by),
            Item::Block(inner) => inner.shift(by),
            Item::Field(inner) => inner.shift(by),
        }
    }
}

impl Shift for ValueKind {
    fn shift(&mut self, by: u32) {
        match self {
            ValueKind::Measure(inner) => inner.shift(by),
            ValueKind::Choice { word, number } => {
                word.shift(by);
                number.1.shift(by);
            }
            ValueKind::Text(span) | ValueKind::File(span) => span.shift(by),
            ValueKind::List(elements) => elements.shift(by),
        }
    }
}

impl Shift for ExprKind {
    fn shift(&mut self, by: u32) {
        match self {
            ExprKind::Quantity { unit, .. } => unit.shift(by),
            ExprKind::Path(path) => path.shift(by),
            ExprKind::Call { name, arguments } => {
                name.shift(by);
                arguments.shift(by);
            }
            ExprKind::Sum(row) | ExprKind::Product(row) => row.shift(by),
            ExprKind::Negative(inner) => inner.shift(by),
        }
    }
}
