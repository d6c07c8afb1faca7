//! A rule's page: what it finds, why it matters, how it's done and how not, what may be set.

use crate::layout::{flowing, measure, paragraph};
use finwright_checks::example::Example;
use finwright_checks::Rule;
use finwright_working::Quantity;

pub fn page(rule: &Rule) -> String {
    let prose = |text: &str| paragraph(&flowing(text), "", measure());
    let mut page = format!("{} ({})\n{}\n", rule.name, rule.level.word(), prose(rule.summary));
    page += &format!("\n{}\n\n{}\n", prose(rule.why), prose(rule.prose));
    let Example { good, bad, .. } = rule.example;
    // An example that is a whole file, an empty one or a very long line shows nothing.
    if [good, bad].iter().all(|lines| !lines.is_empty() && lines.len() <= 300 && lines.lines().all(|l| l.len() <= 96)) {
        page += &format!("\nNot like this:\n{}\nLike this:\n{}", indented(bad), indented(good));
    }
    for threshold in rule.thresholds {
        let set = format!("In finwright.toml, `{}` is {}.", threshold.name, threshold.sentence());
        page += &format!("\n{}\n", prose(&set));
    }
    if let Some(quantity) = Quantity::behind(rule.name) {
        page += &format!("\nBy hand, with a design's own values: finwright working FILE {}\n", quantity.name());
    }
    page
}

fn indented(lines: &str) -> String {
    lines.trim().lines().map(|line| format!("  {}\n", line.trim())).collect()
}
