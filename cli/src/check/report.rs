//! What `check --format json` prints.

use super::file::FileReport;
use super::line::VERSION;
use super::results::Results;
use super::shared::Shared;
use super::tally::Tally;
use crate::object::Object;
use schemars::JsonSchema;
use serde::Serialize;

/// All of it.
#[derive(Serialize, JsonSchema)]
pub struct Report<'r> {
    version: u32,
    /// Every file that was looked at.
    files: Vec<&'r FileReport>,
    /// Every finding of every file.
    findings: Vec<&'r Object>,
    /// What stands in a used file or in `finwright.toml`, once, with the designs that it touches.
    shared: &'r [Shared],
    /// What couldn't be used.
    unusable: Vec<Unusable<'r>>,
    /// The counts of the whole.
    summary: Tally,
}

/// What couldn't be used, and why.
#[derive(Serialize, JsonSchema)]
struct Unusable<'r> {
    path: &'r str,
    reason: &'r str,
}

impl<'r> Report<'r> {
    pub fn of(results: &'r Results) -> Report<'r> {
        Report {
            version: VERSION,
            files: results.usable().map(|file| &file.report).collect(),
            findings: results.findings().collect(),
            shared: &results.shared,
            unusable: results.unusable().map(|(path, reason)| Unusable { path, reason }).collect(),
            summary: Tally::of(results),
        }
    }
}
