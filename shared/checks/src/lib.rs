//! The rules and the one way through: `analyze(snapshot) -> Analysis`.

pub mod analysis;
pub mod finding;

pub use analysis::{analyze, Analysis, Files, Snapshot, Source};
pub use finding::{Edit, Finding, Fix, Label, Level};
