//! The rules and the one way through: `analyze(snapshot) -> Analysis`.
//!
//! * [`analysis`]: parse, build, assess, check. `found`: what is found on the way. `judged`: what of it touches a
//!   flight.
//! * [`rule`]: what a rule is. [`rules`]: one file a rule, and the list of them all.
//! * [`finding`]: what a rule says, as plain data.
//! * [`verdict`]: whether to fly, computed once beside the findings. [`lacking`]: what isn't known, in words.
//! * `retold`: what an edit in a comment changes.
//! * [`offer`]: which fixes do what they say.
//! * [`settings`]: what `finwright.toml` says of levels and thresholds. [`threshold`]: the numbers that rules compare
//!   with.
//! * [`example`]: how it's done and how not, run as tests.

mod agree;
pub mod allowance;
pub mod analysis;
pub mod common;
pub mod example;
pub mod finding;
mod found;
mod judged;
pub mod lacking;
pub mod offer;
mod retold;
pub mod rule;
pub mod rules;
mod sentence;
pub mod settings;
pub mod threshold;
mod unfinished;
pub mod verdict;
pub mod wanted;

pub use allowance::Allowed;
pub use analysis::{analyze, Analysis, Analyze, Files, Snapshot, Source, Supposition};
pub use finding::{Also, Edit, Elsewhere, Finding, Fix, Label, Level};
pub use offer::offered;
pub use rule::{Context, Rule};
pub use rules::{rule, RULES};
pub use sentence::flight_in_words;
pub use settings::Settings;
pub use threshold::{Profile, Threshold};
pub use verdict::{Judgement, Reason, Verdict};
pub use wanted::Wanted;
