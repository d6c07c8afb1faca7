//! Which design of one side is which of the other: by its name, else by what it says.

use super::side::Named;
use crate::likeness::Print;
use std::collections::BTreeMap;

/// A design on both sides, or on one of them.
pub struct Pair {
    pub old: Option<Named>,
    pub new: Option<Named>,
}

/// From this likeness on a design that is gone and one that is new are the same one, renamed.
const RENAMED: f64 = 0.7;

/// The pairs in the order of their names now.
pub fn pairs(old: Vec<Named>, new: Vec<Named>, are_files: bool) -> Vec<Pair> {
    if are_files {
        let (old, new) = (old.into_iter().next(), new.into_iter().next());
        return vec![Pair { old, new }];
    }
    let mut gone: BTreeMap<String, Named> = old.into_iter().map(|design| (design.name.clone(), design)).collect();
    let (mut found, mut added) = (Vec::new(), Vec::new());
    for design in new {
        match gone.remove(&design.name) {
            Some(old) => found.push(Pair { old: Some(old), new: Some(design) }),
            None => added.push(design),
        }
    }
    for design in added {
        let old = renamed(&gone, &design).and_then(|name| gone.remove(&name));
        found.push(Pair { old, new: Some(design) });
    }
    found.extend(gone.into_values().map(|old| Pair { old: Some(old), new: None }));
    found.sort_by(|one, other| name(one).cmp(name(other)));
    found
}

fn name(pair: &Pair) -> &str {
    pair.new.as_ref().or(pair.old.as_ref()).map_or("", |design| &design.name)
}

/// The name of the design among those that are gone that is most like a new one, where one is like it at all.
fn renamed(gone: &BTreeMap<String, Named>, design: &Named) -> Option<String> {
    let print = print_of(design)?;
    let like = gone.values().filter_map(|old| Some((print_of(old)?.likeness(&print), &old.name)));
    let best = like.filter(|(likeness, _)| *likeness >= RENAMED);
    // Of two that are as much alike the first by name.
    best.reduce(|best, next| if next.0 > best.0 { next } else { best }).map(|(_, name)| name.clone())
}

fn print_of(design: &Named) -> Option<Print> {
    let snapshot = design.input.snapshot.as_ref().ok()?;
    Some(Print::of(&finwright_grammar::parse(&snapshot.text)))
}
