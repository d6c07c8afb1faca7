//! Reviewdog's diagnostics as one object. Its columns count bytes.

use super::rows::list;
use super::told::{all, Told};
use crate::check::results::Results;
use crate::object::{ObjectEdit, Position};
use finwright_checks::Level;
use serde_json::{json, Value};

pub fn rdjson(results: &Results) -> String {
    let unusable = results.unusable().map(|(path, reason)| {
        json!({
            "message": format!("it can't be used: {reason}"),
            "location": { "path": path },
            "severity": "ERROR",
        })
    });
    let found = all(results);
    let diagnostics = list(found.iter().map(diagnostic).chain(unusable));
    format!("{{\"source\":{{\"name\":\"finwright\"}},\"severity\":\"ERROR\",\"diagnostics\":{diagnostics}}}\n")
}

fn diagnostic(told: &Told) -> Value {
    let severity = match told.level {
        Level::Error => "ERROR",
        Level::Warning => "WARNING",
        Level::Note => "INFO",
    };
    let range = told.at.map_or_else(|| json!({ "start": { "line": told.line } }), range);
    let mut one = json!({
        "message": told.in_full(),
        "location": { "path": told.file, "range": range },
        "severity": severity,
        "code": { "value": told.rule },
    });
    // What is suggested is taken with a click, one after the other: a fix of several edits isn't one of these.
    let suggestions: Vec<Value> = told
        .fixes
        .iter()
        .filter_map(|fix| match fix.edits.as_slice() {
            [edit] if edit.at.file == told.file => Some(suggestion(edit)),
            _ => None,
        })
        .collect();
    if !suggestions.is_empty() {
        one["suggestions"] = Value::from(suggestions);
    }
    one
}

fn suggestion(edit: &ObjectEdit) -> Value {
    json!({ "range": range(&edit.at), "text": edit.text })
}

fn range(at: &Position) -> Value {
    json!({
        "start": { "line": at.line, "column": at.column_bytes },
        "end": { "line": at.end_line, "column": at.end_column_bytes },
    })
}
