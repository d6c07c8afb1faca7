//! The one table of every block and field: what it's called, where it stands, what it takes and what it means.
//!
//! Messages, completion, hover, the reference page and the editors' grammars all read this table; a word that isn't in
//! it doesn't exist in the language.

mod blocks;
mod nearest;
mod sizes;
pub mod slips;
mod usual;

pub use blocks::BLOCKS;
pub use nearest::nearest;
pub use sizes::{size, Size};
pub use usual::usual_materials;

use finwright_units::Dimension;

/// A block: its word, its place, its fields.
#[derive(Debug)]
pub struct BlockWord {
    /// The word in the header.
    pub word: &'static str,
    /// What the header takes behind the word.
    pub naming: Naming,
    /// The blocks it may stand in; the empty word is the file itself.
    pub inside: &'static [&'static str],
    /// What it is, in a sentence or two.
    pub doc: &'static str,
    /// Its fields, in the order in which they are best read.
    pub fields: &'static [FieldWord],
    /// A whole example, in the language.
    pub example: &'static str,
}

/// What a header takes behind its word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Naming {
    /// A name, needed only where something refers to it.
    Optional,
    /// A name, always.
    Required,
    /// A title in quotes.
    Title,
    /// Nothing.
    Nothing,
}

/// A field: its word, what it takes, what it means.
#[derive(Debug)]
pub struct FieldWord {
    /// The word before the colon.
    pub word: &'static str,
    /// What stands behind the colon.
    pub kind: FieldKind,
    /// What numbers make sense.
    pub limit: Limit,
    /// Whether nothing can be computed without it.
    pub needed: bool,
    /// Whether its default is near enough to go on with while what is said can't be understood: it touches drag, or
    /// only words. Without this a misread value blocks what rests on its block.
    pub hardly_matters: bool,
    /// What is used when it's left out, in words; empty where nothing is.
    pub default: &'static str,
    /// What it means, in a sentence or two.
    pub doc: &'static str,
    /// An example of the value.
    pub example: &'static str,
}

/// What a field takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FieldKind {
    /// A quantity with a unit.
    Quantity(Dimension),
    /// A whole number.
    Count,
    /// One word of a list, perhaps with a number behind it.
    Choice(&'static [ChoiceWord]),
    /// One word of a list, or a quantity.
    ChoiceOr(&'static [ChoiceWord], Dimension),
    /// A text in quotes.
    Text,
    /// The name of something defined elsewhere.
    Reference(Kind),
    /// The name of something defined elsewhere, or the quantity that it would give.
    ReferenceOr(Kind, Dimension),
    /// Names in a list.
    References(Kind),
    /// A place on the rocket.
    Place,
    /// A place on the rocket, or a list of places.
    Places,
    /// A list of points, or a file with two columns.
    Curve(Dimension, Dimension),
    /// A file that an instrument wrote: among its columns are these two.
    Recording(Dimension, Dimension),
    /// A quantity, perhaps with the height at which it holds.
    AtHeight(Dimension),
    /// When something opens.
    Opening,
}

/// Kinds of named things that a field can refer to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// A material.
    Material,
    /// A motor.
    Motor,
    /// A pad.
    Pad,
    /// A rail section.
    Section,
    /// A site.
    Site,
    /// A lug, button or rail guide.
    Guide,
    /// A flight.
    Flight,
    /// A stretch of the body: nose, tube or taper.
    Piece,
}

impl Kind {
    /// The kind in words.
    pub fn noun(self) -> &'static str {
        match self {
            Kind::Material => "material",
            Kind::Motor => "motor",
            Kind::Pad => "pad",
            Kind::Section => "rail section",
            Kind::Site => "site",
            Kind::Guide => "lug, button or rail guide",
            Kind::Flight => "flight",
            Kind::Piece => "nose, tube or taper",
        }
    }

    /// The kind with its article.
    pub fn phrase(self) -> String {
        format!("a {}", self.noun())
    }
}

/// A word that a choice takes.
#[derive(Debug, PartialEq)]
pub struct ChoiceWord {
    /// The word.
    pub word: &'static str,
    /// The least and greatest number that may follow it, and the one meant where none does.
    pub number: Option<(f64, f64, f64)>,
    /// What it means.
    pub doc: &'static str,
}

/// Which numbers make sense for a field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limit {
    /// Any.
    Any,
    /// Above zero.
    Positive,
    /// Zero or above.
    NotNegative,
    /// From the first to the second, both included, in SI.
    Between(f64, f64),
}

/// The block of that word.
pub fn block(word: &str) -> Option<&'static BlockWord> {
    BLOCKS.iter().find(|b| b.word == word)
}

impl BlockWord {
    /// The field of that word.
    pub fn field(&self, word: &str) -> Option<&'static FieldWord> {
        self.fields.iter().find(|f| f.word == word)
    }

    /// Whether it's a part of the rocket: it stands in another block, and in no pad.
    pub fn is_part(&self) -> bool {
        !self.inside.iter().any(|outer| outer.is_empty() || *outer == "pad")
    }
}

/// Names that stand for something by themselves, each with what that is; no value may have one.
pub const OWN_NAMES: [(&str, &str); 2] = [("balance", "the balance point"), ("tail", "the rocket's aft end")];

/// The blocks that may stand directly inside a block; the empty word is the file itself.
pub fn blocks_inside(parent: &str) -> impl Iterator<Item = &'static BlockWord> + '_ {
    BLOCKS.iter().filter(move |b| b.inside.contains(&parent))
}

/// What a field takes, in a word or two.
pub fn takes_in_short(kind: FieldKind) -> String {
    match kind {
        FieldKind::Quantity(dimension) | FieldKind::AtHeight(dimension) => dimension.phrase(),
        FieldKind::Choice(_) | FieldKind::ChoiceOr(..) => "a word".to_string(),
        FieldKind::Count => "a whole number".to_string(),
        FieldKind::Text => "a text".to_string(),
        FieldKind::Reference(kind) | FieldKind::References(kind) | FieldKind::ReferenceOr(kind, _) => kind.phrase(),
        FieldKind::Place | FieldKind::Places => "a place".to_string(),
        FieldKind::Curve(..) => "points".to_string(),
        FieldKind::Recording(..) => "a file".to_string(),
        FieldKind::Opening => "a moment".to_string(),
    }
}

/// What a field takes, in plain words.
pub fn takes(kind: FieldKind) -> String {
    let words = |choices: &[ChoiceWord]| choices.iter().map(|c| c.word).collect::<Vec<_>>().join(", ");
    match kind {
        FieldKind::Quantity(dimension) if dimension == Dimension::NUMBER => "a plain number".to_string(),
        FieldKind::Quantity(dimension) => format!("{} ({})", dimension.phrase(), dimension.fitting_units()),
        FieldKind::Count => "a whole number".to_string(),
        FieldKind::Choice(choices) => format!("one of {}", words(choices)),
        FieldKind::ChoiceOr(choices, dimension) => format!("one of {}, or {}", words(choices), dimension.phrase()),
        FieldKind::Text => "a text in quotes".to_string(),
        FieldKind::Reference(kind) => format!("the name of {}", kind.phrase()),
        FieldKind::ReferenceOr(kind, dimension) => {
            format!("the name of {}, or {} ({})", kind.phrase(), dimension.phrase(), dimension.fitting_units())
        }
        FieldKind::References(kind) => format!("a list of names, each {}", kind.phrase()),
        FieldKind::Place => "a place: `12 mm from back`, `15 mm ahead of balance`".to_string(),
        FieldKind::Places => {
            "a place: `12 mm from back`, `15 mm ahead of balance`; or several in a list, for as many copies".to_string()
        }
        FieldKind::AtHeight(dimension) => format!(
            "{} ({}), perhaps with the height above ground at which it's read: `4 m/s at 2 m`",
            dimension.phrase(),
            dimension.fitting_units()
        ),
        FieldKind::Recording(x, y) => {
            format!("`file \"name.csv\"` with columns of {} and {}, their units in the header", x.phrase(), y.phrase())
        }
        FieldKind::Opening => {
            "when it opens: `at delay`, `at top`, `2 s after top` or `150 m above ground`".to_string()
        }
        FieldKind::Curve(x, y) => {
            format!("a list of points, {} and {} each, or `file \"name.csv\"`", x.phrase(), y.phrase())
        }
    }
}
