//! Findings as text: drawn with their lines, one a line, or as objects.

use crate::more::more;
use finwright_checks::{offered, Analysis, Finding, Level, Snapshot};
use finwright_grammar::{LineIndex, Place};
use miette::{
    GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, NamedSource, Severity, SourceCode, SourceSpan,
    SpanContents,
};
use serde::Serialize;
use std::fmt;
use std::io::IsTerminal;

/// Every finding drawn with the lines that it's about.
pub fn graphical(shown: &str, analysis: &Analysis) -> String {
    let mut out = String::new();
    let Some(source) = analysis.sources.first().filter(|_| !analysis.findings.is_empty()) else { return out };
    let named = WholeLines {
        text: source.text.clone(),
        lines: LineIndex::new(&source.text),
        named: NamedSource::new(shown, source.text.clone()),
    };
    let handler = GraphicalReportHandler::new_themed(theme()).with_width(100).with_context_lines(1).with_links(false);
    for finding in &analysis.findings {
        let drawn = Drawn { finding, source: &named, more: more(shown, analysis, finding) };
        // Writing to a string doesn't fail.
        let _ = handler.render_report(&mut out, &drawn);
        out.push('\n');
    }
    out
}

/// Every finding on a line of its own: `file:line:column: level rule: message`.
pub fn lines(shown: &str, analysis: &Analysis) -> String {
    let mut out = String::new();
    let Some(source) = analysis.sources.first() else { return out };
    let index = LineIndex::new(&source.text);
    for finding in &analysis.findings {
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
#[derive(Serialize)]
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
}

#[derive(Serialize)]
struct ObjectLabel {
    at: Position,
    text: String,
}

#[derive(Serialize)]
struct ObjectFix {
    title: String,
    edits: Vec<ObjectEdit>,
}

#[derive(Serialize)]
struct ObjectEdit {
    at: Position,
    text: String,
}

#[derive(Serialize)]
struct Position {
    file: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    start_byte: u32,
    end_byte: u32,
}

/// Every finding as an object.
pub fn objects(shown: &str, snapshot: &Snapshot, analysis: &Analysis) -> Vec<Object> {
    if analysis.findings.is_empty() {
        return Vec::new();
    }
    let indexed: Vec<(&str, LineIndex)> =
        analysis.sources.iter().map(|source| (&*source.text, LineIndex::new(&source.text))).collect();
    let no_text = ("", LineIndex::new(""));
    let position = |place: Place| {
        let (text, index) = indexed.get(place.file.0 as usize).unwrap_or(&no_text);
        let (line, column) = index.line_and_column(place.span.start as usize, text);
        let (end_line, end_column) = index.line_and_column(place.span.end as usize, text);
        let (start_byte, end_byte) = (place.span.start, place.span.end);
        Position { file: source_name(shown, analysis, place), line, column, end_line, end_column, start_byte, end_byte }
    };
    let object = |f: &Finding| Object {
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
    };
    analysis.findings.iter().map(object).collect()
}

fn source_name(shown: &str, analysis: &Analysis, place: Place) -> String {
    if place.file.0 == 0 {
        return shown.to_string();
    }
    analysis.sources.get(place.file.0 as usize).map_or(String::new(), |s| s.path.display().to_string())
}

fn theme() -> GraphicalTheme {
    let plain = std::env::var_os("NO_COLOR").is_some() || !std::io::stdout().is_terminal();
    if plain {
        GraphicalTheme::unicode_nocolor()
    } else {
        GraphicalTheme::unicode()
    }
}

/// A finding as the drawing library wants it.
struct Drawn<'a> {
    finding: &'a Finding,
    source: &'a WholeLines,
    more: String,
}

/// A text of which the marked lines are shown whole and their neighbours not at all. The library asks with neighbours for
/// what it draws, and without for the place in the title.
struct WholeLines {
    text: std::sync::Arc<str>,
    lines: LineIndex,
    named: NamedSource<std::sync::Arc<str>>,
}

impl SourceCode for WholeLines {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        if before + after == 0 {
            return self.named.read_span(span, 0, 0);
        }
        let first = self.lines.content(self.lines.line_of(span.offset()), &self.text);
        let last = self.lines.content(self.lines.line_of(span.offset() + span.len()), &self.text);
        self.named.read_span(&SourceSpan::from(first.to(last).range()), 0, 0)
    }
}

impl fmt::Debug for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.finding.rule)
    }
}

impl fmt::Display for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.finding.message)
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
        Some(Box::new(format!("{help}why: {}\nmore: {}", f.why, self.more)))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        // Labels in other files are told in words, since a drawing shows one file.
        let main = LabeledSpan::new_primary_with_span(None, self.finding.place.span.range());
        let others = self
            .finding
            .labels
            .iter()
            .filter(|l| l.place.file == self.finding.place.file && l.place.span != self.finding.place.span)
            .map(|l| LabeledSpan::new_with_span(Some(l.text.clone()), l.place.span.range()));
        Some(Box::new(std::iter::once(main).chain(others)))
    }
}
