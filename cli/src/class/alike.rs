//! Designs that are nearly the same by what they say, for a teacher to look at together.

use super::looked::Looked;
use crate::likeness::Print;
use rayon::prelude::*;
use std::collections::{HashMap, HashSet};

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
    let all = by_statement(&prints);
    let own = own_statements(&prints, &all);
    let mut together: HashMap<(u32, u32), usize> = HashMap::new();
    for same in all.chunk_by(|one, other| one.0 == other.0).filter(|same| same.len() <= USUAL) {
        for (at, (_, one)) in same.iter().enumerate() {
            same.iter().skip(at + 1).for_each(|(_, other)| *together.entry((*one, *other)).or_default() += 1);
        }
    }
    let mut found: Vec<Alike> = together
        .into_keys()
        .filter_map(|(one, other)| {
            let (one, other) = (one as usize, other as usize);
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

/// Every statement with the number of the design that makes it, once for each of them, in order.
fn by_statement(prints: &[(usize, &Print)]) -> Vec<(u64, u32)> {
    let mut all: Vec<(u64, u32)> = Vec::new();
    for (number, (_, print)) in prints.iter().enumerate() {
        all.extend(print.0.iter().map(|statement| (*statement, number as u32)));
    }
    all.par_sort_unstable();
    all.dedup();
    all
}

/// What each design says beyond what most of the class says.
fn own_statements(prints: &[(usize, &Print)], all: &[(u64, u32)]) -> Vec<Print> {
    let most = if prints.len() < FEW { prints.len() } else { (prints.len() as f64 * SHARED) as usize };
    let shared: HashSet<u64> = all
        .chunk_by(|one, other| one.0 == other.0)
        .filter(|same| same.len() > most)
        .filter_map(|same| same.first().map(|(statement, _)| *statement))
        .collect();
    let own = |print: &Print| Print(print.0.iter().copied().filter(|statement| !shared.contains(statement)).collect());
    prints.par_iter().map(|(_, print)| own(print)).collect()
}
