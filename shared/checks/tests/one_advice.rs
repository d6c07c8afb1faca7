//! Two findings never advise different values for one field: of designs with two numbers changed at random.
#![allow(clippy::unwrap_used)]

use crate::support::analysis;
use finwright_checks::{Analysis, Finding};
use proptest::prelude::*;

const DESIGN: &str = include_str!("../../../tests/designs/good/reed_heron.finw");

/// Where the numbers with a length or an angle stand.
fn numbers() -> Vec<std::ops::Range<usize>> {
    let digit = |c: char| c.is_ascii_digit() || c == '.';
    let units = DESIGN.match_indices(" mm").chain(DESIGN.match_indices(" deg")).chain(DESIGN.match_indices(" m/s"));
    let mut found: Vec<std::ops::Range<usize>> = units
        .map(|(end, _)| DESIGN[..end].rfind(|c| !digit(c)).unwrap() + 1..end)
        .filter(|range| !range.is_empty())
        .collect();
    found.sort_by_key(|range| range.start);
    found
}

fn contradictions(analysis: &Analysis) -> Vec<String> {
    let edits = |finding: &'_ Finding| {
        let edits = finding.fixes.iter().flat_map(|fix| fix.edits.clone()).collect::<Vec<_>>();
        (finding.rule, edits)
    };
    let all: Vec<_> = analysis.findings.iter().map(edits).collect();
    let mut found = Vec::new();
    for (number, (rule, own)) in all.iter().enumerate() {
        for (other, theirs) in &all[number + 1..] {
            for (a, b) in own.iter().flat_map(|a| theirs.iter().map(move |b| (a, b))) {
                if a.place == b.place && !a.place.span.is_empty() && a.text != b.text {
                    found.push(format!("{rule}: {}, {other}: {}", a.text, b.text));
                }
            }
        }
    }
    found
}

#[test]
fn a_thin_rod_with_wide_lugs_gets_one_bore() {
    let text = DESIGN.replace("rod  { diameter: 4 mm;", "rod  { diameter: 2 mm;");
    let analysis = analysis(&text);
    let told = analysis.findings.iter().find(|f| f.rule == "guide/loose-fit").unwrap();
    let leans = analysis.findings.iter().find(|f| f.rule == "pad/leans").unwrap();
    assert_eq!(told.help, format!("{}, as pad/leans advises", leans.fixes[0].title));
    assert!(told.fixes.is_empty() && contradictions(&analysis).is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn whatever_numbers_are_changed(one in 0usize..1000, other in 0usize..1000, by in prop::sample::select(vec![0.3, 0.6, 1.7, 3.0])) {
        let numbers = numbers();
        let mut picked = [one % numbers.len(), other % numbers.len()];
        picked.sort_unstable();
        let mut text = DESIGN.to_string();
        for at in picked.iter().rev() {
            let range = numbers[*at].clone();
            let value: f64 = DESIGN[range.clone()].parse().unwrap();
            text.replace_range(range, &format!("{:.3}", value * by));
        }
        prop_assert_eq!(contradictions(&analysis(&text)), Vec::<String>::new());
    }
}
