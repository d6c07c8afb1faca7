//! Fixes that do what they say: each is applied and the whole analysis run again before it's offered.

use crate::analysis::{analyze, Analysis, Analyze, Files, Snapshot};
use crate::finding::{Edit, Finding, Fix};
use crate::rule::Concern;
use crate::rules::rule;
use finwright_grammar::FileId;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The fixes of a finding that hold: with one applied its finding is gone, and nothing is found that wasn't before.
///
/// What couldn't be checked before and is found then was there before. So a mended word may let the rules find whatever
/// they find, as long as no more words are wrong; and so may a fix after which more of the flights' numbers are known.
pub fn offered<'f>(snapshot: &Snapshot, analysis: &Analysis, finding: &'f Finding) -> Vec<&'f Fix> {
    offered_by(analyze, snapshot, analysis, finding)
}

/// [`offered`] with another way to analyse, as tests of an editor have.
pub fn offered_by<'f>(
    analyze: Analyze,
    snapshot: &Snapshot,
    analysis: &Analysis,
    finding: &'f Finding,
) -> Vec<&'f Fix> {
    let holds = |fix: &&Fix| {
        let Some(mended) = applied(snapshot, analysis, fix).filter(|_| analysis.wanted.still()) else { return false };
        let after = analyze(&mended);
        count(&after, |f| f.rule == finding.rule) < count(analysis, |f| f.rule == finding.rule)
            && if concerns_words(finding) {
                count(&after, concerns_words) <= count(analysis, concerns_words)
            } else {
                unknown(&after) < unknown(analysis) || !after.findings.iter().any(|new| is_more(analysis, &after, new))
            }
    };
    finding.fixes.iter().filter(holds).collect()
}

fn count(analysis: &Analysis, wanted: impl Fn(&Finding) -> bool) -> usize {
    analysis.findings.iter().filter(|finding| wanted(finding)).count()
}

/// Whether a rule finds more after an edit than before.
fn is_more(before: &Analysis, after: &Analysis, finding: &Finding) -> bool {
    let same = |other: &Finding| other.rule == finding.rule;
    count(after, same) > count(before, same)
}

/// How many numbers that flights need aren't known.
fn unknown(analysis: &Analysis) -> usize {
    analysis.flights.iter().map(|judgement| judgement.unknown.len()).sum()
}

fn concerns_words(finding: &Finding) -> bool {
    rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words)
}

/// The snapshot with a fix's edits, in whichever of its files; `None` where they don't all lie in one.
pub fn applied(snapshot: &Snapshot, analysis: &Analysis, fix: &Fix) -> Option<Snapshot> {
    let mut edits: Vec<&Edit> = fix.edits.iter().collect();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.place.span.start));
    let mut texts: HashMap<PathBuf, String> = HashMap::new();
    let mut own = snapshot.text.to_string();
    for edit in edits {
        let text = match edit.place.file {
            FileId(0) => &mut own,
            FileId(number) => {
                let source = analysis.sources.get(usize::try_from(number).ok()?)?;
                texts.entry(source.path.clone()).or_insert_with(|| source.text.to_string())
            }
        };
        let range = edit.place.span.range();
        text.get(range.clone())?;
        text.replace_range(range, &edit.text);
    }
    let files = Edited { files: snapshot.files.clone(), texts };
    Some(Snapshot { text: Arc::from(own), files: Arc::new(files), ..snapshot.clone() })
}

/// Files of which some have been edited.
struct Edited {
    files: Arc<dyn Files>,
    texts: HashMap<PathBuf, String>,
}

impl Files for Edited {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        match self.texts.get(path) {
            Some(text) => Ok(Arc::from(text.as_str())),
            None => self.files.read(path),
        }
    }
}
