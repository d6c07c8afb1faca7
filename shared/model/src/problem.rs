//! What is wrong with a design's words and values, before any physics.

use finwright_grammar::Place;

/// Something that the design says and that can't be so.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The rule that it's reported under.
    pub rule: &'static str,
    /// The cause.
    pub place: Place,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub help: String,
    /// Other places that belong to it.
    pub labels: Vec<(Place, String)>,
    /// An edit that would mend it.
    pub replacement: Option<Replacement>,
    /// The cause in a used file, where it stands there.
    pub elsewhere: Option<Place>,
}

/// Replace the text at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Replacement {
    /// What the edit does, as a command.
    pub title: String,
    /// What is replaced.
    pub place: Place,
    /// The new text.
    pub text: String,
}

impl Problem {
    /// A problem with a message and help, and nothing else yet.
    pub fn new(rule: &'static str, place: Place, message: impl Into<String>, help: impl Into<String>) -> Problem {
        Problem {
            rule,
            place,
            message: message.into(),
            help: help.into(),
            labels: Vec::new(),
            replacement: None,
            elsewhere: None,
        }
    }

    /// With another place that belongs to it.
    pub fn label(mut self, place: Place, text: impl Into<String>) -> Problem {
        self.labels.push((place, text.into()));
        self
    }

    /// With an edit that puts other text at its place.
    pub fn replaced_by(mut self, title: impl Into<String>, text: impl Into<String>) -> Problem {
        self.replacement = Some(Replacement { title: title.into(), place: self.place, text: text.into() });
        self
    }

    /// With the word that was probably meant, as help and as an edit.
    pub fn did_you_mean(mut self, word: Option<&str>) -> Problem {
        if let Some(word) = word {
            self.help = format!("did you mean `{word}`?");
            self.replacement =
                Some(Replacement { title: format!("change to `{word}`"), place: self.place, text: word.to_string() });
        }
        self
    }
}

/// A block word that the language doesn't have, or not here.
pub const UNKNOWN_BLOCK: &str = "name/unknown-block";
/// A field that the block doesn't have.
pub const UNKNOWN_FIELD: &str = "name/unknown-field";
/// A name that nothing defines.
pub const UNKNOWN_NAME: &str = "name/unknown-name";
/// A name defined twice.
pub const REPEATED_NAME: &str = "name/repeated-name";
/// A field written twice.
pub const REPEATED_FIELD: &str = "name/repeated-field";
/// Values that need each other.
pub const CIRCULAR: &str = "name/circular-value";
/// A unit that doesn't exist.
pub const UNKNOWN_UNIT: &str = "unit/unknown-unit";
/// A bare number where a quantity is due.
pub const MISSING_UNIT: &str = "unit/missing-unit";
/// A quantity of another kind than is due.
pub const WRONG_DIMENSION: &str = "unit/wrong-dimension";
/// A value of another form than is due: a text for a number, a list for a word.
pub const WRONG_FORM: &str = "value/wrong-form";
/// A number that can't be: zero or negative where it mustn't be, too large, not a number.
pub const OUT_OF_RANGE: &str = "value/out-of-range";
/// A used file that can't be had.
pub const UNREADABLE_FILE: &str = "file/unreadable-file";
/// Files that use each other.
pub const CIRCULAR_USE: &str = "file/circular-use";
/// A file with nothing in it.
pub const EMPTY_FILE: &str = "file/empty-file";
/// A language version that this build doesn't know.
pub const UNKNOWN_VERSION: &str = "file/unknown-version";
/// A part or motor that lacks what its numbers need.
pub const NOT_CHECKED: &str = "file/not-checked";
/// Corners of a fin's outline that can't be.
pub const BROKEN_OUTLINE: &str = "fins/broken-outline";
/// An instrument's record that nothing can be taken from.
pub const BROKEN_RECORD: &str = "file/broken-record";
/// Points of a thrust curve out of order, negative or too few.
pub const BROKEN_CURVE: &str = "motor/broken-curve";
