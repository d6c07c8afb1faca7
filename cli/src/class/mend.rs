//! What a pupil may mend, in the words that `explain` has for it.

use super::html::{prose, sentence};
use finwright_checks::{rule, Analysis, Finding, Level};
use finwright_draw::svg::escaped;

/// The findings as articles, the gravest first; each rule is explained once.
pub fn mend(analysis: &Analysis) -> String {
    let mut found: Vec<&Finding> = analysis.findings.iter().collect();
    found.sort_by_key(|finding| finding.level);
    let mut explained: Vec<&str> = Vec::new();
    let mut out = String::new();
    for finding in found {
        let is_new = !explained.contains(&finding.rule);
        explained.push(finding.rule);
        article(&mut out, analysis, finding, is_new);
    }
    for allowed in &analysis.allowed {
        out += &format!(
            "<p>You allow <code>{}</code> with the reason \u{201c}{}\u{201d}: {}</p>\n",
            escaped(allowed.finding.rule),
            escaped(&allowed.reason),
            sentence(&allowed.finding.message)
        );
    }
    if out.is_empty() {
        return "<p>Nothing: no check finds anything.</p>\n".to_string();
    }
    out
}

/// What stands before a finding by its level.
pub fn kind(level: Level) -> &'static str {
    match level {
        Level::Error => "Not like this",
        Level::Warning => "Look at it",
        Level::Note => "Good to know",
    }
}

fn article(out: &mut String, analysis: &Analysis, finding: &Finding, is_new: bool) {
    let class = match finding.level {
        Level::Error => " fails",
        Level::Warning => "",
        Level::Note => " note",
    };
    *out += &format!(
        "<article class=\"finding{class}\"><h3><span class=\"kind\">{}:</span> {}</h3>\n<dl>\n",
        kind(finding.level),
        sentence(&finding.message)
    );
    if !finding.help.is_empty() {
        *out += &format!("<dt>to pass</dt><dd>{}</dd>\n", sentence(&finding.help));
    }
    *out += &format!("<dt>why</dt><dd>{}</dd>\n", sentence(&finding.why));
    *out += &format!("<dt>where</dt><dd>line {}</dd>\n</dl>\n", line_of(analysis, finding));
    if let (true, Some(rule)) = (is_new, rule(finding.rule)) {
        let summary = "What is behind it";
        *out += &format!(
            "<details open><summary>{summary} (<code>{}</code>)</summary>\n{}</details>\n",
            rule.name,
            prose(rule.prose)
        );
    }
    *out += "</article>\n";
}

/// The line of a finding, from 1.
pub fn line_of(analysis: &Analysis, finding: &Finding) -> usize {
    let text = analysis.sources.first().map_or("", |source| &source.text);
    let end = (finding.place.span.start as usize).min(text.len());
    text.as_bytes().iter().take(end).filter(|byte| **byte == b'\n').count() + 1
}
