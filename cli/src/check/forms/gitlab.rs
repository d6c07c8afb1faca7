//! A code quality report for GitLab: a list of what was found, by its documentation.

use super::rows::list;
use super::told::{all, Told};
use crate::check::results::Results;
use finwright_checks::Level;
use serde_json::{json, Value};

pub fn gitlab(results: &Results) -> String {
    let found = all(results);
    let unusable = results.unusable().map(|(path, reason)| {
        json!({
            "description": format!("it can't be used: {reason}"),
            "check_name": "unusable",
            "fingerprint": format!("unusable {path}"),
            "severity": "blocker",
            "location": { "path": path, "lines": { "begin": 1 } },
        })
    });
    list(found.iter().map(issue).chain(unusable)) + "\n"
}

fn issue(told: &Told) -> Value {
    let severity = match told.level {
        Level::Error => "critical",
        Level::Warning => "major",
        Level::Note => "info",
    };
    json!({
        "description": told.message,
        "check_name": told.rule,
        "fingerprint": told.fingerprint,
        "severity": severity,
        "location": {
            "path": told.file,
            "lines": { "begin": told.line, "end": told.at.map_or(told.line, |at| at.end_line) },
        },
    })
}
