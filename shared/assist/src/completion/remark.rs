//! In a remark: `# allow RULE: reason`.

use super::document::About;
use super::offer::{CompletionKind, Offer};
use super::Found;
use crate::cursor::Cursor;
use finwright_checks::{Analysis, RULES};

/// The rules that a remark may allow, those that find something here first; behind a rule, where it's allowed.
pub(super) fn offers(analysis: &Analysis, cursor: &Cursor, start: usize) -> Found {
    let typed = cursor.text.get(start..cursor.offset).unwrap_or_default();
    let said = typed.trim_start_matches('#').trim_start();
    let Some(rest) = said.strip_prefix("allow ") else { return Found::default() };
    let rest = rest.trim_start();
    let from = cursor.offset - rest.len();
    let Some((name, scope)) = rest.split_once(' ') else {
        return if rest.contains(':') { Found::default() } else { names(analysis, cursor, from) };
    };
    if name.ends_with(':') || scope.contains(':') {
        return Found::default();
    }
    let scopes = [("here", "on this line alone"), ("in this file", "everywhere in this file")];
    let offers = scopes.map(|(words, doc)| Offer { text: format!("{words}: "), ..Offer::word(words, doc) });
    Found { offers: offers.into(), due: false, from: Some(cursor.offset - scope.len()) }
}

fn names(analysis: &Analysis, cursor: &Cursor, from: usize) -> Found {
    let mut found: Vec<(usize, &str)> = Vec::new();
    for finding in &analysis.findings {
        let start = finding.place.span.range().start;
        if !found.iter().any(|(_, rule)| *rule == finding.rule) {
            found.push((start.abs_diff(cursor.offset), finding.rule));
        }
    }
    found.sort_unstable();
    let here = found.iter().map(|(_, rule)| *rule);
    let others = RULES.iter().map(|rule| rule.name).filter(|name| !found.iter().any(|(_, told)| told == name));
    let known = here.chain(others).filter_map(finwright_checks::rule).filter(|rule| rule.may_be_allowed());
    let offers = known.map(|rule| {
        Offer::new(CompletionKind::Rule, rule.name, format!("{}: ", rule.name))
            .detail(rule.summary)
            .about(About::Rule(rule.name.to_string()))
    });
    Found { offers: offers.collect(), due: true, from: Some(from) }
}
