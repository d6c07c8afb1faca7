//! Whatever is being typed, the parser keeps every byte, speaks once a damaged line at most, and leaves the rest alone.
#![allow(clippy::unwrap_used)]

use finwright_grammar::{format, parse, Block, Item, Span, Tree, LARGEST_FILE};
use std::collections::BTreeSet;
use std::path::PathBuf;

fn examples() -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../tests/designs/good");
    let mut found: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.extension().is_some_and(|e| e == "finw"))
        .map(|p| (p.file_name().unwrap().to_string_lossy().into_owned(), std::fs::read_to_string(p).unwrap()))
        .collect();
    found.sort();
    assert!(found.len() >= 4);
    found
}

/// Every span lies in the text on character borders, inner ones inside outer ones, siblings in order without overlap;
/// and what no item, comment or problem covers is white space, separators and brackets.
fn check_tree(tree: &Tree) {
    let text = &tree.text;
    let covered: usize = (0..tree.lines.count()).map(|n| tree.lines.span(n).len()).sum();
    assert_eq!(covered, text.len(), "the lines give the text back");
    check_items(tree, &tree.items, Span::new(0, text.len()));
    for problem in &tree.problems {
        assert!(text.get(problem.span.range()).is_some(), "{problem:?}");
        assert!(!problem.message.is_empty() && !problem.help.is_empty());
    }
    let lines: Vec<usize> = tree.problems.iter().map(|p| tree.lines.line_of(p.span.start as usize)).collect();
    let once: BTreeSet<usize> = lines.iter().copied().collect();
    assert_eq!(once.len(), lines.len(), "one problem a line: {:#?}", tree.problems);
}

fn check_items(tree: &Tree, items: &[Item], outer: Span) {
    let mut end = outer.start;
    for item in items {
        let span = item.span();
        assert!(tree.text.get(span.range()).is_some(), "{item:?}");
        assert!(end <= span.start && span.end <= outer.end, "{span:?} in {outer:?} after {end}: {item:?}");
        end = span.end;
        if let Item::Block(block) = item {
            check_items(tree, &block.items, span);
        }
    }
}

/// A tree's statements as text, each with its chain of blocks, so that trees can be compared.
fn facts(tree: &Tree) -> Vec<String> {
    fn walk(tree: &Tree, items: &[Item], chain: &str, out: &mut Vec<String>) {
        for item in items {
            match item {
                Item::Block(block) => walk(tree, &block.items, &format!("{chain}/{}", header(tree, block)), out),
                other => out.push(format!("{chain}: {}", tree.text(other.span()))),
            }
        }
    }
    fn header(tree: &Tree, block: &Block) -> String {
        tree.text(block.header).to_string()
    }
    let mut out = Vec::new();
    walk(tree, &tree.items, "", &mut out);
    out
}

#[test]
fn the_examples_are_read_without_a_problem() {
    for (name, text) in examples() {
        let tree = parse(&text);
        check_tree(&tree);
        assert!(tree.problems.is_empty() && tree.lost.is_empty(), "{name}: {:#?}", tree.problems);
    }
}

#[test]
fn every_prefix_of_every_example() {
    for (_, text) in examples() {
        for (at, _) in text.char_indices() {
            check_tree(&parse(&text[..at]));
        }
    }
}

#[test]
fn every_example_without_one_of_its_lines() {
    for (name, text) in examples() {
        let whole = facts(&parse(&text));
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        for missing in 0..lines.len() {
            let damaged: String = lines.iter().enumerate().filter(|(i, _)| *i != missing).map(|(_, l)| *l).collect();
            let tree = parse(&damaged);
            check_tree(&tree);
            let line = lines[missing].trim();
            let left = facts(&tree);
            // A missing header takes the lines of its block with it; anything else takes only what stands on it.
            let header = line.split('{').next().filter(|_| line.contains('{')).map(|h| format!("/{}", h.trim()));
            let gone: Vec<&String> = whole
                .iter()
                .filter(|fact| !left.contains(fact))
                .filter(|fact| !line.contains(fact.split_once(": ").map_or("", |f| f.1)))
                .filter(|fact| !header.as_ref().is_some_and(|h| fact.contains(h.as_str())))
                .filter(|fact| !fact.contains("curve: ["))
                .collect();
            assert!(gone.is_empty(), "{name} without line {}: `{line}` lost {gone:#?}", missing + 1);
            assert!(tree.problems.len() <= 1, "{name} without line {}: `{line}`: {:#?}", missing + 1, tree.problems);
        }
    }
}

#[test]
fn every_example_without_one_of_its_words_or_signs() {
    for (name, text) in examples() {
        let whole = facts(&parse(&text));
        for token in tokens(&text) {
            let damaged = format!("{}{}", &text[..token.start], &text[token.end..]);
            let tree = parse(&damaged);
            check_tree(&tree);
            let left = facts(&tree);
            let line_start = text[..token.start].rfind('\n').map_or(0, |i| i + 1);
            let line = text[line_start..].lines().next().unwrap();
            let told = tree.problems.len();
            assert!(told <= 2, "{name} without `{}` in `{line}`: {:#?}", &text[token.clone()], tree.problems);
            // Facts of other lines stay, unless their block's header is what was damaged.
            let header = line.trim().trim_end_matches(['{', ' ']);
            let gone = whole
                .iter()
                .filter(|fact| !left.contains(fact) && !line.contains(fact.rsplit(": ").next().unwrap()))
                .filter(|fact| !(line.contains('{') && fact.contains(header)))
                .filter(|fact| !fact.contains("curve: ["))
                .count();
            let is_brace = matches!(&text[token.clone()], "{" | "}");
            assert!(
                gone == 0 || is_brace || line.contains('{'),
                "{name} without `{}` in `{line}` lost {gone} facts of other lines",
                &text[token.clone()]
            );
        }
    }
}

/// Words, numbers, strings and single signs outside of comments.
fn tokens(text: &str) -> Vec<std::ops::Range<usize>> {
    let mut found: Vec<std::ops::Range<usize>> = Vec::new();
    let mut offset = 0;
    for line in text.split_inclusive('\n') {
        let code = line.split('#').next().unwrap();
        let mut chars = code.char_indices().peekable();
        while let Some((start, c)) = chars.next() {
            if c.is_whitespace() {
                continue;
            }
            let word = |c: char| c.is_alphanumeric() || c == '_' || c == '.';
            let mut end = start + c.len_utf8();
            if word(c) {
                while let Some((i, c)) = chars.next_if(|(_, c)| word(*c)) {
                    end = i + c.len_utf8();
                }
            }
            found.push(offset + start..offset + end);
        }
        offset += line.len();
    }
    found
}

#[test]
fn newlines_are_these_three_and_no_others() {
    let text = "a: 1\r\nb: 2\nc: 3\rd: 4\u{2028}e: 5\u{0B}";
    assert_eq!(parse(text).lines.count(), 4);
}

#[test]
fn deep_and_long_lines_are_bounded() {
    for text in [
        "{".repeat(10_000),
        "}".repeat(10_000),
        "tube {\n".repeat(10_000),
        format!("let x = {}1 mm{}", "(".repeat(10_000), ")".repeat(10_000)),
        format!("let x = {}", "[".repeat(10_000)),
        format!("let x = {}1 mm", "-".repeat(100_000)),
        format!("let x = 1 mm{}", " + 1 mm".repeat(20_000)),
        format!("a: {}", "x.".repeat(20_000)),
        format!("a: {}", "\"".repeat(20_001)),
    ] {
        check_tree(&parse(&text));
    }
}

#[test]
fn a_file_above_one_megabyte_is_told_in_one_line_and_not_read() {
    let largest = "# a remark\n".repeat(LARGEST_FILE / 11) + "#";
    let within = &largest[..LARGEST_FILE.min(largest.len())];
    assert!(parse(within).problems.is_empty() && !parse(within).comments.is_empty());

    let beyond = format!("tube body {{\n{largest}\n{largest}");
    let tree = parse(&beyond);
    check_tree(&tree);
    assert!(tree.items.is_empty() && tree.comments.is_empty());
    let told: Vec<(&str, &str)> = tree.problems.iter().map(|p| (tree.text(p.span), p.message.as_str())).collect();
    assert_eq!(told, [("tube body {", "this file has 2.0 MB, and more than 1 MB isn't read")]);
    assert_eq!(format(&beyond), beyond, "what isn't read isn't laid out");
}
