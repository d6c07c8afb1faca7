//! What was found before and what is found now.

use super::change::Found;
use finwright_checks::{Analysis, Finding};

/// Findings that are gone, that are new, and that say something else now.
#[derive(Default)]
pub struct Differs {
    pub gone: Vec<Found>,
    pub new: Vec<Found>,
    pub changed: Vec<Found>,
}

/// Compare them. What is about the same part and flight by the same rule is the same finding, whatever its numbers.
pub fn differs(old: &Analysis, new: &Analysis) -> Differs {
    let (mut before, mut now) = (told(old), told(new));
    let mut found = Differs::default();
    // The same words first, so that of two findings of one rule each finds itself.
    take_pairs(&mut before, &mut now, |one, other| one == other);
    let same_part = |one: &Told, other: &Told| one.is_like(other) && one.part == other.part;
    let pairs = take_pairs(&mut before, &mut now, same_part);
    let more = take_pairs(&mut before, &mut now, Told::is_like);
    for (was, is) in pairs.into_iter().chain(more) {
        if (&was.found.message, was.found.level) != (&is.found.message, is.found.level) {
            found.changed.push(Found { was: Some(was.found.message), ..is.found });
        }
    }
    found.gone = before.into_iter().map(|told| told.found).collect();
    found.new = now.into_iter().map(|told| told.found).collect();
    found
}

/// A finding with the part of the text that it stands in.
#[derive(PartialEq)]
struct Told {
    found: Found,
    part: Vec<String>,
}

impl Told {
    fn is_like(&self, other: &Told) -> bool {
        (self.found.rule, &self.found.flight) == (other.found.rule, &other.found.flight)
    }
}

fn told(analysis: &Analysis) -> Vec<Told> {
    let one = |finding: &Finding| {
        let flight = finding.flight.and_then(|flight| analysis.design.flights.get(flight));
        let found = Found {
            rule: finding.rule,
            level: finding.level,
            flight: flight.map(|flight| flight.name.value.clone()),
            message: finding.message.clone(),
            was: None,
        };
        Told { found, part: part(analysis, finding) }
    };
    analysis.findings.iter().map(one).collect()
}

/// The words and names of the blocks around a finding.
fn part(analysis: &Analysis, finding: &Finding) -> Vec<String> {
    let Some(tree) = analysis.tree() else { return Vec::new() };
    let named = |block: &&finwright_grammar::Block| {
        let name = block.name.map_or("", |name| tree.text(name));
        format!("{} {name}", tree.text(block.word))
    };
    tree.blocks_at(finding.place.span.start as usize).iter().map(named).collect()
}

/// Takes from both lists what belongs together.
fn take_pairs(before: &mut Vec<Told>, now: &mut Vec<Told>, same: impl Fn(&Told, &Told) -> bool) -> Vec<(Told, Told)> {
    let mut pairs = Vec::new();
    let mut at = 0;
    while let Some(one) = before.get(at) {
        match now.iter().position(|other| same(one, other)) {
            Some(there) => pairs.push((before.remove(at), now.remove(there))),
            None => at += 1,
        }
    }
    pairs
}
