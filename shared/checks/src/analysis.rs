//! The one way through: a snapshot of texts in, everything known about the design out.

use crate::agree::agreed;
use crate::allowance::{Allowances, Allowed};
use crate::common::floors::floors;
use crate::common::lacks::Lacks;
use crate::finding::{Also, Edit, Elsewhere, Finding, Fix, Label, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::rules::consequences::CONSEQUENCES;
use crate::rules::file::missing_field::MISSING_FIELD;
use crate::rules::file::not_checked::NOT_CHECKED;
use crate::rules::{rule, words, RULES};
use crate::settings::Settings;
use crate::unfinished;
use crate::verdict::{self, words_touch, Judgement, Reason, Verdict};
use crate::wanted::Wanted;
use finwright_assess::{
    abreast, abreast_over, assess, first_balance, fly_ahead, Assessment, Likelihood, Measure, Needs, Subject, Unknown,
};
use finwright_grammar::{FileId, Place, Tree};
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
    found.extend(abreast_over(design.flights.len(), RULES.len(), of_rules).into_iter().flatten());
    let (found, allowed) = sifted(&cx, &allowances, found);
    let judged = |flight| with(settings.units, || judgement(&cx, &allowances, flight, &found, &allowed));
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

/// The verdict on one flight: what is found in the file, in the rocket, and in this flight by itself.
fn judgement(
    cx: &Context,
    allowances: &Allowances,
    flight: usize,
    found: &[Finding],
    allowed: &[Allowed],
) -> Judgement {
    let alone = Context { only: Some(flight), rocket_told: true, ..*cx };
    let own: (Vec<Finding>, Vec<Allowed>);
    // The only flight of a file has been looked at already.
    let (found, allowed): (Vec<&Finding>, Vec<&Allowed>) = if cx.design.flights.len() == 1 {
        (found.iter().collect(), allowed.iter().collect())
    } else {
        own = sifted(&alone, allowances, run(&alone, |rule| is_of_a_flight(rule.concerns)));
        let shared = found.iter().filter(|f| !is_about_a_flight(f)).chain(&own.0);
        let shared_allowed = allowed.iter().filter(|a| !is_about_a_flight(&a.finding)).chain(&own.1);
        (shared.collect(), shared_allowed.collect())
    };
    let touches = |f: &Finding| !is_of_words(f) || touched(cx.design, flight, f);
    let found: Vec<&Finding> = found.into_iter().filter(|f| touches(f)).collect();
    let allowed: Vec<&Allowed> = allowed.into_iter().filter(|a| touches(&a.finding)).collect();
    verdict::judge(&alone, flight, &found, &allowed)
}

fn is_of_a_flight(concerns: Concern) -> bool {
    matches!(concerns, Concern::Flight | Concern::Pad)
}

fn is_about_a_flight(finding: &Finding) -> bool {
    !finding.of_rocket && rule(finding.rule).is_some_and(|rule| is_of_a_flight(rule.concerns))
}

fn is_of_words(finding: &Finding) -> bool {
    rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words)
}

/// Whether a finding is about what was flown, in a flight or as such.
fn is_of_what_flew(flight: usize, finding: &Finding) -> bool {
    rule(finding.rule).is_some_and(|rule| rule.family == Family::Flown)
        && finding.flight.is_none_or(|flown| flown == flight)
}

/// Whether a finding is about words or the file as such, and touches a flight.
fn is_of_the_file(design: &Design, flight: usize, finding: &Finding) -> bool {
    let of_file = rule(finding.rule).is_some_and(|rule| rule.concerns == Concern::File);
    of_file || (is_of_words(finding) && touched(design, flight, finding))
}

/// Where a brace or bracket is missing, what follows may belong elsewhere than it seems.
fn touched(design: &Design, flight: usize, finding: &Finding) -> bool {
    let structure = [&words::UNCLOSED_BLOCK, &words::STRAY_BRACE, &words::UNCLOSED_LIST, &words::TOO_DEEP];
    structure.iter().any(|rule| rule.name == finding.rule) || words_touch(design, flight, finding.place)
}

/// What the rules of some kind find.
fn run(cx: &Context, wanted: impl Fn(&Rule) -> bool) -> Vec<Finding> {
    RULES.iter().filter(|rule| wanted(rule)).flat_map(|rule| applied(cx, rule)).collect()
}

/// What a rule finds, unless it's switched off.
fn applied(cx: &Context, rule: &Rule) -> Vec<Finding> {
    let mut findings = Vec::new();
    if let Some(check) = rule.check.filter(|_| !cx.settings.is_off(rule.name)) {
        check(cx, &mut findings);
    }
    findings
}

/// The findings at the levels that the settings give them, at home in the file that was asked about, without those that
/// the author allows.
fn sifted(cx: &Context, allowances: &Allowances, found: Vec<Finding>) -> (Vec<Finding>, Vec<Allowed>) {
    let levelled = found.into_iter().filter_map(|finding| levelled(cx.settings, finding));
    allowances.split(levelled.filter_map(|finding| brought_home(cx, finding)).collect())
}

fn levelled(settings: &Settings, mut finding: Finding) -> Option<Finding> {
    if let Some(level) = settings.level(finding.rule) {
        finding.level = level?;
    }
    Some(finding)
}

/// A finding whose cause stands in a used file, told where this file leads there; `None` where it doesn't.
fn brought_home(cx: &Context, mut finding: Finding) -> Option<Finding> {
    if finding.place.file == FileId(0) {
        return Some(finding);
    }
    let there = finding.place;
    let label = finding.labels.iter().position(|label| label.place.file == FileId(0));
    let flight = finding.flight.or_else(|| cx.flights().next().map(|(_, numbers)| numbers.flight));
    let name = || flight.and_then(|flight| cx.design.flights.get(flight)).map(|flight| flight.name.place);
    finding.place = match label {
        Some(at) => finding.labels.remove(at).place,
        None => name().filter(|place| place.file == FileId(0))?,
    };
    finding.labels.insert(0, Label { place: there, text: "the cause".to_string() });
    finding.elsewhere = Some(Elsewhere::UsedFile(there));
    Some(finding)
}

/// The findings without missing measures of parts of which an error tells already why they have none.
fn without_echoes(design: &Design, mut found: Vec<Finding>) -> Vec<Finding> {
    let faults: Vec<Place> = found.iter().filter(|f| f.level == Level::Error).map(|f| f.place).collect();
    let is_echo = |f: &Finding| {
        let part = design.parts.iter().find(|part| part.header == f.place);
        let inside = |part: &finwright_model::Part, place: &Place| {
            place.file == part.block.file && part.block.span.touches(place.span.start as usize)
        };
        part.is_some_and(|part| faults.iter().any(|place| inside(part, place)))
    };
    found.retain(|f| f.rule != MISSING_FIELD.name || !is_echo(f));
    found
}

/// The findings without those that follow from another one about the same flight, which tells them too.
fn folded(mut found: Vec<Finding>) -> Vec<Finding> {
    for (cause, consequences) in CONSEQUENCES {
        let flights: Vec<usize> = found.iter().filter(|f| f.rule == cause.name).filter_map(|f| f.flight).collect();
        for flight in flights {
            let follows = |f: &Finding| f.flight == Some(flight) && consequences.iter().any(|c| c.name == f.rule);
            let (also, rest): (Vec<Finding>, Vec<Finding>) = found.into_iter().partition(follows);
            found = rest;
            if let Some(told) = found.iter_mut().find(|f| f.rule == cause.name && f.flight == Some(flight)) {
                told.also.extend(also.into_iter().map(|f| Also { rule: f.rule, level: f.level, message: f.message }));
            }
        }
    }
    found
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

fn syntax_findings(tree: &Tree) -> Vec<Finding> {
    let here = |span| Place { file: FileId(0), span };
    tree.problems
        .iter()
        .map(|problem| {
            let known = rule(problem.rule).unwrap_or(&words::UNREADABLE_LINE);
            let mut finding = known.finding(here(problem.span), problem.message.clone()).help(problem.help.clone());
            finding
                .labels
                .extend(problem.label.map(|(span, text)| Label { place: here(span), text: text.to_string() }));
            finding.fixes.extend(problem.replacement.as_ref().map(|r| Fix {
                title: r.title.clone(),
                edits: vec![Edit { place: here(r.span), text: r.text.clone() }],
            }));
            finding
        })
        .collect()
}

fn model_finding(problem: &finwright_model::Problem) -> Finding {
    // A problem that no rule is known for is told all the same.
    let known = rule(problem.rule).unwrap_or(&words::WRONG_FORM);
    let mut finding = known.finding(problem.place, problem.message.clone()).help(problem.help.clone());
    finding.elsewhere = problem.elsewhere.map(Elsewhere::UsedFile);
    finding.labels = problem.labels.iter().map(|(place, text)| Label { place: *place, text: text.clone() }).collect();
    finding.fixes.extend(
        problem
            .replacement
            .as_ref()
            .map(|r| Fix { title: r.title.clone(), edits: vec![Edit { place: r.place, text: r.text.clone() }] }),
    );
    finding
}
