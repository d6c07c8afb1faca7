//! `file/not-checked`: a flight of which a number that its verdict needs isn't known.

use crate::common::lacks::Causes;
use crate::common::library::is_library;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::lacking::{joined, needed_in_words, unknown_in_words};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::needed::open;
use finwright_assess::{FlightMisfit, FlightNumbers, Needed};
use finwright_grammar::{FileId, Item, Place};
use finwright_model::{Design, Flight};
use std::collections::HashSet;

/// The rule.
pub static NOT_CHECKED: Rule = Rule {
    name: "file/not-checked",
    family: Family::File,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a flight that couldn't be checked whole, with what it needs",
    why: "What isn't known isn't guessed: the checks that need it haven't been made.",
    prose: include_str!("not_checked.md"),
    thresholds: &[],
    example: Example::new("inner: 24 mm; material: kraft_paper", "inner: 24 mm"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    // Flights that lack the same for the same reasons are told together; of the rocket they all lack the same.
    let mut told: Vec<Told> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let lacks = open(cx.design, &cx.assessment.airframe, numbers);
        if lacks.is_empty() {
            continue;
        }
        let misfits = numbers.misfits.iter().map(FlightMisfit::place);
        let own = cx.lacks.causes(cx.design, &numbers.unknown, misfits);
        match told.iter_mut().find(|told| told.lacks == lacks && told.own == own) {
            Some(told) => told.flights.push(flight),
            None => told.push(Told { lacks, own, flights: vec![flight], numbers }),
        }
    }
    for told in &told {
        let rocket = cx.lacks.of_rocket(cx.design, cx.assessment);
        out.extend(finding(told, rocket).map(|finding| finding.of_flight(told.numbers)));
    }
    no_flight(cx, out);
}

/// Flights that lack the same for the same reasons.
struct Told<'a> {
    lacks: Vec<Needed>,
    own: Causes,
    flights: Vec<&'a Flight>,
    /// The first one's.
    numbers: &'a FlightNumbers,
}

fn finding(Told { lacks, own, flights, .. }: &Told, rocket: &Causes) -> Option<Finding> {
    let (first, rest) = flights.split_first()?;
    let words: Vec<&str> = lacks.iter().map(|needed| needed_in_words(*needed)).collect();
    let names = match rest.len() {
        0 => format!("{} isn't checked", first.name.value),
        1 => format!("{} and another aren't checked", first.name.value),
        more => format!("{} and {more} others aren't checked", first.name.value),
    };
    let whose = if rest.is_empty() { "its" } else { "their" };
    let message = format!("{names}: {}", unknown_in_words(whose, lacks));
    let causes = rocket.with(own);
    let mut different: Vec<&str> = causes.iter().map(|cause| cause.words.as_str()).collect();
    let mut seen = HashSet::new();
    different.retain(|words| seen.insert(*words));
    let shown: Vec<&str> = different.iter().take(3).copied().collect();
    let more = different.len().saturating_sub(3);
    let more = if more > 0 { format!("; and {more} more") } else { String::new() };
    let help = match shown.as_slice() {
        [] => "say what is missing, and ask again".to_string(),
        shown => format!("mend this first: {}{more}", shown.join("; ")),
    };
    let unknown = format!("{help}. Not known: {}", joined(&words, "and"));
    let mut finding = NOT_CHECKED.finding(first.name.place, message).help(unknown);
    for cause in causes.iter().take(3) {
        finding = finding.label(cause.place, cause.words.clone());
    }
    for other in rest.iter().take(3) {
        finding = finding.label(other.name.place, "this flight too");
    }
    Some(finding)
}

/// A rocket without any flight, or a file with neither.
fn no_flight(cx: &Context, out: &mut Vec<Finding>) {
    if !cx.design.flights.is_empty() {
        return;
    }
    let (place, message, help) = match (cx.design.airframe, version(cx.design)) {
        (Some(airframe), _) => (
            airframe,
            "no flight is checked, since the file has none",
            "add `flight my_day { motor: …; pad: …; guided_by: […] }`",
        ),
        (None, Some(version)) if !is_library(cx.design) => (
            version,
            "there is nothing to check: the file has no airframe and no flight",
            "add `airframe { … }` and `flight my_day { motor: …; pad: …; guided_by: […] }`",
        ),
        _ => return,
    };
    let mut finding = NOT_CHECKED.finding(place, message).help(help);
    // A file of parts for others to use needs none.
    finding.level = Level::Note;
    out.push(finding);
}

/// Where the file says its version.
fn version(design: &Design) -> Option<Place> {
    design.files.first()?.tree.items.iter().find_map(|item| match item {
        Item::Version { span, .. } => Some(Place { file: FileId(0), span: *span }),
        _ => None,
    })
}
