//! A remark that allows a finding, whose reason the author still has to give.

use super::{edit, indent, newline};
use finwright_checks::{rule, Analysis, Finding, Fix};
use finwright_grammar::FileId;

/// The remark above the finding's line. Without a reason it allows nothing yet, and says so.
pub fn allow(analysis: &Analysis, finding: &Finding) -> Option<Fix> {
    let tree = analysis.tree()?;
    let known = rule(finding.rule).filter(|rule| rule.may_be_allowed())?;
    let least = analysis.settings.allowing.least_level()?;
    if finding.level < least || finding.place.file != FileId(0) {
        return None;
    }
    let start = finding.place.span.range().start;
    let line = tree.lines.span(tree.lines.line_of(start));
    let at = line.range().start;
    let text = format!("{}# allow {}: {}", indent(tree, start), known.name, newline(tree));
    Some(Fix {
        title: format!("allow {} here; you give the reason", known.name),
        edits: vec![edit(finwright_grammar::Span::new(at, at), text)],
    })
}
