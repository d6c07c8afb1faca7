//! `finwright explain`: a rule's page, or the list of all rules.

use crate::output::{print, unusable};
use finwright_checks::{rule, RULES};
use finwright_grammar::vocabulary::nearest;
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
    print(&format!(
        "{} ({})\n{}\n\n{}\n\n{}\n",
        rule.name,
        rule.level.word(),
        rule.summary,
        wrapped(rule.why),
        wrapped(rule.prose)
    ));
    ExitCode::SUCCESS
}

/// Broken into lines of at most 88 characters at spaces.
fn wrapped(text: &str) -> String {
    let mut out = String::new();
    let mut column = 0;
    for word in text.split(' ') {
        let width = word.chars().count();
        if column > 0 && column + 1 + width > 88 {
            out.push('\n');
            column = 0;
        } else if column > 0 {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
    }
    out
}
