//! One file a rule, and the list of them all.

pub mod allowances;
pub mod balance;
pub(crate) mod consequences;
pub mod field;
pub mod file;
pub mod fins;
pub mod flight;
pub mod flown;
pub mod guide;
pub mod measured;
pub mod motor;
pub mod mount;
pub mod pad;
pub mod recovery;
pub mod shape;
pub mod stability;
pub mod wind;
pub mod words;

use crate::finding::Level;
use crate::rule::Rule;
use crate::settings::Settings;
use crate::threshold::Threshold;
use std::sync::LazyLock;

/// Every family's rules.
pub static FAMILIES: &[&[&Rule]] = &[
    words::RULES,
    file::RULES,
    allowances::RULES,
    guide::RULES,
    pad::RULES,
    balance::RULES,
    stability::RULES,
    wind::RULES,
    field::RULES,
    mount::RULES,
    shape::RULES,
    flight::RULES,
    fins::RULES,
    motor::RULES,
    recovery::RULES,
    measured::RULES,
    flown::RULES,
];

/// Every rule, by family.
pub static RULES: LazyLock<Vec<&'static Rule>> = LazyLock::new(|| FAMILIES.concat());

/// The rule of that name.
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|r| r.name == name)
}

/// The rules whose findings matter less by these settings than they usually do, with the level now, `None` for off.
pub fn made_light_of(settings: &Settings) -> Vec<(&'static str, Option<Level>)> {
    let lighter = |(name, level): &&(&'static str, Option<Level>)| {
        level.is_none_or(|level| rule(name).is_some_and(|rule| level > rule.level))
    };
    let mut found: Vec<_> = settings.levels().iter().filter(lighter).copied().collect();
    found.sort_unstable_by_key(|(name, _)| *name);
    found
}

/// Every threshold of every rule, each once.
pub fn thresholds() -> Vec<&'static Threshold> {
    let mut found: Vec<&'static Threshold> = Vec::new();
    for threshold in RULES.iter().flat_map(|rule| rule.thresholds) {
        if !found.iter().any(|known| known.name == threshold.name) {
            found.push(threshold);
        }
    }
    found
}
