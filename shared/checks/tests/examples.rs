//! Every rule's examples do what they say: the good one isn't found fault with, the bad one is, by that very rule.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis_by_default as analysis, analysis_set, fixed, snapshot_set};
use finwright_checks::example::BASE;
use finwright_checks::{offered, Rule, RULES};

/// Rules whose finding needs more than one text: each has a test of its own.
const ELSEWHERE: [&str; 1] = ["settings/not-understood"];

fn with_examples() -> impl Iterator<Item = &'static Rule> {
    RULES.iter().copied().filter(|rule| !ELSEWHERE.contains(&rule.name))
}

#[test]
fn the_base_of_the_examples_is_met_with_silence() {
    let found = analysis(BASE).findings;
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn the_changes_before_an_example_and_the_example_itself_find_their_words_once() {
    for rule in with_examples() {
        let mut text = BASE.to_string();
        for (old, new) in rule.example.after {
            assert_eq!(text.matches(old).count(), 1, "{}: `{old}`", rule.name);
            text = text.replace(old, new);
        }
        assert_eq!(text.matches(rule.example.good).count(), 1, "{}: `{}`", rule.name, rule.example.good);
    }
}

#[test]
fn good_examples_are_met_with_silence() {
    let mut said = Vec::new();
    for rule in with_examples() {
        let found = analysis_set(&rule.example.good_design(), rule.example.settings).findings;
        said.extend(found.iter().map(|f| format!("in {}'s: {}: {}", rule.name, f.rule, f.message)));
    }
    assert!(said.is_empty(), "{said:#?}");
}

#[test]
fn bad_examples_are_found_by_their_rule() {
    let mut page = String::new();
    let mut silent = Vec::new();
    for rule in with_examples() {
        let text = rule.example.bad_design();
        let found = analysis_set(&text, rule.example.settings).findings;
        let own: Vec<_> = found.iter().filter(|f| f.rule == rule.name).collect();
        // What follows from another finding is told by that one.
        let also: Vec<_> = found.iter().flat_map(|f| &f.also).filter(|also| also.rule == rule.name).collect();
        also.iter().for_each(|a| page += &format!("{} {}\n  also  {}\n", a.level.word(), rule.name, a.message));
        let others: Vec<_> = found.iter().map(|f| f.rule).collect();
        if own.is_empty() && also.is_empty() {
            silent.push(format!("{} isn't found in its bad example; {others:?} are", rule.name));
        }
        for finding in own {
            let words = finding.place.span.of(&text).chars().take(60).collect::<String>();
            page +=
                &format!("{} {}\n  at    {words:?}\n  says  {}\n", finding.level.word(), rule.name, finding.message);
            page += &format!("  help  {}\n", finding.help);
            finding.labels.iter().for_each(|label| page += &format!("  there {}\n", label.text));
            finding.fixes.iter().for_each(|fix| page += &format!("  fix   {}\n", fix.title));
        }
        let besides: Vec<_> = others.into_iter().filter(|other| *other != rule.name).collect();
        if !besides.is_empty() {
            page += &format!("  besides {}\n", besides.join(", "));
        }
        page.push('\n');
    }
    assert!(silent.is_empty(), "{silent:#?}");
    insta::assert_snapshot!(page);
}

/// Every fix, on every bad example: its finding is gone, and nothing is found that wasn't before.
#[test]
fn fixes_mend_what_they_say_and_break_nothing() {
    let mut faults = Vec::new();
    for rule in with_examples() {
        let text = rule.example.bad_design();
        let (snapshot, analysis) =
            (snapshot_set(&text, rule.example.settings), analysis_set(&text, rule.example.settings));
        let before = &analysis.findings;
        for finding in before.iter().filter(|f| !f.fixes.is_empty()) {
            let offered = offered(&snapshot, &analysis, finding);
            if offered.is_empty() && finding.rule == rule.name {
                faults.push(format!("{}: no fix of its own example holds", rule.name));
            }
            for fix in offered {
                let one = finwright_checks::Finding { fixes: vec![fix.clone()], ..finding.clone() };
                let after = analysis_set(&fixed(&text, &one), rule.example.settings).findings;
                let left = after.iter().filter(|f| f.rule == finding.rule).count();
                let had = before.iter().filter(|f| f.rule == finding.rule).count();
                if left >= had {
                    faults.push(format!("{}: `{}` of {} leaves its finding", rule.name, fix.title, finding.rule));
                }
                // What couldn't be checked before was there before.
                let blocked =
                    |found: &[finwright_checks::Finding]| found.iter().filter(|f| f.rule == "file/not-checked").count();
                if blocked(&after) < blocked(before) {
                    continue;
                }
                let new = after.iter().filter(|f| !before.iter().any(|b| b.rule == f.rule));
                let brought = |f: &finwright_checks::Finding| {
                    format!("{}: `{}` of {} brings {}: {}", rule.name, fix.title, finding.rule, f.rule, f.message)
                };
                faults.extend(new.map(brought));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}
