//! Plain lines are read by hand, all others by the grammar: both ways give the same tree of any text.
#![allow(clippy::unwrap_used)]

use crate::common::{designs, soup};
use finwright_grammar::{parse, parse_by_grammar};
use proptest::prelude::*;
use proptest::sample::Index;
use std::collections::BTreeSet;

#[track_caller]
fn check(text: &str) {
    let (quick, strict) = (parse(text), parse_by_grammar(text));
    // What is no number (`0/0 mm`) isn't equal to itself, but is written alike.
    let alike = quick.items == strict.items || format!("{:?}", quick.items) == format!("{:?}", strict.items);
    assert!(alike, "{text:?}: {:#?}, and by the grammar {:#?}", quick.items, strict.items);
    assert_eq!(quick.problems, strict.problems, "{text:?}");
    assert_eq!(quick.comments, strict.comments, "{text:?}");
    assert_eq!(quick.lost, strict.lost, "{text:?}");
}

#[test]
fn of_every_design_good_and_bad() {
    for (_, text) in designs() {
        check(&text);
    }
}

#[test]
fn of_every_design_without_one_of_its_lines() {
    for (_, text) in designs() {
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        for missing in 0..lines.len() {
            check(&[&lines[..missing], &lines[missing + 1..]].concat().concat());
        }
    }
}

/// What may stand on a line in places where the two ways could part: signs, letters that aren't plain, words that mean
/// something, and starts of all that.
const PUT: &[&str] = &[
    " ",
    "  ",
    "\t",
    "\u{A0}",
    ";",
    "{",
    "}",
    "[",
    "]",
    "(",
    ")",
    ":",
    ",",
    "#",
    "\"",
    "+",
    "-",
    "−",
    "*",
    "/",
    "±",
    "+/-",
    "=",
    ".",
    "·",
    "^2",
    "²",
    "³",
    "⁴",
    "°",
    "°C",
    "%",
    "µ",
    "μ",
    "0",
    "7",
    ".5",
    "1/2",
    "1 1/2",
    "e",
    "e3",
    "E-2",
    "f",
    "a",
    "b",
    "x",
    "_",
    "é",
    "from ",
    "from",
    " of ",
    "ahead ",
    "at ",
    "above ",
    "like ",
    "let ",
    "use ",
    "finwright ",
    "file ",
    "min(",
    "\u{FEFF}",
    "\u{B}",
    "\u{2028}",
    "\0",
    "🚀",
];

/// Every line of the designs once.
fn lines() -> Vec<String> {
    let texts = designs();
    let lines: BTreeSet<&str> = texts.iter().flat_map(|(_, text)| text.lines()).collect();
    lines.into_iter().map(str::to_string).collect()
}

#[test]
fn of_every_line_with_a_sign_taken_out_or_swapped() {
    for line in lines() {
        let signs: Vec<char> = line.chars().collect();
        for at in 0..signs.len() {
            let mut less = signs.clone();
            let gone = less.remove(at);
            check(&less.iter().collect::<String>());
            less.insert((at + 1).min(less.len()), gone);
            check(&less.iter().collect::<String>());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn of_any_text(text in soup()) {
        check(&text);
    }

    #[test]
    fn of_lines_with_something_put_in(
        line in proptest::sample::select(lines()),
        all in proptest::collection::vec((any::<Index>(), 0usize..3, proptest::sample::select(PUT)), 1..4),
    ) {
        let mut text = line;
        for (place, gone, put) in all {
            let places: Vec<usize> = text.char_indices().map(|(at, _)| at).chain([text.len()]).collect();
            let start = place.index(places.len());
            let end = (start + gone).min(places.len() - 1);
            text.replace_range(places[start]..places[end], put);
            check(&text);
        }
    }

    #[test]
    fn of_lines_spliced_from_two(
        parts in proptest::collection::vec((proptest::sample::select(lines()), any::<Index>()), 2..5),
        between in proptest::sample::select(vec!["", " ", "; ", "\n", ", ", "}"]),
    ) {
        let heads = parts.iter().map(|(line, at)| {
            let places: Vec<usize> = line.char_indices().map(|(at, _)| at).chain([line.len()]).collect();
            line.split_at(places[at.index(places.len())])
        });
        let text: Vec<&str> =
            heads.enumerate().map(|(number, (head, tail))| if number % 2 == 0 { head } else { tail }).collect();
        check(&text.join(between));
    }

    #[test]
    fn of_lines_made_of_words_and_signs(parts in proptest::collection::vec(proptest::sample::select(words()), 1..14)) {
        check(&parts.concat());
    }
}

/// Words and signs of the language, some with the blank that often follows.
fn words() -> Vec<String> {
    let own = [
        "tube",
        "body ",
        "lug ",
        "rear",
        "like ",
        "a: ",
        "length: ",
        "at: ",
        "12",
        "3.5 ",
        "mm",
        " mm ",
        "g",
        "kg/m3",
        "N ",
        "from ",
        "front",
        "ahead ",
        "behind ",
        "of ",
        "balance",
        "above ",
        "ground",
        "after ",
        "top",
        "at ",
        "power ",
        "file ",
        "\"d.csv\"",
        "0 s: ",
        "2 N",
        "let ",
        "x ",
        "= ",
        "use ",
        "finwright ",
        "1",
        "min(",
        "sqrt (",
        "body.length",
        "fr",
        "ah",
        "be",
        "f",
        "a",
    ];
    own.iter().chain(PUT).map(|word| word.to_string()).collect()
}

#[test]
fn of_words_that_are_said_with_more_than_themselves() {
    for line in [
        "curve: + file \"a\"",
        "curve: (file) \"a\"",
        "shape: + power 1",
        "shape: (power) 1 1/2",
        "a: at +3",
        "2-3: 5 mm",
    ] {
        check(line);
        check(&format!("curve: [\n{line}\n]"));
    }
}

#[test]
fn of_a_number_to_its_last_bit() {
    for number in [
        "0/0",
        "0.1",
        "3.",
        ".7",
        "41.6",
        "123456789012345",
        "1234567890.12345",
        "12345678901234.5",
        "0.00000000000001",
        "1e22",
        "1.5E-3",
        "1/8",
        "007",
    ] {
        let text = format!("length: {number} mm");
        check(&text);
        assert!(parse(&text).problems.is_empty(), "{text}");
    }
}
