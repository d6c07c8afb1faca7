//! JUnit's XML: a test case a file, which fails where the file does. It fits the schemas of both the task that first
//! wrote it and the server that most often reads it, which ask for times and a host: these are always the same.

use super::told::all;
use crate::check::line::FileResult;
use crate::check::results::Results;
use finwright_checks::Level;
use std::collections::BTreeMap;
use std::fmt::Write;

pub fn junit(results: &Results) -> String {
    let mut found: BTreeMap<&str, String> = BTreeMap::new();
    for told in all(results) {
        let line = format!("{}:{}: {} {}: {}\n", told.file, told.line, told.level.word(), told.rule, told.message);
        *found.entry(told.file).or_default() += &line;
    }
    let failed = results.usable().filter(|file| file.fails()).count();
    let shared: Vec<&str> = shared_failures(results);
    let (tests, failures) = (results.files.len() + shared.len(), failed + shared.len());
    let errors = results.unusable().count();
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites>\n");
    let _ = writeln!(
        out,
        "  <testsuite id=\"0\" package=\"finwright\" name=\"finwright check\" timestamp=\"1970-01-01T00:00:00\" \
         hostname=\"localhost\" tests=\"{tests}\" failures=\"{failures}\" errors=\"{errors}\" time=\"0\">\n    \
         <properties>\n      <property name=\"version\" value=\"{}\"/>\n    </properties>",
        env!("CARGO_PKG_VERSION")
    );
    for file in &results.files {
        out += &case(file, found.get(file.path()).map_or("", String::as_str));
    }
    for file in shared {
        out += &failing(file, "failure", "shared", "it touches designs", found.get(file).map_or("", String::as_str));
    }
    // What doesn't keep a file from passing is told all the same.
    let fails = |path: &str| results.files.iter().any(|file| file.path() == path && file.fails());
    let rest: String = found.iter().filter(|(path, _)| !fails(path)).map(|(_, lines)| lines.as_str()).collect();
    let _ = writeln!(
        out,
        "    <system-out>{}</system-out>\n    <system-err></system-err>\n  </testsuite>\n</testsuites>",
        escaped(&rest)
    );
    out
}

/// The files with a fault at error level that designs share.
fn shared_failures(results: &Results) -> Vec<&str> {
    let shared = results.shared.iter().filter(|fault| fault.level == Level::Error).map(|fault| fault.file.as_str());
    let mut files: Vec<&str> = shared.collect();
    files.sort_unstable();
    files.dedup();
    files
}

fn case(file: &FileResult, found: &str) -> String {
    if let Some(reason) = &file.unusable {
        return failing(file.path(), "error", "unusable", reason, reason);
    }
    if !file.fails() {
        return format!("    <testcase name=\"{}\" classname=\"finwright\" time=\"0\"/>\n", escaped(file.path()));
    }
    let verdict = file.report.verdict.words();
    let rule = file.report.reason.as_ref().map_or("", |reason| &reason.rule);
    failing(file.path(), "failure", rule, verdict, found)
}

fn failing(name: &str, kind: &str, of: &str, message: &str, text: &str) -> String {
    format!(
        "    <testcase name=\"{}\" classname=\"finwright\" time=\"0\">\n      \
         <{kind} type=\"{}\" message=\"{}\">{}</{kind}>\n    </testcase>\n",
        escaped(name),
        escaped(of),
        escaped(message),
        escaped(text)
    )
}

/// Text for XML 1.0, which has no way to write most control characters.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out += "&amp;",
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '"' => out += "&quot;",
            '\n' | '\t' => out.push(c),
            c if c.is_control() || matches!(c, '\u{FFFE}' | '\u{FFFF}') => out.push('\u{FFFD}'),
            c => out.push(c),
        }
    }
    out
}
