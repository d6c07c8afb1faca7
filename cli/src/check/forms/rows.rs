//! JSON whose long list has a line an item: each is written as soon as it's made, since all of them as values would
//! take many times the memory of the text.

use serde_json::Value;

/// A list, a line an item.
pub fn list(items: impl Iterator<Item = Value>) -> String {
    let lines: Vec<String> = items.map(|item| item.to_string()).collect();
    if lines.is_empty() {
        return "[]".to_string();
    }
    format!("[\n{}\n]", lines.join(",\n"))
}
