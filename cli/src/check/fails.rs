//! When a run fails.

use super::results::Results;
use super::tally::Tally;
use crate::output::plural;
use clap::{Args, ValueEnum};
use finwright_checks::Level;

/// What fails besides files that aren't fit to fly or couldn't be checked.
#[derive(Args)]
pub struct Fails {
    /// Let the run fail for these, too.
    #[arg(long, value_enum)]
    deny: Option<Deny>,
    /// Let the run fail for more warnings than this.
    #[arg(long, value_name = "N")]
    max_warnings: Option<usize>,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Deny {
    /// Findings at warning level.
    Warnings,
}

impl Fails {
    /// Whether the run fails; where nothing but these options lets it, that is said on standard error.
    pub fn fails(&self, results: &Results) -> bool {
        let grave = results.shared.iter().map(|fault| fault.level);
        let grave = grave.chain(results.in_used.iter().flat_map(|used| used.findings.iter().map(|found| found.level)));
        let fails = results.files.iter().any(|file| file.fails()) || grave.clone().any(|level| level == Level::Error);
        let warnings = Tally::of(results).warnings;
        let said = plural(warnings, "warning");
        let denied = match (self.deny, self.max_warnings) {
            (Some(Deny::Warnings), _) if warnings > 0 => Some(format!("{said}, and --deny warnings lets none pass")),
            (_, Some(most)) if warnings > most => Some(format!("{said}, and --max-warnings lets {most} pass")),
            _ => None,
        };
        if let Some(denied) = denied.as_ref().filter(|_| !fails) {
            eprintln!("finwright: {denied}");
        }
        fails || denied.is_some()
    }
}
