//! Whatever line of a design is missing or half typed, the parts that it doesn't touch keep their numbers.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::analysis;
use finwright_checks::Analysis;
use std::path::Path;

const EXAMPLES: [&str; 5] = ["reed_heron", "pond_wren", "marsh_harrier", "grey_crane", "two_stage"];

fn example(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good").join(name).with_extension("finw");
    std::fs::read_to_string(path).unwrap()
}

/// Each part that a line doesn't touch, by what it's called, with its mass.
fn untouched(whole: &Analysis, line: std::ops::Range<usize>) -> Vec<(String, f64)> {
    let text = &whole.sources[0].text;
    let words = text[line.clone()].trim();
    // A value or material may be used by any part, and a stage's first line holds all of its parts.
    if ["let ", "material ", "airframe", "booster"].iter().any(|word| words.starts_with(word)) {
        return Vec::new();
    }
    let touches = |id: usize| {
        let block = whole.design.parts[id].block.span.range();
        block.start < line.end && line.start < block.end
    };
    let chain = |mut id: usize| {
        let mut ids = vec![id];
        while let Some(parent) = whole.design.parts[id].parent {
            ids.push(parent);
            id = parent;
        }
        ids
    };
    let parts = whole.design.parts.iter().enumerate();
    // A line inside of a part's tube may be the tube's own, which its fins and rings hang on.
    let kept = parts.filter(|(id, _)| !chain(*id).into_iter().any(touches));
    // A part that is like another hangs on that one.
    let kept = kept.filter(|(_, part)| !whole.design.text(part.header).contains(" like "));
    kept.filter_map(|(id, part)| Some((part.label(), whole.assessment.airframe.weights[id].as_ref()?.own.mass)))
        .collect()
}

fn still_has(damaged: &Analysis, part: &(String, f64)) -> bool {
    let same = |(p, w): (&finwright_model::Part, &Option<finwright_assess::Weight>)| {
        p.label() == part.0 && w.as_ref().is_some_and(|w| w.own.mass == part.1)
    };
    damaged.design.parts.iter().zip(&damaged.assessment.airframe.weights).any(same)
}

#[test]
fn every_line_missing_or_cut_short() {
    let mut compared = 0;
    for name in EXAMPLES {
        let text = example(name);
        let whole = analysis(&text);
        let mut start = 0;
        for line in text.split_inclusive('\n') {
            let range = start..start + line.len();
            start = range.end;
            let half: String = line.chars().take(line.chars().count() / 2).collect();
            for replacement in [String::new(), half + "\n"] {
                let mut damaged = text.clone();
                damaged.replace_range(range.clone(), &replacement);
                let after = analysis(&damaged);
                for part in untouched(&whole, range.clone()) {
                    assert!(still_has(&after, &part), "{name}: {} is lost with `{}`", part.0, line.trim());
                    compared += 1;
                }
                let syntax = after.findings.iter().filter(|f| f.rule.starts_with("syntax/")).count();
                assert!(syntax <= 2, "{name}: {syntax} syntax messages for `{}`", line.trim());
            }
        }
    }
    assert!(compared > 2000, "{compared}");
}
