//! Findings as text: drawn with their lines, one a line, or as objects.

use crate::layout::{joined, measure, parted, whole};
use crate::more::more;
use crate::output::printable;
use crate::snippet::{in_one_frame, Excerpt, AROUND};
use finwright_checks::{offered, Also, Analysis, Finding, Level, Snapshot};
use finwright_grammar::{LineIndex, Place};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, Severity, SourceCode};
use schemars::JsonSchema;
use serde::Serialize;
use std::ffi::OsString;
use std::fmt;
use std::io::IsTerminal;
use textwrap::{WordSeparator, WordSplitter};

/// Findings drawn with the lines that they are about.
pub fn graphical(shown: &str, analysis: &Analysis, findings: &[&Finding]) -> String {
    let mut out = String::new();
    let Some(source) = analysis.sources.first().filter(|_| !findings.is_empty()) else { return out };
    let lines = LineIndex::new(&source.text);
    let name = printable(shown);
    let handler = GraphicalReportHandler::new_themed(theme())
        .with_width(measure())
        .with_break_words(false)
        .with_word_separator(WordSeparator::AsciiSpace)
        .with_word_splitter(WordSplitter::NoHyphenation)
        .with_context_lines(AROUND)
        .with_links(false);
    for finding in findings {
        let source = Excerpt { shown: &name, text: &source.text, lines: &lines, place: finding.place };
        let drawn = Drawn { finding, source, more: more(shown, analysis, finding) };
        let mut one = String::new();
        // Writing to a string doesn't fail.
        let _ = handler.render_report(&mut one, &drawn);
        out += &parted(&in_one_frame(&one));
        out.push('\n');
    }
    out
}

/// Findings on a line of their own: `file:line:column: level rule: message`.
pub fn lines(shown: &str, analysis: &Analysis, findings: &[&Finding]) -> String {
    let mut out = String::new();
    let Some(source) = analysis.sources.first() else { return out };
    let (shown, index) = (printable(shown), LineIndex::new(&source.text));
    for finding in findings {
        let (line, column) = index.line_and_column(finding.place.span.start as usize, &source.text);
        out.push_str(&format!(
            "{shown}:{line}:{column}: {} {}: {}\n",
            finding.level.word(),
            finding.rule,
            finding.message
        ));
    }
    out
}

/// A finding for a program: lines and columns from 1, columns in characters, and byte offsets.
#[derive(Serialize, JsonSchema)]
pub struct Object {
    file: String,
    rule: &'static str,
    level: Level,
    at: Position,
    message: String,
    why: String,
    help: String,
    labels: Vec<ObjectLabel>,
    fixes: Vec<ObjectFix>,
    /// What else comes of the same cause.
    also: Vec<Also>,
}

#[derive(Serialize, JsonSchema)]
struct ObjectLabel {
    at: Position,
    text: String,
}

#[derive(Serialize, JsonSchema)]
struct ObjectFix {
    title: String,
    edits: Vec<ObjectEdit>,
}

#[derive(Serialize, JsonSchema)]
struct ObjectEdit {
    at: Position,
    text: String,
}

/// A stretch of a file for a program.
#[derive(Serialize, JsonSchema)]
pub struct Position {
    file: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    start_byte: u32,
    end_byte: u32,
}

/// The places of an analysis, as a program is told them.
pub struct Places<'a> {
    shown: &'a str,
    analysis: &'a Analysis,
    indexed: Vec<(&'a str, LineIndex)>,
}

impl<'a> Places<'a> {
    pub fn of(shown: &'a str, analysis: &'a Analysis) -> Places<'a> {
        let indexed = analysis.sources.iter().map(|source| (&*source.text, LineIndex::new(&source.text))).collect();
        Places { shown, analysis, indexed }
    }

    pub fn position(&self, place: Place) -> Position {
        let no_text = ("", LineIndex::new(""));
        let (text, index) = self.indexed.get(place.file.0 as usize).unwrap_or(&no_text);
        let (line, column) = index.line_and_column(place.span.start as usize, text);
        let (end_line, end_column) = index.line_and_column(place.span.end as usize, text);
        let (start_byte, end_byte) = (place.span.start, place.span.end);
        let file = source_name(self.shown, self.analysis, place);
        Position { file, line, column, end_line, end_column, start_byte, end_byte }
    }
}

/// Findings as objects.
pub fn objects(shown: &str, snapshot: &Snapshot, analysis: &Analysis, findings: &[&Finding]) -> Vec<Object> {
    if findings.is_empty() {
        return Vec::new();
    }
    let places = Places::of(shown, analysis);
    let position = |place: Place| places.position(place);
    let object = |f: &&Finding| Object {
        file: shown.to_string(),
        rule: f.rule,
        level: f.level,
        at: position(f.place),
        message: f.message.clone(),
        why: f.why.clone(),
        help: f.help.clone(),
        labels: f.labels.iter().map(|l| ObjectLabel { at: position(l.place), text: l.text.clone() }).collect(),
        fixes: offered(snapshot, analysis, f)
            .into_iter()
            .map(|fix| ObjectFix {
                title: fix.title.clone(),
                edits: fix.edits.iter().map(|e| ObjectEdit { at: position(e.place), text: e.text.clone() }).collect(),
            })
            .collect(),
        also: f.also.clone(),
    };
    findings.iter().map(object).collect()
}

fn source_name(shown: &str, analysis: &Analysis, place: Place) -> String {
    if place.file.0 == 0 {
        return shown.to_string();
    }
    analysis.sources.get(place.file.0 as usize).map_or(String::new(), |s| s.path.display().to_string())
}

fn theme() -> GraphicalTheme {
    if colours(std::io::stdout().is_terminal(), |name| std::env::var_os(name)) {
        GraphicalTheme::unicode()
    } else {
        GraphicalTheme::unicode_nocolor()
    }
}

/// Whether colours are welcome: on a terminal that knows them, unless its user wants none (no-color.org).
fn colours(is_terminal: bool, variable: impl Fn(&str) -> Option<OsString>) -> bool {
    let unwanted = variable("NO_COLOR").is_some_and(|value| !value.is_empty());
    let unknown = variable("TERM").is_some_and(|value| value == "dumb");
    is_terminal && !unwanted && !unknown
}

/// A finding as the drawing library wants it.
struct Drawn<'a> {
    finding: &'a Finding,
    source: Excerpt<'a>,
    more: String,
}

impl fmt::Debug for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.finding.rule)
    }
}

impl fmt::Display for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&joined(&self.finding.message))
    }
}

impl std::error::Error for Drawn<'_> {}

impl miette::Diagnostic for Drawn<'_> {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(format!("{} {}", self.finding.level.word(), self.finding.rule)))
    }

    fn severity(&self) -> Option<Severity> {
        Some(match self.finding.level {
            Level::Error => Severity::Error,
            Level::Warning => Severity::Warning,
            Level::Note => Severity::Advice,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let f = self.finding;
        let help = if f.help.is_empty() { String::new() } else { format!("{}\n", f.help) };
        let also: String =
            f.also.iter().map(|also| format!("it also means: {} ({})\n", also.message, also.rule)).collect();
        let said = joined(&format!("{help}{also}why: {}\n", f.why));
        Some(Box::new(format!("{said}more: {}", whole(&self.more))))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        // Labels in other files are told in words, since a drawing shows one file.
        let here = |l: &&finwright_checks::Label| l.place == self.finding.place;
        let text = self.finding.labels.iter().find(here).map(|l| l.text.clone());
        let main = LabeledSpan::new_primary_with_span(text, self.finding.place.span.range());
        let others = self
            .finding
            .labels
            .iter()
            .filter(|l| l.place.file == self.finding.place.file && l.place.span != self.finding.place.span)
            .map(|l| LabeledSpan::new_with_span(Some(l.text.clone()), l.place.span.range()));
        Some(Box::new(std::iter::once(main).chain(others)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_only_where_they_are_known_and_wanted() {
        let told = |variables: &'static [(&str, &str)]| {
            colours(true, |name| variables.iter().find(|(known, _)| *known == name).map(|(_, value)| value.into()))
        };
        assert!(told(&[]) && told(&[("TERM", "xterm-256color"), ("NO_COLOR", "")]));
        assert!(!told(&[("NO_COLOR", "1")]) && !told(&[("NO_COLOR", "0"), ("TERM", "xterm")]));
        assert!(!told(&[("TERM", "dumb")]));
        assert!(!colours(false, |_| None), "a pipe isn't a terminal");
    }
}
