//! The page of all rules, written from the rules themselves.
#![allow(clippy::unwrap_used)]

use finwright_checks::example::Example;
use finwright_checks::{Rule, RULES};
use std::path::Path;

#[test]
fn the_page_of_all_rules_is_fresh() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("RULES.md");
    let page = page();
    if std::env::var_os("FINWRIGHT_UPDATE").is_some() {
        std::fs::write(&path, &page).unwrap();
    }
    assert!(std::fs::read_to_string(path).unwrap_or_default() == page, "FINWRIGHT_UPDATE=1 writes RULES.md anew");
}

#[test]
fn every_rule_and_threshold_has_a_name_of_its_own_and_says_why() {
    let mut names: Vec<&str> = RULES.iter().map(|rule| rule.name).collect();
    names.sort_unstable();
    let all = names.len();
    names.dedup();
    assert_eq!(names.len(), all);
    assert!(RULES.iter().filter(|rule| rule.check.is_some()).count() >= 60);
    for rule in RULES.iter() {
        assert!(rule.prose.len() > 40 && rule.why.ends_with('.') && !rule.summary.ends_with('.'), "{}", rule.name);
        assert!(!rule.why.contains('!') && !rule.prose.contains('!'), "{}", rule.name);
        let words = [rule.summary, rule.why, rule.prose].join(" ").to_lowercase();
        let mut words = words.split(|c: char| !c.is_alphabetic());
        assert!(!words.any(|word| word == "safe" || word == "safely"), "{}: nothing is called safe", rule.name);
    }
}

fn page() -> String {
    let mut page = String::from(
        "# The rules\n\nWritten from the rules themselves; `finwright explain RULE` shows the same. Levels and \
            thresholds can be set in `finwright.toml`.\n",
    );
    page += &format!(
        "{} rules. Computed, not measured: the range safety officer and the local code decide.\n",
        RULES.len()
    );
    let mut family = "";
    let mut rules: Vec<&Rule> = RULES.to_vec();
    let order: Vec<&str> = RULES.iter().map(|rule| of(rule)).collect();
    rules.sort_by_key(|rule| order.iter().position(|name| *name == of(rule)));
    for rule in rules {
        if of(rule) != family {
            family = of(rule);
            page += &format!("\n## {family}\n");
        }
        page += &format!(
            "\n### {}\n\n*{}*: {}\n\n{}\n\n{}\n",
            rule.name,
            rule.level.word(),
            rule.summary,
            rule.why,
            rule.prose.trim_end()
        );
        page += &example(&rule.example);
        for threshold in rule.thresholds {
            page += &format!("\n* `{}`, {}\n", threshold.name, threshold.sentence());
        }
    }
    page
}

fn of(rule: &Rule) -> &'static str {
    rule.name.split('/').next().unwrap_or_default()
}

fn example(example: &Example) -> String {
    let lines = |text: &str| text.trim().lines().map(|line| format!("{}\n", line.trim())).collect::<String>();
    let is_short = |text: &&str| !text.trim().is_empty() && text.len() <= 300;
    if [example.good, example.bad].iter().all(is_short) {
        format!(
            "\nNot like this:\n\n```finw\n{}```\n\nLike this:\n\n```finw\n{}```\n",
            lines(example.bad),
            lines(example.good)
        )
    } else {
        String::new()
    }
}
