//! One advice for one place: two findings must not put different values into the same field.

use crate::finding::{Edit, Finding, Fix, Level};
use finwright_grammar::Place;
use std::cmp::Reverse;
use std::collections::HashMap;

/// The findings, each of which advises what no other contradicts. Of two fixes that put different texts at one place the
/// one that reaches further stays, since it mends what both are about; with as many edits the graver finding's, then the
/// first. The other finding points to it.
pub(crate) fn agreed(mut findings: Vec<Finding>) -> Vec<Finding> {
    let each = || {
        let fixes = findings
            .iter()
            .enumerate()
            .flat_map(|(at, finding)| finding.fixes.iter().map(move |fix| (at, finding, fix)));
        let edits = fixes
            .flat_map(|(number, finding, fix)| fix.edits.iter().map(move |edit| Advice { number, finding, fix, edit }));
        edits.filter(|advice| !advice.edit.place.span.is_empty())
    };
    let mut staying: HashMap<Place, Advice> = HashMap::new();
    for advice in each() {
        staying
            .entry(advice.edit.place)
            .and_modify(|best| *best = if advice.rank() < best.rank() { advice } else { *best })
            .or_insert(advice);
    }
    let against = |advice: Advice| {
        let stays = staying.get(&advice.edit.place)?;
        let differs = stays.number != advice.number && stays.edit.text != advice.edit.text;
        differs.then(|| (advice.number, format!("{}, as {} advises", stays.fix.title, stays.finding.rule)))
    };
    let contradicted: Vec<(usize, String)> = each().filter_map(against).collect();
    for (number, help) in contradicted {
        if let Some(finding) = findings.get_mut(number) {
            finding.help = help;
            finding.fixes.clear();
        }
    }
    findings
}

/// An edit, with the fix and the finding that it belongs to.
#[derive(Clone, Copy)]
struct Advice<'a> {
    number: usize,
    finding: &'a Finding,
    fix: &'a Fix,
    edit: &'a Edit,
}

impl Advice<'_> {
    /// The lower goes before the higher.
    fn rank(&self) -> (Reverse<usize>, Level, usize) {
        (Reverse(self.fix.edits.len()), self.finding.level, self.number)
    }
}
