//! The tree: what a file says, block by block, with the place of everything. It holds spans and numbers, no meaning.

use crate::expression::Expr;
use crate::line_index::LineIndex;
use crate::problem::Problem;
use crate::span::Span;
use std::sync::Arc;

/// A parsed file. Parsing never fails: what can't be read is in `problems`, the rest is in `items`.
#[derive(Clone, Debug)]
pub struct Tree {
    /// The text, unchanged.
    pub text: Arc<str>,
    /// Where its lines begin.
    pub lines: LineIndex,
    /// The statements and blocks at the top level, in order.
    pub items: Vec<Item>,
    /// Comments, in order, each from its `#` to the end of the line.
    pub comments: Vec<Span>,
    /// What couldn't be read; at most one problem a line, in order.
    pub problems: Vec<Problem>,
    /// Pieces of which not even the kind is known: each may have been any statement or block.
    pub lost: Vec<Span>,
}

/// A statement or block.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// `finwright 1`.
    Version {
        /// All of it.
        span: Span,
        /// The number.
        number: Span,
    },
    /// `use "parts.finw"`.
    Use {
        /// All of it.
        span: Span,
        /// The path with its quotes.
        path: Span,
    },
    /// `let name = value`.
    Let(Let),
    /// `word name "title" { … }`.
    Block(Block),
    /// `name: value`.
    Field(Field),
}

/// A named value.
#[derive(Clone, Debug, PartialEq)]
pub struct Let {
    /// All of it.
    pub span: Span,
    /// Its name.
    pub name: Span,
    /// Its value.
    pub value: Measure,
}

/// A block with what stands in it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Block {
    /// From the header to the closing brace, or to where the block was taken to end.
    pub span: Span,
    /// The header without its brace.
    pub header: Span,
    /// The word that says what it is; empty for a block whose header is lost.
    pub word: Span,
    /// Its name.
    pub name: Option<Span>,
    /// The name of the part that it is like, in `lug rear like front { … }`.
    pub like: Option<Span>,
    /// Its title with the quotes.
    pub title: Option<Span>,
    /// What stands in it.
    pub items: Vec<Item>,
    /// The closing brace.
    pub close: Option<Span>,
}

/// A field with its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// All of it.
    pub span: Span,
    /// Its name.
    pub name: Span,
    /// Its value; `None` while it's missing or unreadable.
    pub value: Option<Value>,
}

/// What stands behind a field's colon.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// All of it.
    pub span: Span,
    /// What form it has.
    pub kind: ValueKind,
}

/// The forms a value can have. What a lone name means is for the field to say.
#[derive(Clone, Debug, PartialEq)]
pub enum ValueKind {
    /// An amount, perhaps with a tolerance and perhaps placed relative to something.
    Measure(Measure),
    /// A word with its number: `power 0.5`.
    Choice {
        /// The word.
        word: Span,
        /// The number and its place.
        number: (f64, Span),
    },
    /// A text with its quotes.
    Text(Span),
    /// `file "d9.csv"`: the path with its quotes.
    File(Span),
    /// `[a, b, c]` or `[0 s: 0 N, …]`.
    List(Vec<Element>),
    /// `at top`: a moment without an amount, by its name.
    Event(Span),
}

/// One element of a list: a value, a pair of them, or a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Element {
    /// All of it.
    pub span: Span,
    /// The value, or the first of the pair.
    pub first: Expr,
    /// The second of the pair.
    pub second: Option<Expr>,
    /// For a place: the first as a measure with what it is relative to.
    pub place: Option<Box<Measure>>,
}

/// An amount with what qualifies it.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// The amount.
    pub amount: Expr,
    /// What follows `±`.
    pub tolerance: Option<Box<Expr>>,
    /// Relative to what it is placed, in space or in time.
    pub relation: Option<Box<Relation>>,
    /// The height at which it holds, in `4 m/s at 2 m`.
    pub height: Option<Box<Expr>>,
}

/// What a placement is relative to.
#[derive(Clone, Debug, PartialEq)]
pub struct Relation {
    /// All of it, from its first word.
    pub span: Span,
    /// The direction.
    pub toward: Toward,
    /// `front`, `back`, `tip`, `tail`, `balance` or a part's name; for a moment `ground` or `top`.
    pub anchor: Span,
    /// The part's edge, in `from body.back`.
    pub edge: Option<Span>,
}

/// The direction of a placement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward {
    /// `from X`.
    From,
    /// `ahead of X`: nearer to the tip.
    Ahead,
    /// `behind X`: nearer to the tail.
    Behind,
    /// `above X`: a height.
    Above,
    /// `after X`: a time.
    After,
}

impl Measure {
    /// Everything in it that is computed: the amount, its tolerance and the height.
    pub fn amounts(&self) -> impl Iterator<Item = &Expr> {
        let besides = [&self.tolerance, &self.height].into_iter().flatten();
        std::iter::once(&self.amount).chain(besides.map(Box::as_ref))
    }
}

impl Tree {
    /// The text under a span.
    pub fn text(&self, span: Span) -> &str {
        span.of(&self.text)
    }

    /// A quoted text without its quotes.
    pub fn unquoted(&self, span: Span) -> &str {
        unquoted(self.text(span))
    }

    /// The blocks that enclose an offset, outermost first.
    pub fn blocks_at(&self, offset: usize) -> Vec<&Block> {
        let mut found = Vec::new();
        let mut items = self.items.as_slice();
        while let Some(block) = block_at(items, offset) {
            found.push(block);
            items = &block.items;
        }
        found
    }
}

/// The first block among items, which follow one another, that touches an offset.
fn block_at(items: &[Item], offset: usize) -> Option<&Block> {
    let begun = items.partition_point(|item| item.span().start as usize <= offset);
    // Where one item ends and the next begins both touch.
    let near = items.get(..begun)?.iter().rev().take_while(|item| item.span().touches(offset));
    near.filter_map(|item| match item {
        Item::Block(block) => Some(block),
        _ => None,
    })
    .last()
}

/// A quoted text without its quotes, whichever they are.
pub fn unquoted(text: &str) -> &str {
    let mut inside = text.chars();
    inside.next();
    inside.next_back();
    inside.as_str()
}

impl Item {
    /// The place of the whole statement or block.
    pub fn span(&self) -> Span {
        match self {
            Item::Version { span, .. } | Item::Use { span, .. } => *span,
            Item::Let(binding) => binding.span,
            Item::Block(block) => block.span,
            Item::Field(field) => field.span,
        }
    }
}

impl Block {
    /// The fields directly in the block.
    pub fn fields(&self) -> impl Iterator<Item = &Field> {
        self.items.iter().filter_map(|item| match item {
            Item::Field(field) => Some(field),
            _ => None,
        })
    }

    /// The blocks directly in the block.
    pub fn blocks(&self) -> impl Iterator<Item = &Block> {
        self.items.iter().filter_map(|item| match item {
            Item::Block(block) => Some(block),
            _ => None,
        })
    }
}
