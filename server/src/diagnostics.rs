//! Findings as an editor shows them.

use crate::pages::page;
use crate::typing::is_unfinished;
use crate::view::View;
use finwright_checks::rules::file::settings_broken::NOT_UNDERSTOOD;
use finwright_checks::rules::file::unused::UNUSED;
use finwright_checks::rules::words::EMPTY_FILE;
use finwright_checks::settings::Trouble;
use finwright_checks::{Allowed, Finding, Level};
use finwright_grammar::LineIndex;
use lsp_types::*;

/// More than that in one file helps nobody, and some editors get slow.
pub const SHOWN: usize = 128;

/// All diagnostics of a document.
pub fn diagnostics(view: &View) -> Vec<Diagnostic> {
    if let Err(reason) = &view.analysis {
        return vec![general(DiagnosticSeverity::WARNING, reason.clone())];
    }
    let mut findings: Vec<_> = view.findings().iter().collect();
    let rest = findings.len().saturating_sub(SHOWN);
    if rest > 0 {
        // What gets left out is what matters least.
        findings.sort_by_key(|finding| finding.level);
        findings.truncate(SHOWN);
    }
    let mut all: Vec<_> = findings.into_iter().map(|finding| diagnostic(view, finding)).collect();
    all.extend(allowed(view).take(SHOWN));
    if rest > 0 {
        all.push(general(DiagnosticSeverity::INFORMATION, format!("and {rest} more")));
    }
    all
}

/// What the author allows is seen too: faint, with the reason.
fn allowed(view: &View) -> impl Iterator<Item = Diagnostic> + '_ {
    let one = |allowed: &Allowed| Diagnostic {
        severity: Some(DiagnosticSeverity::HINT),
        message: format!("allowed here ({}): {}", allowed.reason, allowed.finding.message),
        tags: view.terms.greyed.then(|| vec![DiagnosticTag::UNNECESSARY]),
        ..diagnostic(view, &allowed.finding)
    };
    view.analysis.iter().flat_map(|analysis| &analysis.allowed).map(one)
}

/// One finding.
pub fn diagnostic(view: &View, finding: &Finding) -> Diagnostic {
    let severity = match finding.level {
        // Whoever opens a new file knows that nothing is in it.
        _ if finding.rule == EMPTY_FILE.name => DiagnosticSeverity::HINT,
        _ if is_unfinished(view, finding) => DiagnosticSeverity::HINT,
        Level::Error => DiagnosticSeverity::ERROR,
        Level::Warning => DiagnosticSeverity::WARNING,
        Level::Note => DiagnosticSeverity::INFORMATION,
    };
    Diagnostic {
        range: view.range(view.shown_at(finding)),
        severity: Some(severity),
        code: Some(NumberOrString::String(finding.rule.into())),
        code_description: page(finding.rule).filter(|_| view.terms.explained).map(|href| CodeDescription { href }),
        source: Some(SOURCE.into()),
        message: message(finding),
        related_information: related(view, finding),
        // What nothing uses is greyed, where the client can.
        tags: (view.terms.greyed && finding.rule == UNUSED.name).then(|| vec![DiagnosticTag::UNNECESSARY]),
        ..Diagnostic::default()
    }
}

/// What can't be understood in a `finwright.toml`, each on its line.
pub fn troubles(view: &View, text: &str, troubles: &[Trouble]) -> Vec<Diagnostic> {
    let lines = LineIndex::new(text);
    let one = |trouble: &Trouble| Diagnostic {
        range: view.range(lines.content(trouble.line.saturating_sub(1), text)),
        code: Some(NumberOrString::String(NOT_UNDERSTOOD.name.into())),
        ..general(DiagnosticSeverity::ERROR, format!("{}\nhelp: {}", trouble.message, trouble.help))
    };
    troubles.iter().take(SHOWN).map(one).collect()
}

const SOURCE: &str = "finwright";

/// What is wrong comes first: many editors show the first line alone.
fn message(finding: &Finding) -> String {
    let mut message = finding.message.clone();
    for (word, text) in [("why", &finding.why), ("help", &finding.help)] {
        if !text.is_empty() {
            message += &format!("\n{word}: {text}");
        }
    }
    for also in &finding.also {
        message += &format!("\nit also means: {} ({})", also.message, also.rule);
    }
    message
}

/// The labels, and the true place of a finding that is shown elsewhere.
fn related(view: &View, finding: &Finding) -> Option<Vec<DiagnosticRelatedInformation>> {
    if !view.terms.related {
        return None;
    }
    let itself = (finding.place.file.0 != 0).then_some((finding.place, "it stands here"));
    let labels = finding.labels.iter().map(|label| (label.place, label.text.as_str()));
    let all: Vec<_> = itself
        .into_iter()
        .chain(labels)
        .filter_map(|(place, text)| {
            Some(DiagnosticRelatedInformation { location: view.location(place)?, message: text.into() })
        })
        .collect();
    (!all.is_empty()).then_some(all)
}

fn general(severity: DiagnosticSeverity, message: String) -> Diagnostic {
    Diagnostic { severity: Some(severity), source: Some(SOURCE.into()), message, ..Diagnostic::default() }
}
