//! Why something isn't known, as rules and every flight's verdict ask for it: worked out once for a design.

use crate::lacking::{grouped, sentence};
use finwright_assess::{Assessment, Unknown};
use finwright_grammar::{FileId, Place, Span, Tree};
use finwright_model::Design;
use std::collections::{HashMap, HashSet};
use std::sync::OnceLock;

/// What is worked out when it's first asked for.
#[derive(Default)]
pub struct Lacks {
    explained: OnceLock<HashMap<Place, Place>>,
    of_rocket: OnceLock<Causes>,
}

impl Lacks {
    /// The first problem of words in the block whose header is at `header`, in none of the blocks inside it: what has a
    /// finding of its own explains what is unknown there.
    pub(crate) fn explained(&self, design: &Design, header: Place) -> Option<Place> {
        let tree = &design.files.get(header.file.0 as usize)?.tree;
        let block = Place { file: header.file, span: innermost(tree, header.span)? };
        self.explained.get_or_init(|| explained(design)).get(&block).copied()
    }

    /// What keeps every flight from being checked.
    pub(crate) fn of_rocket(&self, design: &Design, assessment: &Assessment) -> &Causes {
        self.of_rocket.get_or_init(|| {
            let airframe = &assessment.airframe;
            let misfits = airframe.misfits.iter().map(|misfit| misfit.place);
            let mut found = self.causes(design, &airframe.unknown, misfits);
            let lost = design.lost.iter();
            found.0[2].extend(lost.map(|lost| Cause { place: *lost, words: NOT_OF_THE_ROCKET.to_string() }));
            found
        })
    }

    /// The causes among some unknowns and misfits.
    pub(crate) fn causes(&self, design: &Design, unknown: &[Unknown], misfits: impl Iterator<Item = Place>) -> Causes {
        let lacking = grouped(unknown.iter()).into_iter().filter_map(|group| {
            let place = group.first()?.place;
            Some(match self.explained(design, place) {
                Some(word) => Cause { place: word, words: NOT_UNDERSTOOD.to_string() },
                None => Cause { place, words: sentence(design, &group) },
            })
        });
        let elsewhere = unknown.iter().filter(|unknown| !unknown.is_cause());
        let words = elsewhere.filter_map(|unknown| self.explained(design, unknown.place));
        Causes([
            lacking.collect(),
            words.map(|place| Cause { place, words: NOT_UNDERSTOOD.to_string() }).collect(),
            misfits.map(|place| Cause { place, words: "what can't be so".to_string() }).collect(),
        ])
    }
}

/// What keeps a flight from being checked, and where it's told.
#[derive(PartialEq)]
pub(crate) struct Cause {
    pub place: Place,
    pub words: String,
}

/// The causes of gaps, the surest first: what lacks something, words that can't be understood, what can't be so.
#[derive(PartialEq)]
pub(crate) struct Causes([Vec<Cause>; 3]);

impl Causes {
    /// These with a flight's own, each place once.
    pub fn with<'c>(&'c self, own: &'c Causes) -> Vec<&'c Cause> {
        let mut places = HashSet::new();
        let all = self.0.iter().zip(&own.0).flat_map(|(rocket, own)| rocket.iter().chain(own));
        all.filter(|cause| places.insert(cause.place)).collect()
    }
}

/// What is said of words that have a finding of their own.
const NOT_UNDERSTOOD: &str = "what can't be understood";
/// What is said of what can't be known as a part.
const NOT_OF_THE_ROCKET: &str = "this isn't known as part of the rocket";

fn explained(design: &Design) -> HashMap<Place, Place> {
    let of_words = design.problems.iter().chain(&design.problems_elsewhere).map(|problem| problem.place);
    let of_syntax = design.files.iter().enumerate().flat_map(|(number, file)| {
        let spans = file.tree.problems.iter().map(|problem| problem.span);
        spans.map(move |span| Place { file: FileId(number as u32), span })
    });
    let mut found = HashMap::new();
    for problem in of_words.chain(of_syntax) {
        let tree = design.files.get(problem.file.0 as usize).map(|file| &file.tree);
        if let Some(block) = tree.and_then(|tree| innermost(tree, problem.span)) {
            found.entry(Place { file: problem.file, span: block }).or_insert(problem);
        }
    }
    found
}

fn innermost(tree: &Tree, span: Span) -> Option<Span> {
    tree.blocks_at(span.start as usize).last().map(|block| block.span)
}
