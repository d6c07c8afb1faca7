//! SARIF 2.1.0, the OASIS standard for results of static analysis.

use super::rows::list;
use super::told::{all, Told};
use crate::check::results::Results;
use crate::object::{ObjectFix, ObjectLabel, Position};
use finwright_checks::{rule, Level};
use percent_encoding::{utf8_percent_encode, AsciiSet, NON_ALPHANUMERIC};
use serde_json::{json, Value};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

pub fn sarif(results: &Results) -> String {
    let found = all(results);
    let names: BTreeSet<&str> = found.iter().map(|told| told.rule).collect();
    let numbers: BTreeMap<&str, usize> = names.iter().enumerate().map(|(number, name)| (*name, number)).collect();
    let rules: Vec<Value> = names.iter().map(|name| described(name)).collect();
    let notices: Vec<Value> = results.unusable().map(|(path, reason)| notice(path, reason)).collect();
    let driver = json!({ "name": "finwright", "semanticVersion": env!("CARGO_PKG_VERSION"), "rules": rules });
    let invocations = json!([{
        "executionSuccessful": notices.is_empty(),
        "toolExecutionNotifications": notices,
    }]);
    let told = list(found.iter().map(|told| result(told, numbers.get(told.rule))));
    format!(
        "{{\"$schema\":\"{SCHEMA}\",\"version\":\"2.1.0\",\"runs\":[{{\n\"tool\":{{\"driver\":{driver}}},\n\
         \"columnKind\":\"unicodeCodePoints\",\n\"invocations\":{invocations},\n\"results\":{told}\n}}]}}\n"
    )
}

/// A rule as its own file describes it.
fn described(name: &str) -> Value {
    let Some(rule) = rule(name) else { return json!({ "id": name }) };
    json!({
        "id": name,
        "shortDescription": { "text": rule.summary },
        "fullDescription": { "text": rule.why },
        "help": { "text": rule.prose, "markdown": rule.prose },
        "defaultConfiguration": { "level": rule.level.word() },
    })
}

fn result(told: &Told, number: Option<&usize>) -> Value {
    let region = told.at.map_or_else(|| json!({ "startLine": told.line }), region);
    let mut one = json!({
        "ruleId": told.rule,
        "level": level(told.level),
        "message": { "text": told.in_full() },
        "locations": [{ "physicalLocation": { "artifactLocation": artifact(told.file), "region": region } }],
        "partialFingerprints": { "finwright/v1": told.fingerprint },
    });
    if let Some(number) = number {
        one["ruleIndex"] = json!(number);
    }
    if !told.labels.is_empty() {
        one["relatedLocations"] = told.labels.iter().enumerate().map(|(id, label)| related(id, label)).collect();
    }
    if !told.fixes.is_empty() {
        one["fixes"] = told.fixes.iter().map(fix).collect();
    }
    one
}

fn level(level: Level) -> &'static str {
    level.word()
}

fn related(id: usize, label: &ObjectLabel) -> Value {
    json!({
        "id": id,
        "message": { "text": label.text },
        "physicalLocation": { "artifactLocation": artifact(&label.at.file), "region": region(&label.at) },
    })
}

fn fix(fix: &ObjectFix) -> Value {
    let mut by_file: BTreeMap<&str, Vec<Value>> = BTreeMap::new();
    for edit in &fix.edits {
        let replaced = json!({ "deletedRegion": region(&edit.at), "insertedContent": { "text": edit.text } });
        by_file.entry(&edit.at.file).or_default().push(replaced);
    }
    let change = |(file, new): (&str, Vec<Value>)| json!({ "artifactLocation": artifact(file), "replacements": new });
    let changes: Vec<Value> = by_file.into_iter().map(change).collect();
    json!({ "description": { "text": fix.title }, "artifactChanges": changes })
}

fn notice(path: &str, reason: &str) -> Value {
    json!({
        "level": "error",
        "message": { "text": format!("{path}: {reason}") },
        "locations": [{ "physicalLocation": { "artifactLocation": artifact(path) } }],
    })
}

/// A stretch of text: lines and columns alone, since a byte offset may stand only beside a length in bytes.
fn region(at: &Position) -> Value {
    json!({
        "startLine": at.line,
        "startColumn": at.column,
        "endLine": at.end_line,
        "endColumn": at.end_column,
    })
}

/// What may stand in a path of an address as it is (RFC 3986, section 3.3); `:` might be taken for a scheme's end.
const IN_PATH: AsciiSet = NON_ALPHANUMERIC.remove(b'/').remove(b'-').remove(b'.').remove(b'_').remove(b'~');

fn artifact(file: &str) -> Value {
    let path = if cfg!(windows) { file.replace('\\', "/") } else { file.to_string() };
    let encoded = utf8_percent_encode(&path, &IN_PATH).to_string();
    match Path::new(file).is_absolute() {
        true => json!({ "uri": format!("file://{encoded}") }),
        false => json!({ "uri": encoded }),
    }
}
