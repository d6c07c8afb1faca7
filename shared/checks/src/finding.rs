//! What a rule says: plain data, the same for the terminal and for an editor.

use finwright_grammar::Place;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One thing that the reader should know, with where it is and what to do about it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// The rule's name, `family/bad-state`.
    pub rule: &'static str,
    /// How much it matters.
    pub level: Level,
    /// The cause, no wider than it needs to be.
    pub place: Place,
    /// What is wrong, with its numbers.
    pub message: String,
    /// Why it matters, in one plain sentence.
    pub why: String,
    /// What to do, with the value that would pass; empty where nothing can be said.
    pub help: String,
    /// Related places, each with a few words.
    pub labels: Vec<Label>,
    /// Edits that would mend it.
    pub fixes: Vec<Fix>,
    /// Where the cause stands, if not in the file that is looked at; the place is then the one that leads there.
    #[serde(skip)]
    pub elsewhere: Option<Elsewhere>,
    /// What else comes of the same cause, and would be found by itself.
    pub also: Vec<Also>,
    /// The flight that it's about, where it's about a single one, by its number in the design.
    #[serde(skip)]
    pub flight: Option<usize>,
    /// Whether it's about the rocket whatever it flies with, though its rule also speaks of flights.
    #[serde(skip)]
    pub of_rocket: bool,
    /// Whether it's only about what isn't finished yet, such as a block that is open at the end of the text.
    #[serde(skip)]
    pub unfinished: bool,
    /// How many times beyond what the rule allows: of two findings of one level the one further beyond is the worse.
    #[serde(skip)]
    pub beyond: f64,
}

/// Where a cause stands that isn't in the file that is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Elsewhere {
    /// In a file that this one uses.
    UsedFile(Place),
    /// In `finwright.toml`: the number of the trouble in its settings.
    Settings(usize),
}

/// What else comes of a finding's cause.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Also {
    /// The rule that finds it.
    pub rule: &'static str,
    /// How much it would matter by itself.
    pub level: Level,
    /// What it says.
    pub message: String,
}

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Level {
    /// Don't fly it like this.
    Error,
    /// Look at it before flying.
    Warning,
    /// Good to know.
    Note,
}

impl Level {
    /// The level's word in every output.
    pub fn word(self) -> &'static str {
        match self {
            Level::Error => "error",
            Level::Warning => "warning",
            Level::Note => "note",
        }
    }
}

/// A place that takes part in a finding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Label {
    /// Where.
    pub place: Place,
    /// Its part in the story.
    pub text: String,
}

/// A quick fix: a title and the edits it makes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fix {
    /// What the fix does, as a command: "place the lug at 271 mm".
    pub title: String,
    /// The edits, which don't overlap.
    pub edits: Vec<Edit>,
}

/// Replace the text at a place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Edit {
    /// What is replaced; an empty span inserts.
    pub place: Place,
    /// The new text.
    pub text: String,
}
