//! Designs that are nearly the same by what they say, for a teacher to look at together.

use super::looked::Looked;
use crate::likeness::Print;
use std::collections::HashMap;

/// Two designs that are nearly the same.
#[derive(Debug, PartialEq)]
pub struct Alike {
    /// The submissions, by their numbers.
    pub one: usize,
    pub other: usize,
    /// The share of their own statements that both have, 0 to 1.
    pub likeness: f64,
}

/// From this likeness on they are told.
const NEARLY: f64 = 0.9;
/// What more than this share of a class says is the class' own, such as a kit's parts.
const SHARED: f64 = 0.5;
/// In a smaller class nothing counts as the class' own.
const FEW: usize = 6;
/// Fewer statements of one's own than these say nothing.
const LEAST: usize = 5;
/// A statement that more designs make than these isn't where pairs are looked for.
const USUAL: usize = 20;

/// The pairs, the most alike first. What most of the class says doesn't count, or a class with one kit would be all
/// alike.
pub fn alike(looked: &[Looked]) -> Vec<Alike> {
    let prints: Vec<(usize, &Print)> = looked
        .iter()
        .enumerate()
        .flat_map(|(number, one)| one.designs.iter().map(move |design| (number, &design.print)))
        .collect();
    let own = own_statements(&prints);
    let mut by_statement: HashMap<u64, Vec<usize>> = HashMap::new();
    for (number, print) in own.iter().enumerate() {
        let mut said = print.0.clone();
        said.dedup();
        said.into_iter().for_each(|statement| by_statement.entry(statement).or_default().push(number));
    }
    let mut together: HashMap<(usize, usize), usize> = HashMap::new();
    for designs in by_statement.values().filter(|designs| designs.len() <= USUAL) {
        for (at, one) in designs.iter().enumerate() {
            designs.iter().skip(at + 1).for_each(|other| *together.entry((*one, *other)).or_default() += 1);
        }
    }
    let mut found: Vec<Alike> = together
        .into_keys()
        .filter_map(|(one, other)| {
            let ((a, _), (b, _)) = (prints.get(one)?, prints.get(other)?);
            let (mine, theirs) = (own.get(one)?, own.get(other)?);
            let likeness = mine.likeness(theirs);
            let tells = a != b && mine.0.len() >= LEAST && theirs.0.len() >= LEAST && likeness >= NEARLY;
            tells.then_some(Alike { one: *a, other: *b, likeness })
        })
        .collect();
    found.sort_by(|x, y| y.likeness.total_cmp(&x.likeness).then((x.one, x.other).cmp(&(y.one, y.other))));
    found.dedup_by_key(|pair| (pair.one, pair.other));
    found
}

/// What each design says beyond what most of the class says.
fn own_statements(prints: &[(usize, &Print)]) -> Vec<Print> {
    let mut count: HashMap<u64, usize> = HashMap::new();
    for (_, print) in prints {
        let mut said = print.0.clone();
        said.dedup();
        said.into_iter().for_each(|statement| *count.entry(statement).or_default() += 1);
    }
    let most = if prints.len() < FEW { prints.len() } else { (prints.len() as f64 * SHARED) as usize };
    let is_own = |statement: &u64| count.get(statement).is_none_or(|n| *n <= most);
    prints.iter().map(|(_, print)| Print(print.0.iter().copied().filter(|s| is_own(s)).collect())).collect()
}
