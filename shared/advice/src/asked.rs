//! What is asked: pads for one flight of a file.

use crate::supposed::Supposed;
use finwright_checks::rule::Concern;
use finwright_checks::{rule, Analysis, Finding, Level};

/// What is compared: a flight of a file, by itself.
pub(crate) struct Asked<'a> {
    pub analysis: &'a Analysis,
    /// The flight's number in the file.
    pub like: usize,
    /// Nothing but that flight, its motor and wind as asked.
    pub bare: &'a Supposed,
}

/// Whether a finding is about the rocket itself, the same from every pad.
pub(crate) fn is_of_the_rocket(finding: &Finding) -> bool {
    finding.level <= Level::Warning && rule(finding.rule).is_some_and(|rule| rule.concerns != Concern::Pad)
}
