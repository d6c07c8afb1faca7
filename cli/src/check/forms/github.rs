//! Annotations of a GitHub workflow, as its own toolkit writes them.

use super::told::{all, Told};
use crate::check::results::Results;
use crate::output::harmless;
use finwright_checks::Level;

pub fn github(results: &Results) -> String {
    let found = all(results).iter().map(annotation).collect::<String>();
    let unusable = results.unusable().map(|(path, reason)| {
        command("error", &[("title", "finwright: can't be used"), ("file", path)], &format!("{path}: {reason}"))
    });
    found + &unusable.collect::<String>()
}

fn annotation(told: &Told) -> String {
    let name = match told.level {
        Level::Error => "error",
        Level::Warning => "warning",
        Level::Note => "notice",
    };
    let number = |n: usize| n.to_string();
    let (line, end_line) = (number(told.line), number(told.at.map_or(told.line, |at| at.end_line)));
    let mut properties = vec![("title", told.rule), ("file", told.file), ("line", &line), ("endLine", &end_line)];
    let columns = told.at.map(|at| (number(at.column), number(at.end_column)));
    // Columns go with a single line only.
    if let Some((column, end_column)) = columns.as_ref().filter(|_| line == end_line) {
        properties.extend([("col", column.as_str()), ("endColumn", end_column.as_str())]);
    }
    command(name, &properties, &told.in_full())
}

fn command(name: &str, properties: &[(&str, &str)], message: &str) -> String {
    let given: Vec<String> = properties
        .iter()
        .filter(|(_, value)| !value.is_empty())
        .map(|(key, value)| format!("{key}={}", in_property(value)))
        .collect();
    format!("::{name} {}::{}\n", given.join(","), in_message(message))
}

fn in_message(text: &str) -> String {
    harmless(text).replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

fn in_property(text: &str) -> String {
    in_message(text).replace(':', "%3A").replace(',', "%2C")
}
