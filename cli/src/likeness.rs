//! How alike two designs are by what they say: by their trees, whatever their layout, comments, order and names.

use crate::statements::words;
use finwright_grammar::{Item, Span, Tree};
use std::hash::{DefaultHasher, Hash, Hasher};

/// What a design says, each statement as a number, in order; the same statement twice is there twice.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Print(pub Vec<u64>);

impl Print {
    /// Of a tree.
    pub fn of(tree: &Tree) -> Print {
        let mut said = Vec::new();
        walk(tree, &tree.items, 0, &mut said);
        said.sort_unstable();
        Print(said)
    }

    /// The share of both designs' statements that stand in both, 0 to 1.
    pub fn likeness(&self, other: &Print) -> f64 {
        let shared = shared(&self.0, &other.0);
        let all = self.0.len() + other.0.len() - shared;
        if all == 0 {
            1.0
        } else {
            shared as f64 / all as f64
        }
    }
}

/// How many numbers of two ordered lists are in both.
fn shared(one: &[u64], other: &[u64]) -> usize {
    let (mut at, mut there, mut both) = (0, 0, 0);
    while let (Some(a), Some(b)) = (one.get(at), other.get(there)) {
        match a.cmp(b) {
            std::cmp::Ordering::Less => at += 1,
            std::cmp::Ordering::Greater => there += 1,
            std::cmp::Ordering::Equal => {
                (at, there, both) = (at + 1, there + 1, both + 1);
            }
        }
    }
    both
}

/// Blocks by the words around them, fields with their values. What a thing is called, and what is said about it, is the
/// author's own and easily changed.
fn walk(tree: &Tree, items: &[Item], around: u64, said: &mut Vec<u64>) {
    let field = |name: &str, value: Span| {
        // Begins alike in every run, as the pairs that are told must.
        let mut hasher = DefaultHasher::new();
        (around, name).hash(&mut hasher);
        words(tree, value).for_each(|word| word.hash(&mut hasher));
        hasher.finish()
    };
    for item in items {
        match item {
            Item::Field(one) => {
                let name = tree.text(one.name);
                if !matches!(name, "note" | "builder") {
                    said.push(field(name, one.value.as_ref().map_or(Span::new(0, 0), |value| value.span)));
                }
            }
            Item::Let(named) => said.push(field("let", Span::new(named.name.end as usize, named.span.end as usize))),
            Item::Use { path, .. } => said.push(field("use", *path)),
            Item::Version { .. } => {}
            Item::Block(block) => {
                let mut hasher = DefaultHasher::new();
                (around, tree.text(block.word)).hash(&mut hasher);
                let inside = hasher.finish();
                said.push(inside);
                walk(tree, &block.items, inside, said);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn likeness(one: &str, other: &str) -> f64 {
        let print = |text: &str| Print::of(&finwright_grammar::parse(text));
        print(one).likeness(&print(other))
    }

    #[test]
    fn other_names_layout_and_order_are_the_same_design() {
        let one = "design \"Mine\"\nairframe { tube body { length: 230 mm; outer: 25 mm }\n nose { length: 48 mm } }\n";
        let other = "design \"Yours\" # own work\nairframe {\n nose { length:  48 mm }\n tube long { outer: 25 mm\n length: 230 mm }\n}\n";
        assert!((likeness(one, other) - 1.0).abs() < 1e-12);
        let shorter = other.replace("230", "220");
        assert!(likeness(one, &shorter) < 1.0 && likeness(one, &shorter) > 0.5, "{}", likeness(one, &shorter));
    }

    #[test]
    fn two_empty_files_are_alike_and_an_empty_one_is_like_no_other() {
        assert!((likeness("", "# nothing\n") - 1.0).abs() < 1e-12);
        assert!(likeness("", "airframe { nose { length: 1 mm } }\n") < 0.5);
    }
}
