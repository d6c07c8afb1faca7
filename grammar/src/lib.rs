//! Text to tree: the finwright language's grammar, its tolerant tree and its vocabulary.
//!
//! The way through: [`parse`] splits the text into lines, `finwright.pest` takes each line to pieces, `nest` builds the
//! blocks from them. Nothing here knows what a word means except [`vocabulary`], the one table of every block and field.

pub mod expression;
mod format;
mod line;
pub mod line_index;
mod memo;
mod nest;
mod parse;
pub mod problem;
mod read;
mod shift;
mod slip;
pub mod span;
pub mod tree;
pub mod vocabulary;

pub use expression::{Expr, ExprKind};
pub use format::format;
pub use line::DEEPEST_BRACKETS;
pub use line_index::LineIndex;
pub use memo::remember_lines;
pub use nest::DEEPEST_BLOCKS;
pub use parse::{parse, parse_shared};
pub use problem::Problem;
pub use span::{FileId, Place, Span};
pub use tree::{unquoted, Block, Element, Field, Item, Let, Measure, Relation, Toward, Tree, Value, ValueKind};
