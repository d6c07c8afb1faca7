//! `allow/unused` and `allow/broken`: comments that allow a rule, and don't.

use crate::example::Example;
use crate::finding::Level;
use crate::rule::{Concern, Family, Rule};

/// Every rule of the family.
pub static RULES: &[&Rule] = &[&UNUSED, &BROKEN];

/// A comment that allows what isn't found.
pub static UNUSED: Rule = Rule {
    name: "allow/unused",
    family: Family::Allow,
    concerns: Concern::File,
    wind: None,
    level: Level::Warning,
    summary: "a comment that allows a rule which has nothing to say there",
    why: "A leftover allowance would hide the next mistake of its kind.",
    prose: "When the design has been mended, the comment that allowed its fault should go too.",
    thresholds: &[],
    example: Example::new("flight one {", "# allow guide/slow-exit: on purpose\nflight one {"),
    check: None,
};

/// A comment that allows nothing, for lack of a rule, a reason or a place.
pub static BROKEN: Rule = Rule {
    name: "allow/broken",
    family: Family::Allow,
    concerns: Concern::File,
    wind: None,
    level: Level::Warning,
    summary: "a comment that was meant to allow a rule, and doesn't",
    why: "An allowance without a reason tells the next reader nothing, and one that isn't understood allows nothing.",
    prose: include_str!("allowances/broken.md"),
    thresholds: &[],
    example: Example::new("flight one {", "# allow guide/slow-exit\nflight one {"),
    check: None,
};
