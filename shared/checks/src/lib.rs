//! The rules and the one way through: `analyze(snapshot) -> Analysis`.
//!
//! * [`analysis`]: parse, build, assess, check.
//! * [`rule`]: what a rule is. [`rules`]: one file a rule, and the list of them all.
//! * [`finding`]: what a rule says, as plain data.
//! * [`limits`]: the numbers that rules compare with.

mod allowance;
pub mod analysis;
pub mod finding;
pub mod limits;
pub mod rule;
pub mod rules;

pub use analysis::{analyze, Analysis, Files, Snapshot, Source};
pub use finding::{Edit, Finding, Fix, Label, Level};
pub use limits::Limits;
pub use rule::{Context, Rule};
pub use rules::{rule, RULES};
