//! A `finwright.toml` in an editor: what may be written in it, and what it means.

use crate::view::View;
use crate::words::{documentation, markup};
use finwright_checks::rules::{rule, thresholds};
use finwright_checks::threshold::PROFILES;
use finwright_checks::RULES;
use lsp_types::*;

/// One thing that may be written.
struct Entry {
    label: String,
    text: String,
    doc: String,
}

fn entry(label: &str, text: String, doc: impl Into<String>) -> Entry {
    Entry { label: label.to_string(), text, doc: doc.into() }
}

/// The keys at the top.
const KEYS: [(&str, &str); 6] = [
    ("profile", "Whose margins the thresholds keep."),
    ("code", "The code of rules whose limits are checked."),
    ("allowances", "Which findings a remark in a design may allow."),
    ("units", "Whose units come first in what is said."),
    ("[levels]", "How much a rule's findings matter: \"error\", \"warning\", \"note\" or \"off\"."),
    ("[thresholds]", "The numbers that rules compare with."),
];

/// Where a position stands: the table, the line as far as the cursor, and the whole word's start.
struct At<'t> {
    table: &'t str,
    line: &'t str,
}

fn at(text: &str, offset: usize) -> Option<At<'_>> {
    let before = text.get(..offset)?;
    let table = before.lines().rev().find_map(|line| line.trim().strip_prefix('[')?.strip_suffix(']'));
    let line = before.rsplit(['\n', '\r']).next().unwrap_or_default();
    Some(At { table: table.unwrap_or_default(), line })
}

/// What may be written at the position.
pub fn completion(view: &View, text: &str, position: Position) -> Option<CompletionResponse> {
    let offset = view.offset(position);
    let at = at(text, offset)?;
    let (key, value) = match at.line.split_once('=') {
        Some((key, value)) => (key.trim().trim_matches('"'), Some(value)),
        None => ("", None),
    };
    let entries = match value {
        None if at.table == "levels" => rules(),
        None if at.table == "thresholds" => named_thresholds(),
        None => KEYS
            .map(|(key, doc)| entry(key, if key.starts_with('[') { key.into() } else { format!("{key} = ") }, doc))
            .into(),
        Some(_) => values(at.table, key),
    };
    let typed = at.line.rsplit(['=', ' ']).next().unwrap_or_default();
    let typed = if value.is_none() { at.line.trim_start() } else { typed };
    let start = offset - typed.len();
    let end = offset + text.get(offset..)?.chars().take_while(|c| *c == '"').count().min(1);
    let range = view.range(finwright_grammar::Span::new(start, end));
    let items = entries.into_iter().enumerate().map(|(rank, entry)| CompletionItem {
        filter_text: Some(entry.text.clone()),
        label: entry.label,
        kind: Some(if value.is_some() { CompletionItemKind::ENUM_MEMBER } else { CompletionItemKind::PROPERTY }),
        documentation: Some(documentation(view.terms.markdown_offers, entry.doc)),
        sort_text: Some(format!("{rank:04}")),
        text_edit: Some(CompletionTextEdit::Edit(TextEdit { range, new_text: entry.text })),
        ..CompletionItem::default()
    });
    Some(CompletionResponse::Array(items.collect()))
}

fn rules() -> Vec<Entry> {
    let set = RULES.iter().filter(|rule| rule.may_be_set());
    set.map(|rule| entry(rule.name, format!("\"{}\" = ", rule.name), format!("{}\n\n{}", rule.summary, rule.why)))
        .collect()
}

fn named_thresholds() -> Vec<Entry> {
    thresholds().into_iter().map(|one| entry(one.name, format!("{} = ", one.name), one.sentence())).collect()
}

fn values(table: &str, key: &str) -> Vec<Entry> {
    let quoted = |names: Vec<&str>| names.into_iter().map(|name| entry(name, format!("\"{name}\""), "")).collect();
    match (table, key) {
        ("levels", _) => quoted(vec!["error", "warning", "note", "off"]),
        ("", "profile") => quoted(PROFILES.iter().map(|(name, _)| *name).collect()),
        ("", "code") => quoted(finwright_assess::field_rules::JURISDICTIONS.iter().map(|(name, ..)| *name).collect()),
        ("", "allowances") => quoted(finwright_checks::settings::ALLOWING.iter().map(|(name, _)| *name).collect()),
        ("", "units") => quoted(finwright_units::reader::UNITS.iter().map(|(name, ..)| *name).collect()),
        _ => Vec::new(),
    }
}

/// What the key in the position's line means.
pub fn hover(view: &View, text: &str, position: Position) -> Option<Hover> {
    let offset = view.offset(position);
    let start = text.get(..offset)?.rfind(['\n', '\r']).map_or(0, |at| at + 1);
    let line = text.get(start..)?.lines().next()?;
    let key = line.split('=').next()?.trim().trim_matches('"');
    let words = if let Some(rule) = rule(key) {
        format!("**{}** · {}\n\n{}", rule.name, rule.summary, rule.why)
    } else if let Some(threshold) = thresholds().into_iter().find(|one| one.name == key) {
        format!("**{}**: {}", threshold.name, threshold.sentence())
    } else {
        let (key, doc) = KEYS.into_iter().find(|(name, _)| *name == key)?;
        format!("**{key}** {doc}")
    };
    let range = view.range(finwright_grammar::Span::new(start, start + line.len()));
    Some(Hover { contents: HoverContents::Markup(markup(view.terms.markdown, words)), range: Some(range) })
}
