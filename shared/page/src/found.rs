//! What was found, as articles that lead to their places.

use crate::words::line_of;
use finwright_checks::{Analysis, Finding, Level};
use finwright_draw::svg::escaped;

/// The findings about a flight, or about the rocket whatever flies it.
pub fn findings(html: &mut String, analysis: &Analysis, number: usize, file: &str) {
    *html += "<section aria-labelledby=\"found\"><h2 id=\"found\">What was found</h2>\n";
    let about = |finding: &&Finding| finding.flight.is_none_or(|flight| flight == number);
    let mut found: Vec<&Finding> = analysis.findings.iter().filter(about).collect();
    found.sort_by_key(|finding| finding.level);
    if found.is_empty() {
        *html += "<p>Nothing: it meets the checks that were made.</p>\n";
    }
    for finding in found {
        article(html, analysis, finding, file);
    }
    for allowed in &analysis.allowed {
        *html += &format!(
            "<p>Its author allows <code>{}</code> ({}): {}.</p>\n",
            escaped(allowed.finding.rule),
            escaped(&allowed.reason),
            escaped(allowed.finding.message.trim_end_matches('.'))
        );
    }
    *html += "</section>\n";
}

fn article(html: &mut String, analysis: &Analysis, finding: &Finding, file: &str) {
    let (class, kind) = match finding.level {
        Level::Error => (" fails", "Not as it is"),
        Level::Warning => ("", "Look at it"),
        Level::Note => (" note", "Good to know"),
    };
    let message = escaped(finding.message.trim_end_matches('.'));
    *html +=
        &format!("<article class=\"finding{class}\"><h3><span class=\"kind\">{kind}:</span> {message}.</h3>\n<dl>\n");
    *html += &format!("<dt>why</dt><dd>{}</dd>\n", escaped(&finding.why));
    if !finding.help.is_empty() {
        *html += &format!("<dt>to pass</dt><dd>{}.</dd>\n", escaped(finding.help.trim_end_matches('.')));
    }
    let line = line_of(analysis, finding.place);
    let span = finding.place.span;
    *html += &format!(
        "<dt>more</dt><dd><code>{}</code>, <button type=\"button\" data-from=\"{}\" data-to=\"{}\">\
         {} line {line}</button></dd>\n</dl></article>\n",
        escaped(finding.rule),
        span.start,
        span.end,
        escaped(file)
    );
}
