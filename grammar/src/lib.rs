//! Text to tree: the finwright language's grammar, its tolerant tree and its vocabulary.
//!
//! The way through: [`parse`] splits the text into lines, `plain` takes plain ones to pieces and `finwright.pest`,
//! which is the language's definition, all others; `nest` builds the blocks from them. Nothing here knows what a word
//! means except [`vocabulary`], the one table of every block and field.

mod ahead;
mod as_written;
pub mod expression;
mod format;
mod grammar;
mod line;
pub mod line_index;
mod memo;
mod nest;
mod parse;
mod piece;
mod plain;
pub mod problem;
mod read;
mod remarks;
mod retold;
mod shift;
mod slip;
mod sound;
pub mod span;
pub mod tree;
mod unsound;
pub mod vocabulary;

pub use expression::{Expr, ExprKind};
pub use format::format;
pub use grammar::DEEPEST_BRACKETS;
pub use line_index::LineIndex;
pub use memo::remember_lines;
pub use nest::DEEPEST_BLOCKS;
pub use parse::{parse, parse_by_grammar, parse_shared, LARGEST_FILE};
pub use problem::Problem;
pub use retold::{retold, Retold};
pub use shift::Shift;
pub use span::{FileId, Place, Span};
pub use tree::{unquoted, Block, Element, Field, Item, Let, Measure, Relation, Toward, Tree, Value, ValueKind};
