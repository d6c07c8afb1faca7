//! Findings as text: drawn with their lines, or one a line.

use crate::layout::{joined, measure, parted, whole};
use crate::more::more;
use crate::output::{harmless, is_coloured, printable};
use crate::snippet::{in_one_frame, Excerpt, AROUND};
use finwright_checks::{Analysis, Finding, Level};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, Severity, SourceCode};
use std::fmt;
use std::sync::Arc;
use textwrap::{WordSeparator, WordSplitter};

/// Findings drawn with the lines that they are about, one by one.
pub fn graphical(shown: &str, analysis: &Analysis, findings: &[&Finding]) -> Vec<String> {
    let Some(tree) = analysis.tree().filter(|_| !findings.is_empty()) else { return Vec::new() };
    let (name, text) = (printable(shown), drawable(&tree.text));
    let handler = GraphicalReportHandler::new_themed(theme())
        .with_width(measure())
        .with_break_words(false)
        .with_word_separator(WordSeparator::AsciiSpace)
        .with_word_splitter(WordSplitter::NoHyphenation)
        .with_context_lines(AROUND)
        .with_links(false);
    let draw = |finding: &&Finding| {
        let source = Excerpt { shown: &name, text: &text, lines: &tree.lines, place: finding.place };
        let drawn = Drawn { finding, source, more: more(shown, analysis, finding) };
        let mut one = String::new();
        // Writing to a string doesn't fail.
        let _ = handler.render_report(&mut one, &drawn);
        parted(&in_one_frame(&one)) + "\n"
    };
    findings.iter().map(draw).collect()
}

/// A text as it's drawn: what would move the cursor has a mark in its place, as long in bytes, so that all places stay.
fn drawable(text: &Arc<str>) -> Arc<str> {
    let harms = |c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t');
    if !text.contains(harms) {
        return text.clone();
    }
    let mark = |c: char| match (harms(c), c.len_utf8()) {
        (false, _) => c,
        (true, 1) => '?',
        (true, _) => '·',
    };
    text.chars().map(mark).collect::<String>().into()
}

/// Findings on a line each: `file:line:column: level rule: message`.
pub fn lines(shown: &str, analysis: &Analysis, findings: &[&Finding]) -> Vec<String> {
    let Some(tree) = analysis.tree().filter(|_| !findings.is_empty()) else { return Vec::new() };
    let shown = printable(shown);
    let line = |f: &&Finding| {
        let (line, column) = tree.lines.line_and_column(f.place.span.start as usize, &tree.text);
        format!("{shown}:{line}:{column}: {} {}: {}\n", f.level.word(), f.rule, printable(&f.message))
    };
    findings.iter().map(line).collect()
}

fn theme() -> GraphicalTheme {
    if is_coloured() {
        GraphicalTheme::unicode()
    } else {
        GraphicalTheme::unicode_nocolor()
    }
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
        f.write_str(&joined(&harmless(&self.finding.message)))
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
        let said = joined(&harmless(&format!("{help}{also}why: {}\n", f.why)));
        Some(Box::new(format!("{said}more: {}", whole(&self.more))))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        // Labels in other files are told in words, since a drawing shows one file.
        let here = |l: &&finwright_checks::Label| l.place == self.finding.place;
        let text = self.finding.labels.iter().find(here).map(|l| harmless(&l.text).into_owned());
        let main = LabeledSpan::new_primary_with_span(text, self.finding.place.span.range());
        let others = self
            .finding
            .labels
            .iter()
            .filter(|l| l.place.file == self.finding.place.file && l.place.span != self.finding.place.span)
            .map(|l| LabeledSpan::new_with_span(Some(harmless(&l.text).into_owned()), l.place.span.range()));
        Some(Box::new(std::iter::once(main).chain(others)))
    }
}
