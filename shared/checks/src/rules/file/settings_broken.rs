//! `settings/not-understood`: a `finwright.toml` that says what can't be understood.

use crate::example::Example;
use crate::finding::{Elsewhere, Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_grammar::{FileId, Place, Span};

/// The rule.
pub static NOT_UNDERSTOOD: Rule = Rule {
    name: "settings/not-understood",
    family: Family::Settings,
    concerns: Concern::File,
    wind: None,
    level: Level::Error,
    summary: "a `finwright.toml` that says what can't be understood",
    why: "A level or a threshold that isn't understood isn't used, and the design is checked by other numbers than \
        meant.",
    prose: include_str!("not_understood.md"),
    thresholds: &[],
    example: Example::new("", ""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    // The design has no line of its own for it: its first one stands for the whole.
    let first = cx.design.files.first().and_then(|file| file.tree.items.first()).map_or(Span::default(), |item| {
        let span = item.span();
        Span::new(span.start as usize, span.start as usize + 1)
    });
    for (number, trouble) in cx.settings.problems.iter().enumerate() {
        let place = Place { file: FileId(0), span: first };
        let message = format!("{}, line {}: {}", trouble.file, trouble.line, trouble.message);
        let mut finding = NOT_UNDERSTOOD.finding(place, message).help(trouble.help.clone());
        finding.elsewhere = Some(Elsewhere::Settings(number));
        out.push(finding);
    }
}
