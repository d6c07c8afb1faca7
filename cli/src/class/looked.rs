//! A look at one submission: its designs judged, with the settings that the teacher chose.

use super::grade::{grade, Grade};
use super::rubric::Rubric;
use super::verdicts::State;
use crate::likeness::Print;
use finwright_checks::{analyze, Analysis, Level, Settings, Snapshot, Verdict};
use finwright_submissions::{contents, Class, Contents, Own, Submission};
use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::Arc;

/// What is kept of a submission once its pages are written.
pub struct Looked {
    pub id: String,
    pub name: String,
    pub state: State,
    /// What of it can't be read, in words.
    pub faults: Vec<String>,
    /// Its designs.
    pub designs: Vec<Design>,
    pub grade: Grade,
}

/// What is kept of a design.
pub struct Design {
    /// Its path, from the folder of submissions.
    pub path: String,
    pub verdict: Verdict,
    /// The worst that speaks against it, in words.
    pub reason: Option<String>,
    /// What was found at warning level and above, each rule once: its level, and what it says first.
    pub found: Vec<(&'static str, Level, String)>,
    /// The least static margin of its flights.
    pub margin: Option<f64>,
    /// The least exit speed of its flights, m/s.
    pub exit: Option<f64>,
    pub print: Print,
}

/// Look at a submission; what is known of its designs comes beside what is kept, for its pages.
pub fn look_at(
    submission: &Submission,
    class: &Class,
    settings: &Arc<Settings>,
    rubric: &Rubric,
) -> (Looked, Vec<Analysis>) {
    let handed = contents(submission);
    let analyses = judged(&handed, class, settings);
    let designs: Vec<Design> = analyses.iter().map(|(path, analysis)| design(path.clone(), analysis)).collect();
    let state = state(&handed, &analyses);
    let analyses: Vec<Analysis> = analyses.into_iter().map(|(_, analysis)| analysis).collect();
    let grade = grade(state, &analyses, &handed.faults, rubric);
    let (id, name, faults) = (submission.id.clone(), submission.name.clone(), handed.faults);
    (Looked { id, name, state, faults, designs, grade }, analyses)
}

/// The designs of a submission; a file that another one uses, and that has no flight of its own, is part of that one.
fn judged(handed: &Contents, class: &Class, settings: &Arc<Settings>) -> Vec<(String, Analysis)> {
    let at = |path: &str| class.folder.join(path);
    let texts: HashMap<PathBuf, Arc<str>> =
        handed.designs.iter().chain(&handed.data).map(|text| (at(&text.path), text.text.clone())).collect();
    let files = Arc::new(Own { texts, shared: class.shared.clone() });
    let one = |text: &finwright_submissions::Text| {
        let (path, settings) = (at(&text.path), settings.clone());
        let snapshot = Snapshot { path, text: text.text.clone(), files: files.clone(), settings };
        (text.path.clone(), analyze(&snapshot))
    };
    let mut found: Vec<(String, Analysis)> = handed.designs.iter().map(one).collect();
    let used: Vec<PathBuf> = found
        .iter()
        .flat_map(|(_, analysis)| analysis.sources.iter().skip(2).map(|source| source.path.clone()))
        .collect();
    found.retain(|(path, analysis)| !analysis.design.flights.is_empty() || !used.contains(&at(path)));
    found
}

fn state(handed: &Contents, analyses: &[(String, Analysis)]) -> State {
    if handed.is_nothing() {
        return State::Nothing;
    }
    if analyses.is_empty() {
        return State::Unreadable;
    }
    let flying = analyses.iter().filter(|(_, analysis)| !analysis.design.flights.is_empty());
    flying.map(|(_, analysis)| State::Judged(analysis.verdict)).min().unwrap_or(State::NoFlight)
}

fn design(path: String, analysis: &Analysis) -> Design {
    let mut found: Vec<(&'static str, Level, String)> = Vec::new();
    for finding in analysis.findings.iter().filter(|finding| finding.level <= Level::Warning) {
        if !found.iter().any(|(rule, ..)| *rule == finding.rule) {
            found.push((finding.rule, finding.level, finding.message.clone()));
        }
    }
    let flights = || analysis.assessment.flights.iter();
    let least = |values: Vec<f64>| values.into_iter().reduce(f64::min);
    Design {
        path,
        verdict: analysis.verdict,
        reason: analysis.reason.as_ref().map(|reason| reason.in_words()),
        found,
        margin: least(flights().filter_map(|numbers| numbers.margin()).collect()),
        exit: least(flights().filter_map(|numbers| Some(numbers.run.as_ref()?.last()?.speed)).collect()),
        print: analysis.tree().map_or(Print::default(), Print::of),
    }
}
