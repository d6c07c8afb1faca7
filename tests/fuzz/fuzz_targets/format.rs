//! Any text is laid out: a second time changes nothing, and what every line says stays.
#![no_main]

use finwright_grammar::{format, parse, Tree};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let out = format(text);
    assert_eq!(format(&out), out);
    assert_eq!(bare_lines(text), bare_lines(&out));
    let (before, after) = (parse(text), parse(&out));
    assert_eq!(comments(&before), comments(&after));
    assert_eq!(problems(&before), problems(&after));
});

fn comments(tree: &Tree) -> Vec<&str> {
    tree.comments.iter().map(|span| tree.text(*span).trim_end()).collect()
}

fn problems(tree: &Tree) -> Vec<(&str, &str)> {
    tree.problems.iter().map(|problem| (problem.rule, problem.message.as_str())).collect()
}

/// The lines that say anything, without white space and what separates.
fn bare_lines(text: &str) -> Vec<String> {
    text.trim_start_matches('\u{FEFF}')
        .split(['\n', '\r'])
        .map(|line| line.chars().filter(|c| !c.is_whitespace() && *c != ';').collect::<String>().replace(",]", "]"))
        .filter(|line| !line.is_empty())
        .collect()
}
