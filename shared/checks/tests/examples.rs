//! Every rule's examples do what they say: the good one isn't found fault with, the bad one is, by that very rule.
#![allow(clippy::unwrap_used)]

mod support;
use finwright_checks::example::BASE;
use finwright_checks::{Rule, RULES};
use support::{analysis_by_default as analysis, fixed};

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
    for rule in with_examples() {
        let found = analysis(&rule.example.good_design()).findings;
        let said: Vec<_> = found.iter().map(|f| format!("{}: {}", f.rule, f.message)).collect();
        assert!(said.is_empty(), "{}: {said:#?}", rule.name);
    }
}

#[test]
fn bad_examples_are_found_by_their_rule() {
    let mut page = String::new();
    for rule in with_examples() {
        let text = rule.example.bad_design();
        let found = analysis(&text).findings;
        let own: Vec<_> = found.iter().filter(|f| f.rule == rule.name).collect();
        let others: Vec<_> = found.iter().map(|f| f.rule).collect();
        assert!(!own.is_empty(), "{} isn't found in its bad example; {others:?} are", rule.name);
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
    insta::assert_snapshot!(page);
}

/// Every fix, on every bad example: its finding is gone, and nothing is found that wasn't before.
#[test]
fn fixes_mend_what_they_say_and_break_nothing() {
    for rule in with_examples() {
        let text = rule.example.bad_design();
        let before = analysis(&text).findings;
        for finding in before.iter().filter(|f| !f.fixes.is_empty()) {
            for fix in &finding.fixes {
                let one = finwright_checks::Finding { fixes: vec![fix.clone()], ..finding.clone() };
                let after = analysis(&fixed(&text, &one)).findings;
                let left = after.iter().filter(|f| f.rule == finding.rule).count();
                let had = before.iter().filter(|f| f.rule == finding.rule).count();
                assert!(left < had, "{}: `{}` leaves its finding", rule.name, fix.title);
                let new: Vec<_> = after.iter().filter(|f| !before.iter().any(|b| b.rule == f.rule)).collect();
                assert!(new.is_empty(), "{}: `{}` brings {new:#?}", rule.name, fix.title);
            }
        }
    }
}
