//! The one way through: a snapshot of texts in, everything known about the design out.

use crate::agree::agreed;
use crate::allowance::{Allowances, Allowed};
use crate::common::floors::floors;
use crate::common::lacks::Lacks;
use crate::finding::{Finding, Level};
use crate::found::{applied, folded, levelled, model_finding, run, sifted, syntax_findings, without_echoes};
use crate::judged::{is_of_the_file, is_of_what_flew, judgement, InTheFile};
use crate::rule::{Concern, Context, Family, Rule};
use crate::rules::file::not_checked::NOT_CHECKED;
use crate::rules::RULES;
use crate::settings::Settings;
use crate::unfinished;
use crate::verdict::{self, Judgement, Reason, Verdict};
use crate::wanted::Wanted;
use finwright_assess::{
    abreast, abreast_over, assess, first_balance, fly_ahead, Assessment, Likelihood, Measure, Needs, Subject, Unknown,
};
use finwright_grammar::Tree;
use finwright_model::{build, rebuild, Design};
use finwright_units::reader::with;
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
    /// What the rules found, each at a place of the file that was asked about: causes in order of place, then what
    /// couldn't be checked for them.
    pub findings: Vec<Finding>,
    /// What they found and the author allows.
    pub allowed: Vec<Allowed>,
    /// The verdict on each flight, in the design's order.
    pub flights: Vec<Judgement>,
    /// The verdict on the file.
    pub verdict: Verdict,
    /// The worst that speaks against the file.
    pub reason: Option<Reason>,
    /// Whether anybody still waits for answers that are drawn from it: an editor's text moves on.
    pub wanted: Wanted,
    pub(crate) allowances: Allowances,
}

/// The whole way from a text to its findings: [`analyze`], or what a test puts in its place.
pub type Analyze = fn(&Snapshot) -> Analysis;

/// Run the whole way once: parse, build the design, compute the numbers, apply the rules, judge. What is said is in the
/// units that the snapshot's settings put first.
pub fn analyze(snapshot: &Snapshot) -> Analysis {
    with(snapshot.settings.units, || analyze_in_words(snapshot))
}

fn analyze_in_words(snapshot: &Snapshot) -> Analysis {
    let (design, assessment) = settled(snapshot);
    fly_ahead(&design, &assessment);
    let settings = snapshot.settings.as_ref();
    let allowances = Allowances::of(&design, settings);
    let lacks = Lacks::default();
    let cx =
        Context { design: &design, assessment: &assessment, settings, only: None, rocket_told: false, lacks: &lacks };
    let mut found = design.files.first().map_or(Vec::new(), |main| syntax_findings(&main.tree));
    found.extend(design.problems.iter().map(model_finding));
    let of_rules =
        |number: usize| with(settings.units, || RULES.get(number).map_or(Vec::new(), |rule| applied(&cx, rule)));
    let by_rule = abreast_over(design.flights.len(), RULES.len(), of_rules);
    let spoke: Vec<&Rule> =
        RULES.iter().zip(&by_rule).filter(|(_, found)| !found.is_empty()).map(|(r, _)| *r).collect();
    found.extend(by_rule.into_iter().flatten());
    let (found, allowed) = sifted(&cx, &allowances, found);
    let file = InTheFile { found: &found, allowed: &allowed, spoke: &spoke };
    let judged = |flight| with(settings.units, || judgement(&cx, &allowances, flight, &file));
    let flights: Vec<Judgement> = abreast(design.flights.len(), judged);
    let mut findings = agreed(folded(without_echoes(&design, found)));
    if let Some(main) = design.files.first() {
        findings.extend(
            allowances.faults(&main.tree, settings, &allowed).into_iter().filter_map(|f| levelled(settings, f)),
        );
    }
    if let Some(main) = design.files.first() {
        unfinished::mark(&main.tree, &mut findings);
    }
    // What couldn't be checked comes after what keeps it from being.
    findings.sort_by_key(|f| (f.rule == NOT_CHECKED.name, f.place.span.start, f.place.span.end, f.level, f.rule));
    let (verdict, reason) = verdict::of_file(&design, &flights, &findings, &allowed);
    let sources =
        design.files.iter().map(|file| Source { path: file.path.clone(), text: file.tree.text.clone() }).collect();
    let settings = snapshot.settings.clone();
    let wanted = Wanted::default();
    Analysis { sources, design, assessment, settings, findings, allowed, flights, verdict, reason, wanted, allowances }
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

    /// How likely a flight meets its floors, worked out when first asked for; `None` where that can't be told.
    pub fn likely(&self, flight: usize) -> Option<Likelihood> {
        let floors = floors(&self.settings, &self.design, &self.assessment);
        self.assessment.likelihood(&self.design, flight, &floors)
    }

    /// The rules about rockets and flights that were applied, by name: all that aren't switched off, where there is a
    /// flight to apply them to; what a flight lacks for one of them is told by its verdict.
    pub fn made(&self) -> Vec<&'static str> {
        let about_flights = |rule: &Rule| !matches!(rule.concerns, Concern::Words | Concern::File);
        let applies =
            |rule: &&&'static Rule| rule.check.is_some() && about_flights(rule) && !self.settings.is_off(rule.name);
        match self.design.flights.is_empty() {
            true => Vec::new(),
            false => RULES.iter().filter(applies).map(|rule| rule.name).collect(),
        }
    }

    /// Judge a design of a single flight that stands in no file, such as this one from another pad. What is wrong with
    /// the words and the file counts as it does for the flight `like`, and what the author allows is allowed.
    pub fn judge_supposed(&self, design: &Design, assessment: &Assessment, like: usize) -> Supposition<'_> {
        let lacks = Lacks::default();
        let settings = &self.settings;
        let cx = Context { design, assessment, settings, only: Some(0), rocket_told: false, lacks: &lacks };
        // What a flight did isn't done again from another pad.
        let about_design =
            |rule: &Rule| !matches!(rule.concerns, Concern::Words | Concern::File) && rule.family != Family::Flown;
        let (mut findings, allowed) = sifted(&cx, &self.allowances, run(&cx, about_design));
        let touches = |f: &&Finding| is_of_the_file(&self.design, like, f) || is_of_what_flew(like, f);
        let of_the_file: Vec<&Finding> = self.findings.iter().filter(touches).collect();
        let found: Vec<&Finding> = of_the_file.iter().copied().chain(&findings).collect();
        let flown = self.allowed.iter().filter(|allowed| is_of_what_flew(like, &allowed.finding));
        let judgement = verdict::judge(&cx, 0, &found, &allowed.iter().chain(flown).collect::<Vec<_>>());
        findings.sort_by(|a, b| a.level.cmp(&b.level).then(b.beyond.total_cmp(&a.beyond)));
        Supposition { judgement, findings, of_the_file }
    }

    /// The analysis of a design of a single flight that stands in no file, judged as [`Analysis::judge_supposed`] does:
    /// for whatever shows a flight as if the file said it.
    pub fn supposing(&self, design: Design, assessment: Assessment, like: usize) -> Analysis {
        let judged = self.judge_supposed(&design, &assessment, like);
        let (verdict, reason) = (judged.judgement.verdict, judged.judgement.reason.clone());
        let own = |mut finding: Finding| {
            finding.flight = finding.flight.map(|_| 0);
            finding
        };
        let is_allowed = |allowed: &&Allowed| judged.judgement.allowed.contains(&allowed.finding.rule);
        Analysis {
            sources: self.sources.iter().map(|s| Source { path: s.path.clone(), text: s.text.clone() }).collect(),
            design,
            assessment,
            settings: self.settings.clone(),
            findings: judged.of_the_file.into_iter().cloned().chain(judged.findings).map(own).collect(),
            allowed: self.allowed.iter().filter(is_allowed).cloned().collect(),
            flights: vec![judged.judgement],
            verdict,
            reason,
            wanted: self.wanted.clone(),
            allowances: self.allowances.clone(),
        }
    }

    /// Take the file for a library: another one uses it, and it has no flight of its own.
    pub fn take_as_library(&mut self) {
        self.findings.retain(|finding| finding.rule != NOT_CHECKED.name);
        (self.verdict, self.reason) = (Verdict::Library, None);
    }

    /// What rules that hang on the wind find in a design of a single flight at warning level and above.
    pub fn faults_of_wind(&self, design: &Design, assessment: &Assessment) -> Vec<Finding> {
        let lacks = Lacks::default();
        let settings = &self.settings;
        let cx = Context { design, assessment, settings, only: Some(0), rocket_told: false, lacks: &lacks };
        let found = run(&cx, |rule| rule.wind.is_some());
        let (mut found, _) = sifted(&cx, &self.allowances, found);
        found.retain(|finding| finding.level <= Level::Warning);
        found.sort_by(|a, b| a.level.cmp(&b.level).then(b.beyond.total_cmp(&a.beyond)));
        found
    }
}

/// What comes of a design that is only supposed.
pub struct Supposition<'a> {
    /// The verdict on it.
    pub judgement: Judgement,
    /// What the rules find in it, the gravest first.
    pub findings: Vec<Finding>,
    /// What is found of the words and the file, and touches it, as the file's own findings: of its own flights.
    pub of_the_file: Vec<&'a Finding>,
}

/// Rounds for values that hang on the balance point; each shrinks the error by the share of the mass that they move.
const ROUNDS: usize = 60;
const CLOSE: f64 = 1e-10;

/// The design and its numbers. Where values hang on the balance point, which hangs on them, both are found again until
/// they settle.
fn settled(snapshot: &Snapshot) -> (Design, Assessment) {
    let mut design = build(&snapshot.path, snapshot.text.clone(), snapshot.files.as_ref());
    let mut guess = Some(0.0);
    for _ in 0..ROUNDS {
        let found = if design.uses_balance { first_balance(&design) } else { guess };
        if found == guess || found.zip(guess).is_some_and(|(now, before)| (now - before).abs() <= CLOSE) {
            let assessment = assess(&design);
            return (design, assessment);
        }
        guess = found;
        design = rebuild(design, snapshot.files.as_ref(), guess);
    }
    let mut assessment = assess(&design);
    let airframe = Arc::make_mut(&mut assessment.airframe);
    airframe.settled = false;
    if let Some(place) = design.airframe {
        let (subject, measure) = (Subject::Airframe, Measure::Values);
        airframe.unknown.push(Unknown { subject, measure, needs: Needs::Settling, place });
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
