//! What came of a run as plain data: the same from files that were looked at and from a list of results.

use super::entry::Entry;
use super::line::FileResult;
use super::shared::{Shared, Used};
use crate::object::Object;

/// All that came of a run.
pub struct Results {
    /// Each file, in alphabetical order.
    pub files: Vec<FileResult>,
    /// What stands in a used file or in `finwright.toml`, once.
    pub shared: Vec<Shared>,
    /// What is found in used files that weren't asked about themselves.
    pub in_used: Vec<Used>,
    /// What stands in the baseline and isn't found any more.
    pub gone: Vec<Entry>,
}

impl Results {
    /// The files that could be used.
    pub fn usable(&self) -> impl Iterator<Item = &FileResult> {
        self.files.iter().filter(|file| file.could_be_used())
    }

    /// What couldn't be used, with the reason.
    pub fn unusable(&self) -> impl Iterator<Item = (&str, &str)> {
        self.files.iter().filter_map(|file| Some((file.path(), file.unusable.as_deref()?)))
    }

    /// Every finding of every file and of those that they use.
    pub fn findings(&self) -> impl Iterator<Item = &Object> {
        let own = self.usable().flat_map(|file| file.findings.iter());
        own.chain(self.in_used.iter().flat_map(|used| used.findings.iter()))
    }
}
