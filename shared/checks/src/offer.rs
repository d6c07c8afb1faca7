//! Fixes that do what they say: each is applied and the whole analysis run again before it's offered.

use crate::analysis::{analyze, Analysis, Snapshot};
use crate::finding::{Finding, Fix};
use crate::rules::file::not_checked::NOT_CHECKED;
use finwright_grammar::FileId;
use std::sync::Arc;

/// The fixes of a finding that hold: with one applied its finding is gone, and no rule finds more than before.
///
/// What couldn't be checked before and is found then was there before: so with a word or a unit that is mended, and with a
/// fault that kept other checks from being made.
pub fn offered<'f>(snapshot: &Snapshot, analysis: &Analysis, finding: &'f Finding) -> Vec<&'f Fix> {
    offered_by(analyze, snapshot, analysis, finding)
}

/// [`offered`] with another way to analyse, as tests of an editor have.
pub fn offered_by<'f>(
    analyze: fn(&Snapshot) -> Analysis,
    snapshot: &Snapshot,
    analysis: &Analysis,
    finding: &'f Finding,
) -> Vec<&'f Fix> {
    if is_about_words(finding.rule) {
        return finding.fixes.iter().collect();
    }
    let holds = |fix: &&Fix| {
        // What an edit of another file does isn't known here.
        if fix.edits.iter().any(|edit| edit.place.file != FileId(0)) {
            return true;
        }
        let Some(text) = applied(&snapshot.text, fix) else { return false };
        let after = analyze(&Snapshot { text: Arc::from(text), ..snapshot.clone() });
        let count = |found: &[Finding], rule: &str| found.iter().filter(|f| f.rule == rule).count();
        let before = &analysis.findings;
        let unlocks = count(&after.findings, NOT_CHECKED.name) < count(before, NOT_CHECKED.name);
        let brings = |f: &Finding| count(&after.findings, f.rule) > count(before, f.rule);
        count(&after.findings, finding.rule) < count(before, finding.rule)
            && (unlocks || !after.findings.iter().any(brings))
    };
    finding.fixes.iter().filter(holds).collect()
}

/// The text with a fix's edits; `None` where they don't all lie in it.
pub fn applied(text: &str, fix: &Fix) -> Option<String> {
    let mut edits: Vec<_> = fix.edits.iter().collect();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.place.span.start));
    let mut text = text.to_string();
    for edit in edits {
        let range = edit.place.span.range();
        if edit.place.file != FileId(0) || text.get(range.clone()).is_none() {
            return None;
        }
        text.replace_range(range, &edit.text);
    }
    Some(text)
}

fn is_about_words(rule: &str) -> bool {
    ["syntax/", "name/", "unit/", "value/", "file/", "allow/"].iter().any(|family| rule.starts_with(family))
}
