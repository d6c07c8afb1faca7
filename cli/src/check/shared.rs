//! Faults that stand in a used file or in `finwright.toml`: told once, there, with how many designs they touch.

use super::line::{Fault, FileResult};
use crate::collect::read;
use crate::layout::{hanging, measure};
use crate::object::{objects, Object, Places};
use crate::output::{plural, printable};
use finwright_checks::rule::Concern;
use finwright_checks::{analyze, rule, Analysis, Elsewhere, Finding, Level, Snapshot};
use finwright_grammar::LineIndex;
use finwright_units::Units;
use schemars::JsonSchema;
use serde::Serialize;
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// A fault that is told once.
#[derive(Serialize, JsonSchema)]
pub struct Shared {
    /// The file that it stands in.
    pub file: String,
    pub line: usize,
    pub rule: Cow<'static, str>,
    pub level: Level,
    pub message: String,
    pub help: String,
    /// The designs that it touches.
    pub designs: Vec<String>,
}

/// A used file with faults in its words that nobody asked about.
pub struct Used {
    pub file: String,
    pub findings: Vec<Object>,
    /// The designs that use it.
    pub designs: Vec<String>,
}

/// Each fault once, and the used files whose words are at fault, unless they are among the files that were asked about.
pub fn gather(files: &[FileResult]) -> (Vec<Shared>, Vec<Used>) {
    let asked: BTreeSet<&str> = files.iter().map(FileResult::real).collect();
    let mut in_words: BTreeMap<&str, Used> = BTreeMap::new();
    let mut values: BTreeMap<(&str, usize, &str, &str), Shared> = BTreeMap::new();
    for file in files {
        for fault in &file.elsewhere {
            if fault.in_its_words {
                if !asked.contains(fault.file.as_str()) {
                    let new =
                        || Used { file: fault.file.clone(), findings: fault.findings.to_vec(), designs: Vec::new() };
                    in_words.entry(&fault.file).or_insert_with(new).touches(file.path());
                }
                continue;
            }
            let key = (fault.file.as_str(), fault.line, &*fault.rule, fault.message.as_str());
            values.entry(key).or_insert_with(|| Shared::of(fault)).touches(file.path());
        }
    }
    (values.into_values().collect(), in_words.into_values().collect())
}

impl Used {
    fn touches(&mut self, design: &str) {
        once(&mut self.designs, design);
    }

    /// "kit.finw: it touches 3 designs: …".
    pub fn in_words(&self) -> String {
        format!("{}: {}", printable(&self.file), touches(&self.designs))
    }
}

impl Shared {
    fn of(fault: &Fault) -> Shared {
        Shared {
            file: fault.file.clone(),
            line: fault.line,
            rule: fault.rule.clone(),
            level: fault.level,
            message: fault.message.clone(),
            help: fault.help.clone(),
            designs: Vec::new(),
        }
    }

    fn touches(&mut self, design: &str) {
        once(&mut self.designs, design);
    }

    /// What it says and how many designs it touches.
    pub fn in_words(&self) -> String {
        format!("{}; {}", printable(&self.message), touches(&self.designs))
    }

    /// A paragraph for the reader.
    pub fn text(&self) -> String {
        let at = format!("at {}:{}; {}", printable(&self.file), self.line, touches(&self.designs));
        let mut out = format!("{} {}\n\n", self.level.word(), self.rule);
        for line in [printable(&self.message), at, format!("help: {}", printable(&self.help))] {
            out += &(hanging(&line, "  ", "    ", measure()) + "\n");
        }
        out
    }

    pub fn line(&self) -> String {
        let (file, level) = (printable(&self.file), self.level.word());
        format!("{file}:{}:1: {level} {}: {}\n", self.line, self.rule, self.in_words())
    }
}

fn once(designs: &mut Vec<String>, design: &str) {
    if designs.last().is_none_or(|last| last != design) {
        designs.push(design.to_string());
    }
}

/// "it touches 64 designs: a.finw, b.finw and 62 more".
fn touches(designs: &[String]) -> String {
    let mut shown: Vec<String> = designs.iter().take(2).map(|path| printable(path)).collect();
    let more = designs.len().saturating_sub(2);
    if more > 0 {
        shown.push(format!("{more} more"));
    }
    let names = finwright_checks::lacking::joined(&shown, "and");
    format!("it touches {}: {names}", plural(designs.len(), "design"))
}

/// Whether a finding's cause stands in another file than the one that was looked at.
pub fn is_elsewhere(finding: &Finding) -> bool {
    finding.elsewhere.is_some()
}

/// A finding whose cause stands in another file; `None` for any other. The findings of a used file's own words are
/// looked for where they are wanted.
pub fn fault(snapshot: &Snapshot, analysis: &Analysis, finding: &Finding, with_fixes: bool) -> Option<Fault> {
    let fault = |file: String, line, message: &str| Fault {
        rule: Cow::Borrowed(finding.rule),
        level: finding.level,
        message: message.to_string(),
        help: finding.help.clone(),
        in_its_words: false,
        file,
        line,
        findings: Arc::default(),
    };
    match finding.elsewhere? {
        Elsewhere::Settings(number) => {
            let trouble = analysis.settings.problems.get(number)?;
            let beside = snapshot.path.parent().unwrap_or(Path::new("")).join(&trouble.file);
            Some(fault(name_from_here(&beside), trouble.line, &trouble.message))
        }
        Elsewhere::UsedFile(there) => {
            let source = analysis.sources.get(there.file.0 as usize)?;
            let lines = LineIndex::new(&source.text);
            let line = lines.line_and_column(there.span.start as usize, &source.text).0;
            let in_its_words = rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words);
            let fault = fault(name_from_here(&source.path), line, &finding.message);
            let findings = if in_its_words { found_in(&source.path, with_fixes) } else { Arc::default() };
            Some(Fault { in_its_words, findings, ..fault })
        }
    }
}

/// A file's name from the folder that the command was started in, links followed.
pub fn name_from_here(path: &Path) -> String {
    crate::collect::from_here(&finwright_disk::real_path(path)).display().to_string()
}

/// What is found in a used file when it's looked at by itself, once however many designs use it.
fn found_in(used: &Path, with_fixes: bool) -> Arc<Vec<Object>> {
    static KNOWN: LazyLock<Mutex<HashMap<PathBuf, Arc<Vec<Object>>>>> = LazyLock::new(Mutex::default);
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    let looked_at = || {
        let Ok(snapshot) = read(used).in_units(Some(Units::Si)).snapshot else { return Arc::default() };
        let analysis = analyze(&snapshot);
        let shown = name_from_here(used);
        let own: Vec<&Finding> = analysis.findings.iter().filter(|finding| !is_elsewhere(finding)).collect();
        Arc::new(objects(&Places::of(&shown, &analysis), &snapshot, &own, with_fixes))
    };
    known.entry(finwright_disk::real_path(used)).or_insert_with(looked_at).clone()
}
