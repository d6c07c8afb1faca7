//! What isn't known and would be drawn, in words.

use crate::subject::{sentence, Subject};
use finwright_checks::lacking::{causes, sentence as caused};
use finwright_checks::Level;

/// What a flight lacks, a sentence each, the causes first; where nothing is missing but something is wrong, that.
pub fn lacking(subject: Subject) -> Vec<String> {
    let groups = causes(&subject.analysis.assessment, subject.flight.map(|_| subject.number));
    let lacks: Vec<String> =
        groups.iter().map(|group| sentence("Not known", &caused(subject.design(), group))).collect();
    if !lacks.is_empty() {
        return lacks;
    }
    let wrong = subject.findings().find(|finding| finding.level == Level::Error);
    wrong.map(|finding| sentence("Mend this first", &finding.message)).into_iter().collect()
}
