//! Faults that stand in a used file or in `finwright.toml`: told once, there, with how many designs they touch.

use super::{outcome, Outcome, Wish};
use crate::collect::read;
use crate::layout::{hanging, measure};
use crate::output::{plural, printable};
use crate::render::Object;
use finwright_checks::rule::Concern;
use finwright_checks::{analyze, rule, Analysis, Elsewhere, Finding, Level};
use finwright_grammar::LineIndex;
use schemars::JsonSchema;
use serde::Serialize;
use std::path::{Path, PathBuf};

/// Whether a finding's cause stands in another file than the one that was looked at.
pub fn is_elsewhere(finding: &Finding) -> bool {
    finding.elsewhere.is_some()
}

/// A fault as one design meets it.
#[derive(Clone, PartialEq)]
pub struct Fault {
    rule: &'static str,
    level: Level,
    message: String,
    help: String,
    kind: Kind,
    /// The file that it stands in, by the path that leads there.
    file: PathBuf,
    line: usize,
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    /// A line of `finwright.toml`.
    Settings,
    /// Words of a used file, which are told when that file is looked at itself.
    Words,
    /// What a rule finds in a design and whose cause is a value of a used file.
    Value,
}

impl Fault {
    /// `None` for a finding whose cause stands in the file itself.
    pub fn of(analysis: &Analysis, finding: &Finding) -> Option<Fault> {
        let fault = |kind, file: PathBuf, line, message: &str| Fault {
            rule: finding.rule,
            level: finding.level,
            message: message.to_string(),
            help: finding.help.clone(),
            kind,
            file,
            line,
        };
        match finding.elsewhere? {
            Elsewhere::Settings(number) => {
                let trouble = analysis.settings.problems.get(number)?;
                Some(fault(Kind::Settings, PathBuf::from(&trouble.file), trouble.line, &trouble.message))
            }
            Elsewhere::UsedFile(there) => {
                let source = analysis.sources.get(there.file.0 as usize)?;
                let lines = LineIndex::new(&source.text);
                let line = lines.line_and_column(there.span.start as usize, &source.text).0;
                let of_words = rule(finding.rule).is_none_or(|rule| rule.concerns == Concern::Words);
                let kind = if of_words { Kind::Words } else { Kind::Value };
                Some(fault(kind, source.path.clone(), line, &finding.message))
            }
        }
    }
}

/// A fault that is told once.
#[derive(Serialize, JsonSchema)]
pub struct Shared {
    /// The file that it stands in.
    file: String,
    line: usize,
    rule: &'static str,
    level: Level,
    message: String,
    help: String,
    /// The designs that it touches.
    designs: Vec<String>,
}

/// All that stands elsewhere.
pub struct Apart {
    shared: Vec<Shared>,
    /// Used files with faults in their words that nobody asked about, looked at themselves.
    files: Vec<(Outcome, Vec<String>)>,
    too_often: (usize, usize, usize),
}

impl Apart {
    pub fn gather(outcomes: &[Outcome], wish: Wish) -> Apart {
        let mut found = Apart { shared: Vec::new(), files: Vec::new(), too_often: (0, 0, 0) };
        let mut by_fault: Vec<(&Fault, Vec<String>)> = Vec::new();
        for outcome in outcomes {
            for fault in &outcome.elsewhere {
                match by_fault.iter_mut().find(|(known, _)| is_same(known, fault)) {
                    Some((_, designs)) => designs.push(outcome.report.path.clone()),
                    None => by_fault.push((fault, vec![outcome.report.path.clone()])),
                }
            }
        }
        for (fault, designs) in by_fault {
            found.count(fault.level, designs.len() - 1);
            if fault.kind == Kind::Words {
                found.look_at(outcomes, &fault.file, designs, wish);
                continue;
            }
            found.shared.push(Shared {
                file: fault.file.display().to_string(),
                line: fault.line,
                rule: fault.rule,
                level: fault.level,
                message: fault.message.clone(),
                help: fault.help.clone(),
                designs,
            });
        }
        found
    }

    /// Look at a used file itself, unless that is done already.
    fn look_at(&mut self, outcomes: &[Outcome], file: &Path, designs: Vec<String>, wish: Wish) {
        let real = finwright_disk::real_path(file);
        if outcomes.iter().any(|outcome| outcome.real == real) {
            return;
        }
        let input = read(file);
        if let Ok(snapshot) = input.snapshot {
            let analysis = analyze(&snapshot);
            self.files.push((outcome(&input.shown, real, &snapshot, &analysis, wish), designs));
        }
    }

    fn count(&mut self, level: Level, more: usize) {
        let counted = match level {
            Level::Error => &mut self.too_often.0,
            Level::Warning => &mut self.too_often.1,
            Level::Note => &mut self.too_often.2,
        };
        *counted += more;
    }

    pub fn has_errors(&self) -> bool {
        self.shared.iter().any(|fault| fault.level == Level::Error)
    }

    pub fn counted_too_often(&self) -> (usize, usize, usize) {
        self.too_often
    }

    pub fn shared(&self) -> &[Shared] {
        &self.shared
    }

    pub fn objects(&self) -> impl Iterator<Item = &Object> {
        self.files.iter().flat_map(|(outcome, _)| &outcome.found)
    }

    pub fn text(&self) -> String {
        let mut out = String::new();
        for (outcome, designs) in &self.files {
            out += &outcome.text;
            out +=
                &(hanging(&format!("{}: {}", printable(&outcome.report.path), touches(designs)), "", "  ", measure())
                    + "\n\n");
        }
        for fault in &self.shared {
            let at = format!("{}:{}", printable(&fault.file), fault.line);
            out += &format!("{} {}\n\n", fault.level.word(), fault.rule);
            for line in [
                fault.message.clone(),
                format!("at {at}; {}", touches(&fault.designs)),
                format!("help: {}", fault.help),
            ] {
                out += &(hanging(&line, "  ", "    ", measure()) + "\n");
            }
            out.push('\n');
        }
        out
    }

    pub fn lines(&self) -> String {
        let mut out: String = self.files.iter().map(|(outcome, _)| outcome.text.as_str()).collect();
        for fault in &self.shared {
            let (file, level) = (printable(&fault.file), fault.level.word());
            out += &format!(
                "{file}:{}:1: {level} {}: {}; {}\n",
                fault.line,
                fault.rule,
                fault.message,
                touches(&fault.designs)
            );
        }
        out
    }
}

/// What several designs say alike is one fault.
fn is_same(one: &Fault, other: &Fault) -> bool {
    let told = |fault: &Fault| (fault.kind != Kind::Words).then(|| (fault.message.clone(), fault.line));
    one.rule == other.rule && one.file == other.file && told(one) == told(other)
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
