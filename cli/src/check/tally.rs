//! The closing count.

use super::apart::Apart;
use super::Outcome;
use crate::output::plural;
use finwright_checks::Verdict;

/// What came of all files together.
#[derive(Default)]
pub struct Tally {
    pub files: usize,
    /// How many files have each verdict, the worst first.
    verdicts: [usize; 5],
    errors: usize,
    warnings: usize,
    notes: usize,
    allowed: usize,
}

const VERDICTS: [Verdict; 5] =
    [Verdict::NotAsItIs, Verdict::NotChecked, Verdict::LookAtIt, Verdict::MeetsTheChecks, Verdict::Library];

impl Tally {
    pub fn of(outcomes: &[Outcome], apart: &Apart) -> Tally {
        let mut total = Tally::default();
        for outcome in outcomes.iter().filter(|outcome| outcome.unusable.is_none()) {
            let counts = outcome.report.counts;
            total.files += 1;
            if let Some(at) = VERDICTS.iter().position(|verdict| *verdict == outcome.report.verdict) {
                total.verdicts[at] += 1;
            }
            total.errors += counts.errors;
            total.warnings += counts.warnings;
            total.notes += counts.notes;
            total.allowed += counts.allowed;
        }
        // What is told once counts once.
        let (errors, warnings, notes) = apart.counted_too_often();
        total.errors = total.errors.saturating_sub(errors);
        total.warnings = total.warnings.saturating_sub(warnings);
        total.notes = total.notes.saturating_sub(notes);
        total
    }

    pub fn in_words(&self) -> String {
        let mut said = vec![self.verdicts_in_words()];
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
        let files = plural(self.files, "file");
        format!("{files} checked: {}. The range safety officer and the local code decide.", said.join("; "))
    }

    fn verdicts_in_words(&self) -> String {
        let several = self.files > 1;
        let word = |verdict: Verdict, n: usize| match (verdict, several) {
            (verdict, false) => verdict.words().to_string(),
            (Verdict::NotAsItIs, true) => format!("{n} not as it is"),
            (Verdict::NotChecked, true) => format!("{n} not checked"),
            (Verdict::LookAtIt, true) => format!("{n} to look at"),
            (Verdict::MeetsTheChecks, true) if n == 1 => "1 meets the checks".to_string(),
            (Verdict::MeetsTheChecks, true) => format!("{n} meet the checks"),
            (Verdict::Library, true) => format!("{n} {}", if n == 1 { "library" } else { "libraries" }),
        };
        let said: Vec<String> = VERDICTS
            .into_iter()
            .zip(self.verdicts)
            .filter(|(_, n)| *n > 0)
            .map(|(verdict, n)| word(verdict, n))
            .collect();
        said.join(", ")
    }
}
