//! What is found in a design: by the grammar and the model on the way, and by the rules.

use crate::allowance::{Allowances, Allowed};
use crate::finding::{Also, Edit, Elsewhere, Finding, Fix, Label, Level};
use crate::rule::{Context, Rule};
use crate::rules::consequences::CONSEQUENCES;
use crate::rules::file::missing_field::MISSING_FIELD;
use crate::rules::{rule, words, RULES};
use crate::settings::Settings;
use finwright_grammar::{FileId, Place, Tree};
use finwright_model::Design;

/// What the grammar says of the words.
pub(crate) fn syntax_findings(tree: &Tree) -> Vec<Finding> {
    let here = |span| Place { file: FileId(0), span };
    tree.problems
        .iter()
        .map(|problem| {
            let known = rule(problem.rule).unwrap_or(&words::UNREADABLE_LINE);
            let mut finding = known.finding(here(problem.span), problem.message.clone()).help(problem.help.clone());
            finding
                .labels
                .extend(problem.label.map(|(span, text)| Label { place: here(span), text: text.to_string() }));
            finding.fixes.extend(problem.replacement.as_ref().map(|r| Fix {
                title: r.title.clone(),
                edits: vec![Edit { place: here(r.span), text: r.text.clone() }],
            }));
            finding
        })
        .collect()
}

/// What the model says of them.
pub(crate) fn model_finding(problem: &finwright_model::Problem) -> Finding {
    // A problem that no rule is known for is told all the same.
    let known = rule(problem.rule).unwrap_or(&words::WRONG_FORM);
    let mut finding = known.finding(problem.place, problem.message.clone()).help(problem.help.clone());
    finding.elsewhere = problem.elsewhere.map(Elsewhere::UsedFile);
    finding.labels = problem.labels.iter().map(|(place, text)| Label { place: *place, text: text.clone() }).collect();
    finding.fixes.extend(
        problem
            .replacement
            .as_ref()
            .map(|r| Fix { title: r.title.clone(), edits: vec![Edit { place: r.place, text: r.text.clone() }] }),
    );
    finding
}

/// What the rules of some kind find.
pub(crate) fn run(cx: &Context, wanted: impl Fn(&Rule) -> bool) -> Vec<Finding> {
    RULES.iter().filter(|rule| wanted(rule)).flat_map(|rule| applied(cx, rule)).collect()
}

/// What a rule finds, unless it's switched off.
pub(crate) fn applied(cx: &Context, rule: &Rule) -> Vec<Finding> {
    let mut findings = Vec::new();
    if let Some(check) = rule.check.filter(|_| !cx.settings.is_off(rule.name)) {
        check(cx, &mut findings);
    }
    findings
}

/// The findings at the levels that the settings give them, at home in the file that was asked about, without those that
/// the author allows.
pub(crate) fn sifted(cx: &Context, allowances: &Allowances, found: Vec<Finding>) -> (Vec<Finding>, Vec<Allowed>) {
    let levelled = found.into_iter().filter_map(|finding| levelled(cx.settings, finding));
    allowances.split(levelled.filter_map(|finding| brought_home(cx, finding)).collect())
}

pub(crate) fn levelled(settings: &Settings, mut finding: Finding) -> Option<Finding> {
    if let Some(level) = settings.level(finding.rule) {
        finding.level = level?;
    }
    Some(finding)
}

/// A finding whose cause stands in a used file, told where this file leads there; `None` where it doesn't.
fn brought_home(cx: &Context, mut finding: Finding) -> Option<Finding> {
    if finding.place.file == FileId(0) {
        return Some(finding);
    }
    let there = finding.place;
    let label = finding.labels.iter().position(|label| label.place.file == FileId(0));
    let flight = finding.flight.or_else(|| cx.flights().next().map(|(_, numbers)| numbers.flight));
    let name = || flight.and_then(|flight| cx.design.flights.get(flight)).map(|flight| flight.name.place);
    finding.place = match label {
        Some(at) => finding.labels.remove(at).place,
        None => name().filter(|place| place.file == FileId(0))?,
    };
    finding.labels.insert(0, Label { place: there, text: "the cause".to_string() });
    finding.elsewhere = Some(Elsewhere::UsedFile(there));
    Some(finding)
}

/// The findings without missing measures of parts of which an error tells already why they have none.
pub(crate) fn without_echoes(design: &Design, mut found: Vec<Finding>) -> Vec<Finding> {
    let faults: Vec<Place> = found.iter().filter(|f| f.level == Level::Error).map(|f| f.place).collect();
    let is_echo = |f: &Finding| {
        let part = design.parts.iter().find(|part| part.header == f.place);
        let inside = |part: &finwright_model::Part, place: &Place| {
            place.file == part.block.file && part.block.span.touches(place.span.start as usize)
        };
        part.is_some_and(|part| faults.iter().any(|place| inside(part, place)))
    };
    found.retain(|f| f.rule != MISSING_FIELD.name || !is_echo(f));
    found
}

/// The findings without those that follow from another one about the same flight, which tells them too.
pub(crate) fn folded(mut found: Vec<Finding>) -> Vec<Finding> {
    for (cause, consequences) in CONSEQUENCES {
        let flights: Vec<usize> = found.iter().filter(|f| f.rule == cause.name).filter_map(|f| f.flight).collect();
        for flight in flights {
            let follows = |f: &Finding| f.flight == Some(flight) && consequences.iter().any(|c| c.name == f.rule);
            let (also, rest): (Vec<Finding>, Vec<Finding>) = found.into_iter().partition(follows);
            found = rest;
            if let Some(told) = found.iter_mut().find(|f| f.rule == cause.name && f.flight == Some(flight)) {
                told.also.extend(also.into_iter().map(|f| Also { rule: f.rule, level: f.level, message: f.message }));
            }
        }
    }
    found
}
