//! LANGUAGE.md: written from the tables that the code reads, so that it can't say anything else.
//!
//! `FINWRIGHT_UPDATE=1 cargo test -p finwright-grammar language` writes it anew.
#![allow(clippy::unwrap_used)]

use crate::page;
use finwright_grammar::parse;
use std::path::PathBuf;

fn path() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("LANGUAGE.md")
}

#[test]
fn the_page_says_what_the_tables_say() {
    let fresh = page::write();
    if std::env::var_os("FINWRIGHT_UPDATE").is_some() {
        std::fs::write(path(), &fresh).unwrap();
    }
    let stored = std::fs::read_to_string(path()).unwrap();
    let differs = stored.lines().zip(fresh.lines()).find(|(old, new)| old != new);
    assert!(stored == fresh, "LANGUAGE.md is stale; FINWRIGHT_UPDATE=1 writes it anew. First difference: {differs:?}");
}

#[test]
fn every_example_on_the_page_can_be_read() {
    let page = page::write();
    let mut seen = 0;
    for example in fenced(&page).into_iter().chain(cells(&page)) {
        let tree = parse(&example);
        assert!(tree.problems.is_empty() && tree.lost.is_empty(), "{example}\n{:#?}", tree.problems);
        assert!(!tree.items.is_empty(), "{example}");
        seen += 1;
    }
    let blocks = finwright_grammar::vocabulary::BLOCKS;
    assert!(seen > blocks.len() + blocks.iter().map(|b| b.fields.len()).sum::<usize>(), "{seen} examples");
}

/// The page's blocks of code.
fn fenced(page: &str) -> Vec<String> {
    page.split("```finw\n").skip(1).map(|rest| rest.split("```").next().unwrap().to_string()).collect()
}

/// The examples in tables of fields: the last cell.
fn cells(page: &str) -> Vec<String> {
    page.lines()
        .filter(|line| line.starts_with("| `") && line.ends_with("` |"))
        .filter_map(|line| line.rsplit(" | ").next()?.strip_prefix('`')?.strip_suffix("` |").map(str::to_string))
        .filter(|cell| cell.contains(": "))
        .collect()
}
