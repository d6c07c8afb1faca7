//! What a name can stand for in its place. It's looked up among its own kind, so that a motor, a part and a value may have
//! one name between them.

use finwright_grammar::vocabulary::{self, Kind};

/// Among what a name is looked up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sought<'w> {
    /// Values, each named by a `let`.
    Value,
    /// Blocks that can say this field, and parts that have this station: `body.length`, `body.ends`.
    Saying(&'w str),
    /// Parts of the rocket.
    Part,
    /// Blocks that begin with this word.
    Word(&'w str),
    /// Things of a kind.
    Kind(Kind),
    /// Blocks of any word.
    Block,
}

impl Sought<'_> {
    /// Whether what begins with this word, a block's or `let`, is among them.
    pub fn holds(self, word: &str) -> bool {
        match self {
            Self::Value => word == "let",
            Self::Saying(field) => {
                let is_station = STATIONS.iter().any(|(station, _)| *station == field);
                vocabulary::block(word).is_some_and(|block| {
                    if is_station {
                        block.is_part()
                    } else {
                        block.field(field).is_some()
                    }
                })
            }
            Self::Part => vocabulary::block(word).is_some_and(|block| block.is_part()),
            Self::Word(own) => word == own,
            Self::Kind(kind) => words_of(kind).contains(&word),
            Self::Block => word != "let",
        }
    }

    /// What a name is taken for where nothing that is sought has it: a value, `material: my_density`, or what tells what
    /// is wrong.
    pub fn failing(self) -> Option<Self> {
        match self {
            Self::Saying(_) | Self::Word(_) => Some(Self::Block),
            Self::Kind(_) => Some(Self::Value),
            Self::Value | Self::Part | Self::Block => None,
        }
    }
}

/// Words behind a part's name that mean a station of it, each with the share of its length at which that lies.
pub(crate) const STATIONS: [(&str, f64); 3] = [("begins", 0.0), ("middle", 0.5), ("ends", 1.0)];

/// The words of the blocks that define a kind of thing.
fn words_of(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::Material => &["material"],
        Kind::Motor => &["motor"],
        Kind::Pad => &["pad"],
        Kind::Section => &["section"],
        Kind::Site => &["site"],
        Kind::Guide => &["lug", "button", "rail_guide"],
        Kind::Flight => &["flight"],
        Kind::Piece => &["nose", "tube", "taper"],
    }
}
