//! The rules' pages, for whoever wants to know more than a finding says.

use crate::kept::kept;
use finwright_checks::{rule, Rule};
use lsp_types::Url;
use std::collections::HashMap;
use std::sync::{LazyLock, Mutex, PoisonError};

/// A rule's page as a file, by its name for the editor; written when it's first asked for.
pub fn page(name: &str) -> Option<Url> {
    static WRITTEN: LazyLock<Mutex<HashMap<String, Option<Url>>>> = LazyLock::new(Mutex::default);
    let mut written = WRITTEN.lock().unwrap_or_else(PoisonError::into_inner);
    let page = || kept(&format!("rules/{}.md", name.replace('/', "-")), &text(rule(name)?));
    written.entry(name.to_string()).or_insert_with(page).clone()
}

/// A rule's page, in Markdown.
pub fn text(rule: &Rule) -> String {
    let parts =
        [format!("# {}", rule.name), rule.summary.to_string(), rule.why.to_string(), rule.prose.trim().to_string()];
    parts.join("\n\n") + "\n"
}
