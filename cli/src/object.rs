//! Findings as objects for programs.

use crate::output::printable;
use finwright_checks::rules::file::not_checked::NOT_CHECKED;
use finwright_checks::{offered, Analysis, Edit, Finding, Level, Snapshot};
use finwright_grammar::{LineIndex, Place};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A finding for a program: lines and columns from 1, columns in characters, and byte offsets.
#[derive(Clone, Serialize, Deserialize, JsonSchema)]
pub struct Object {
    pub file: String,
    pub rule: Cow<'static, str>,
    pub level: Level,
    pub at: Position,
    pub message: String,
    pub why: String,
    pub help: String,
    pub labels: Vec<ObjectLabel>,
    pub fixes: Vec<ObjectFix>,
    /// What else comes of the same cause.
    pub also: Vec<ObjectAlso>,
}

/// What else comes of a finding's cause.
#[derive(Clone, Serialize, Deserialize, JsonSchema)]
pub struct ObjectAlso {
    /// The rule that finds it.
    rule: Cow<'static, str>,
    /// How much it would matter by itself.
    level: Level,
    /// What it says.
    message: String,
}

#[derive(Clone, Serialize, Deserialize, JsonSchema)]
pub struct ObjectLabel {
    pub at: Position,
    pub text: String,
}

#[derive(Clone, Serialize, Deserialize, JsonSchema)]
pub struct ObjectFix {
    pub title: String,
    pub edits: Vec<ObjectEdit>,
}

#[derive(Clone, Serialize, Deserialize, JsonSchema)]
pub struct ObjectEdit {
    pub at: Position,
    pub text: String,
}

/// A stretch of a file for a program.
#[derive(Clone, Serialize, Deserialize, JsonSchema)]
pub struct Position {
    pub file: String,
    pub line: usize,
    pub column: usize,
    pub end_line: usize,
    pub end_column: usize,
    pub start_byte: u32,
    pub end_byte: u32,
    /// The column in bytes of UTF-8, from 1.
    pub column_bytes: usize,
    /// The same of its end.
    pub end_column_bytes: usize,
}

/// The places of an analysis, as a program is told them.
pub struct Places<'a> {
    shown: &'a str,
    analysis: &'a Analysis,
}

impl<'a> Places<'a> {
    pub fn of(shown: &'a str, analysis: &'a Analysis) -> Places<'a> {
        Places { shown, analysis }
    }

    pub fn position(&self, place: Place) -> Position {
        let nothing = LineIndex::new("");
        let tree = self.analysis.design.files.get(place.file.0 as usize).map(|file| &file.tree);
        let (text, index) = tree.map_or(("", &nothing), |tree| (&tree.text, &tree.lines));
        let (line, column) = index.line_and_column(place.span.start as usize, text);
        let (end_line, end_column) = index.line_and_column(place.span.end as usize, text);
        let (start_byte, end_byte) = (place.span.start, place.span.end);
        let file = source_name(self.shown, self.analysis, place);
        let in_line = |line: usize, byte: u32| 1 + byte.saturating_sub(index.span(line - 1).start) as usize;
        let column_bytes = in_line(line, start_byte);
        let end_column_bytes = in_line(end_line, end_byte);
        Position { file, line, column, end_line, end_column, start_byte, end_byte, column_bytes, end_column_bytes }
    }
}

/// Findings as objects, with the edits that would mend each where they are asked for: every one is tried first.
pub fn objects(places: &Places, snapshot: &Snapshot, findings: &[&Finding], with_fixes: bool) -> Vec<Object> {
    let position = |place: Place| places.position(place);
    let edit = |edit: &Edit| ObjectEdit { at: position(edit.place), text: edit.text.clone() };
    let object = |f: &&Finding| Object {
        file: places.shown.to_string(),
        rule: Cow::Borrowed(f.rule),
        level: f.level,
        at: position(f.place),
        message: f.message.clone(),
        why: f.why.clone(),
        help: f.help.clone(),
        labels: f.labels.iter().map(|l| ObjectLabel { at: position(l.place), text: l.text.clone() }).collect(),
        fixes: if with_fixes { offered(snapshot, places.analysis, f) } else { Vec::new() }
            .into_iter()
            .map(|fix| ObjectFix { title: fix.title.clone(), edits: fix.edits.iter().map(edit).collect() })
            .collect(),
        also: f
            .also
            .iter()
            .map(|also| ObjectAlso { rule: Cow::Borrowed(also.rule), level: also.level, message: also.message.clone() })
            .collect(),
    };
    findings.iter().map(object).collect()
}

fn source_name(shown: &str, analysis: &Analysis, place: Place) -> String {
    if place.file.0 == 0 {
        return shown.to_string();
    }
    analysis.sources.get(place.file.0 as usize).map_or(String::new(), |s| s.path.display().to_string())
}

impl Object {
    /// The finding on a line: `file:line:column: level rule: message`.
    pub fn line(&self) -> String {
        let (file, at, level) = (printable(&self.file), &self.at, self.level.word());
        format!("{file}:{}:{}: {level} {}: {}\n", at.line, at.column, self.rule, printable(&self.message))
    }

    /// Whether it keeps a file from passing by itself.
    pub fn is_grave(&self) -> bool {
        self.level == Level::Error || self.rule == NOT_CHECKED.name
    }
}
