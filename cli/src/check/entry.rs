//! A line of a baseline.

use crate::output::{plural, printable};
use serde::{Deserialize, Serialize};

/// So often the same thing is found in a file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    pub file: String,
    pub rule: String,
    pub message: String,
    pub count: usize,
}

impl Entry {
    /// "the baseline knows … that isn't found any more".
    pub fn in_words(&self) -> String {
        let (file, times) = (printable(&self.file), plural(self.count, "time"));
        format!("in the baseline and no longer found, {times}: {file}: {}: {}", self.rule, printable(&self.message))
    }
}
