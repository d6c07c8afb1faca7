//! The one way through: a snapshot of texts in, everything known about the design out.

use crate::finding::{Edit, Finding, Fix, Label, Level};
use crate::rule::Context;
use crate::rules::{rule, RULES};
use crate::settings::Settings;
use finwright_assess::{assess, Assessment, Unknown};
use finwright_grammar::{FileId, Place, Tree};
use finwright_model::{build, rebuild, Design};
use std::path::PathBuf;
use std::sync::Arc;

pub use finwright_model::Files;

/// Everything that is known about one design file.
pub struct Analysis {
    /// The texts that took part; number 0 is the file that was asked about.
    pub sources: Vec<Source>,
    /// The design as the file says it.
    pub design: Design,
    /// Its numbers.
    pub assessment: Assessment,
    /// The levels and thresholds that it was checked with.
    pub settings: Arc<Settings>,
    /// What the rules found in the file that was asked about, in order of place.
    pub findings: Vec<Finding>,
}

/// Run the whole way once: parse, build the design, compute the numbers, apply the rules.
pub fn analyze(snapshot: &Snapshot) -> Analysis {
    let (design, assessment) = settled(snapshot);
    let settings = snapshot.settings.as_ref();
    let mut findings = Vec::new();
    if let Some(main) = design.files.first() {
        findings.extend(syntax_findings(&main.tree));
    }
    findings.extend(design.problems.iter().map(model_finding));
    findings.extend(judge(&design, &assessment, settings));
    findings.retain_mut(|finding| match settings.level(finding.rule) {
        Some(Some(level)) => {
            finding.level = level;
            true
        }
        Some(None) => false,
        None => true,
    });
    // What is wrong in a used file is told there; a finding about this design points into this file.
    findings.retain(|f| f.place.file == FileId(0));
    if let Some(main) = design.files.first() {
        crate::allowance::apply(&main.tree, settings, &mut findings);
    }
    findings.sort_by_key(|f| (f.place.span.start, f.place.span.end, f.level, f.rule));
    let sources =
        design.files.iter().map(|file| Source { path: file.path.clone(), text: file.tree.text.clone() }).collect();
    Analysis { sources, design, assessment, settings: snapshot.settings.clone(), findings }
}

/// What the rules find in a design with its numbers, whether it stands in a file or is only supposed.
pub fn judge(design: &Design, assessment: &Assessment, settings: &Settings) -> Vec<Finding> {
    let context = Context { design, assessment, settings };
    let mut findings = Vec::new();
    for rule in RULES.iter().filter(|rule| !settings.is_off(rule.name)) {
        if let Some(check) = rule.check {
            check(&context, &mut findings);
        }
    }
    findings
}

/// Rounds for values that hang on the balance point; each shrinks the error by the share of the mass that they move.
const ROUNDS: usize = 60;
const CLOSE: f64 = 1e-10;

/// The design and its numbers. Where values hang on the balance point, which hangs on them, both are found again until
/// they settle.
fn settled(snapshot: &Snapshot) -> (Design, Assessment) {
    let mut design = build(&snapshot.path, snapshot.text.clone(), snapshot.files.as_ref());
    let mut assessment = assess(&design);
    let mut guess = 0.0;
    for _ in 0..ROUNDS {
        let found = assessment.flights.iter().find_map(|flight| flight.loaded).map(|loaded| loaded.x);
        let Some(balance) = found.filter(|x: &f64| design.uses_balance && (x - guess).abs() > CLOSE) else {
            return (design, assessment);
        };
        guess = balance;
        design = rebuild(design, snapshot.files.as_ref(), balance);
        assessment = assess(&design);
    }
    if let Some(place) = design.airframe {
        assessment.unknown.push(Unknown {
            what: "the values that hang on the balance point, which don't settle".to_string(),
            needs: "a measure that doesn't move the balance point more than it follows it".to_string(),
            place,
        });
    }
    (design, assessment)
}

/// What an analysis is computed from; nothing else goes in.
#[derive(Clone)]
pub struct Snapshot {
    /// The file's path, as far as it has one.
    pub path: PathBuf,
    /// Its text now, which may be newer than the one on disk.
    pub text: Arc<str>,
    /// Reads the files that this one uses.
    pub files: Arc<dyn Files>,
    /// Levels and thresholds: see [`crate::settings::settings_for`].
    pub settings: Arc<Settings>,
}

/// One text of an analysis.
#[derive(Clone)]
pub struct Source {
    /// Its path.
    pub path: PathBuf,
    /// Its text.
    pub text: Arc<str>,
}

impl Analysis {
    /// The tree of the file that was asked about.
    pub fn tree(&self) -> Option<&Tree> {
        self.design.files.first().map(|f| f.tree.as_ref())
    }

    /// How many findings have this level.
    pub fn count(&self, level: Level) -> usize {
        self.findings.iter().filter(|f| f.level == level).count()
    }
}

fn syntax_findings(tree: &Tree) -> Vec<Finding> {
    let here = |span| Place { file: FileId(0), span };
    tree.problems
        .iter()
        .filter_map(|problem| {
            let mut finding =
                rule(problem.rule)?.finding(here(problem.span), problem.message.clone()).help(problem.help.clone());
            finding
                .labels
                .extend(problem.label.map(|(span, text)| Label { place: here(span), text: text.to_string() }));
            finding.fixes.extend(problem.replacement.as_ref().map(|r| Fix {
                title: r.title.clone(),
                edits: vec![Edit { place: here(r.span), text: r.text.clone() }],
            }));
            Some(finding)
        })
        .collect()
}

fn model_finding(problem: &finwright_model::Problem) -> Finding {
    let known = rule(problem.rule).unwrap_or(&crate::rules::words::WRONG_FORM);
    let mut finding = known.finding(problem.place, problem.message.clone()).help(problem.help.clone());
    finding.rule = problem.rule;
    finding.labels = problem.labels.iter().map(|(place, text)| Label { place: *place, text: text.clone() }).collect();
    finding.fixes.extend(
        problem
            .replacement
            .as_ref()
            .map(|r| Fix { title: r.title.clone(), edits: vec![Edit { place: r.place, text: r.text.clone() }] }),
    );
    finding
}
