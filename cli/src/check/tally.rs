//! The closing count.

use super::results::Results;
use crate::output::plural;
use finwright_checks::{Level, Verdict};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What came of all files together. What is told once counts once.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Tally {
    /// How many files were looked at.
    pub files: usize,
    /// How many of them have each verdict.
    verdicts: Verdicts,
    pub errors: usize,
    pub warnings: usize,
    pub notes: usize,
    /// How many findings their authors allow.
    allowed: usize,
    /// How many findings aren't told, since the baseline has them.
    known: usize,
    /// How many paths couldn't be used.
    pub unusable: usize,
}

/// How many files have each verdict.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
struct Verdicts {
    not_as_it_is: usize,
    not_checked: usize,
    look_at_it: usize,
    meets_the_checks: usize,
    library: usize,
}

impl Tally {
    pub fn of(results: &Results) -> Tally {
        let mut total = Tally { unusable: results.unusable().count(), ..Tally::default() };
        for file in results.usable() {
            total.files += 1;
            *total.verdicts.of(file.report.verdict) += 1;
            total.allowed += file.report.counts.allowed;
            total.known += file.known;
        }
        let shared = results.shared.iter().map(|fault| fault.level);
        for level in results.findings().map(|finding| finding.level).chain(shared) {
            match level {
                Level::Error => total.errors += 1,
                Level::Warning => total.warnings += 1,
                Level::Note => total.notes += 1,
            }
        }
        total
    }

    pub fn in_words(&self) -> String {
        let mut said = vec![self.verdicts.in_words(self.files)];
        let counts: Vec<String> = [(self.errors, "error"), (self.warnings, "warning"), (self.notes, "note")]
            .into_iter()
            .filter(|(n, _)| *n > 0)
            .map(|(n, word)| plural(n, word))
            .collect();
        if !counts.is_empty() {
            said.push(counts.join(", "));
        }
        if self.allowed > 0 {
            said.push(format!("{} allowed by its author", plural(self.allowed, "finding")));
        }
        if self.known > 0 {
            said.push(format!("{} known from the baseline", plural(self.known, "finding")));
        }
        let files = plural(self.files, "file");
        format!("{files} checked: {}. The range safety officer and the local code decide.", said.join("; "))
    }
}

impl Verdicts {
    fn of(&mut self, verdict: Verdict) -> &mut usize {
        match verdict {
            Verdict::NotAsItIs => &mut self.not_as_it_is,
            Verdict::NotChecked => &mut self.not_checked,
            Verdict::LookAtIt => &mut self.look_at_it,
            Verdict::MeetsTheChecks => &mut self.meets_the_checks,
            Verdict::Library => &mut self.library,
        }
    }

    fn in_words(&self, files: usize) -> String {
        let word = |(verdict, n): (Verdict, usize)| match (verdict, files > 1) {
            (verdict, false) => verdict.words().to_string(),
            (Verdict::NotAsItIs, true) => format!("{n} not as it is"),
            (Verdict::NotChecked, true) => format!("{n} not checked"),
            (Verdict::LookAtIt, true) => format!("{n} to look at"),
            (Verdict::MeetsTheChecks, true) if n == 1 => "1 meets the checks".to_string(),
            (Verdict::MeetsTheChecks, true) => format!("{n} meet the checks"),
            (Verdict::Library, true) => format!("{n} {}", if n == 1 { "library" } else { "libraries" }),
        };
        // The worst first.
        let all = [
            (Verdict::NotAsItIs, self.not_as_it_is),
            (Verdict::NotChecked, self.not_checked),
            (Verdict::LookAtIt, self.look_at_it),
            (Verdict::MeetsTheChecks, self.meets_the_checks),
            (Verdict::Library, self.library),
        ];
        let said: Vec<String> = all.into_iter().filter(|(_, n)| *n > 0).map(word).collect();
        said.join(", ")
    }
}
