//! Moving places: what was read of a line by itself, to where the line stands in its file.

use crate::expression::{Expr, ExprKind};
use crate::line::LineRead;
use crate::piece::Piece;
use crate::problem::Problem;
use crate::span::{FileId, Place, Span};
use crate::tree::{Block, Element, Field, Item, Let, Measure, Relation, Value, ValueKind};
use std::sync::Arc;

/// Something with places in it.
pub trait Shift {
    /// Move every place in the file that was asked about to where a function says.
    fn relocate(&mut self, to: &impl Fn(Span) -> Span);

    /// Move every place by so many bytes.
    fn shift(&mut self, by: u32) {
        self.relocate(&|span| Span { start: span.start + by, end: span.end + by });
    }
}

impl Shift for Span {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        *self = to(*self);
    }
}

impl Shift for Place {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        if self.file == FileId(0) {
            self.span = to(self.span);
        }
    }
}

impl<T: Shift> Shift for Option<T> {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        if let Some(inner) = self {
            inner.relocate(to);
        }
    }
}

impl<T: Shift> Shift for Box<T> {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        (**self).relocate(to);
    }
}

impl<T: Shift + Clone> Shift for Arc<T> {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        Arc::make_mut(self).relocate(to);
    }
}

impl<T: Shift> Shift for Vec<T> {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.iter_mut().for_each(|inner| inner.relocate(to));
    }
}

impl Shift for (bool, Expr) {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.1.relocate(to);
    }
}

macro_rules! shift_fields {
    ($($type:ident: $($field:ident)*;)*) => {
        $(impl Shift for $type {
            fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
                $(self.$field.relocate(to);)*
            }
        })*
    };
}

shift_fields! {
    LineRead: pieces comments problems lost braceless;
    Let: span name value;
    Block: span header word name like title items close;
    Field: span name value;
    Measure: amount tolerance relation height;
    Element: span first second place;
    Relation: span anchor edge;
    Expr: span kind;
    Value: span kind;
}

impl Shift for Problem {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        self.span.relocate(to);
        if let Some((span, _)) = &mut self.label {
            span.relocate(to);
        }
        if let Some(replacement) = &mut self.replacement {
            replacement.span.relocate(to);
        }
    }
}

impl Shift for Piece {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            Piece::Header { span, word, name, like, title } => {
                span.relocate(to);
                word.relocate(to);
                name.relocate(to);
                like.relocate(to);
                title.relocate(to);
            }
            Piece::Close(span) | Piece::Brace(span) | Piece::ListEnd(span) | Piece::Unread(span) => span.relocate(to),
            Piece::Statement { item, .. } => item.relocate(to),
            Piece::Rows { span, elements, meant, .. } => {
                span.relocate(to);
                elements.relocate(to);
                if let Some(meant) = meant {
                    meant.0.relocate(to);
                    meant.1.relocate(to);
                }
            }
        }
    }
}

impl Shift for Item {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            Item::Version { span, number: inner } | Item::Use { span, path: inner } => {
                span.relocate(to);
                inner.relocate(to);
            }
            Item::Let(inner) => inner.relocate(to),
            Item::Block(inner) => inner.relocate(to),
            Item::Field(inner) => inner.relocate(to),
        }
    }
}

impl Shift for ValueKind {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            ValueKind::Measure(inner) => inner.relocate(to),
            ValueKind::Choice { word, number } => {
                word.relocate(to);
                number.1.relocate(to);
            }
            ValueKind::Text(span) | ValueKind::File(span) | ValueKind::Event(span) => span.relocate(to),
            ValueKind::List(elements) => elements.relocate(to),
        }
    }
}

impl Shift for ExprKind {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            ExprKind::Quantity { unit, .. } => unit.relocate(to),
            ExprKind::Path(path) => path.relocate(to),
            ExprKind::Call { name, arguments } => {
                name.relocate(to);
                arguments.relocate(to);
            }
            ExprKind::Sum(row) | ExprKind::Product(row) => row.relocate(to),
            ExprKind::Negative(inner) => inner.relocate(to),
        }
    }
}
