//! `finwright explain`: a rule's page, or the list of all rules.

use crate::layout::{measure, paragraph};
use crate::output::{print, unusable};
use finwright_checks::example::Example;
use finwright_checks::{rule, RULES};
use finwright_grammar::vocabulary::nearest;
use finwright_working::Quantity;
use std::process::ExitCode;

pub fn explain(name: Option<&str>) -> ExitCode {
    let Some(name) = name else {
        let width = RULES.iter().map(|r| r.name.len()).max().unwrap_or(0);
        let list: String =
            RULES.iter().map(|r| format!("{:width$}  {:7}  {}\n", r.name, r.level.word(), r.summary)).collect();
        print(&list);
        return ExitCode::SUCCESS;
    };
    let Some(rule) = rule(name) else {
        let near = nearest(name, RULES.iter().map(|r| r.name));
        let hint = near.map_or("`finwright explain` lists them".to_string(), |n| format!("did you mean {n}?"));
        return unusable(&format!("there is no rule {name}; {hint}"));
    };
    let mut page = format!(
        "{} ({})\n{}\n\n{}\n\n{}\n",
        rule.name,
        rule.level.word(),
        rule.summary,
        paragraph(rule.why, "", measure()),
        paragraph(rule.prose, "", measure())
    );
    let Example { good, bad, .. } = rule.example;
    // An example that is a whole file, an empty one or a very long line shows nothing.
    if [good, bad].iter().all(|lines| !lines.is_empty() && lines.len() <= 300 && lines.lines().all(|l| l.len() <= 96)) {
        page += &format!("\nNot like this:\n{}\nLike this:\n{}", indented(bad), indented(good));
    }
    for threshold in rule.thresholds {
        page += &format!(
            "\n{}\n",
            paragraph(&format!("In finwright.toml, `{}` is {}.", threshold.name, threshold.sentence()), "", measure())
        );
    }
    if let Some(quantity) = Quantity::behind(rule.name) {
        page += &format!("\nBy hand, with a design's own values: finwright working FILE {}\n", quantity.name());
    }
    print(&page);
    ExitCode::SUCCESS
}

fn indented(lines: &str) -> String {
    lines.trim().lines().map(|line| format!("  {}\n", line.trim())).collect()
}
