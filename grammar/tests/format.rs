//! The formatter: what it makes of a text, and what it never does to one.
#![allow(clippy::unwrap_used)]

use crate::common::{comments, examples, facts, soup};
use finwright_grammar::{format, parse};
use proptest::prelude::*;
use std::ops::Range;
use std::path::PathBuf;

/// Every `tests/layout/*.in.finw` comes out as the `*.out.finw` beside it; `FINWRIGHT_UPDATE=1` writes that one anew.
#[test]
fn texts_come_out_as_shown() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/layout");
    let mut seen = 0;
    for entry in std::fs::read_dir(&folder).unwrap() {
        let given = entry.unwrap().path();
        let name = given.file_name().unwrap().to_string_lossy().into_owned();
        let Some(stem) = name.strip_suffix(".in.finw") else { continue };
        let text = std::fs::read_to_string(&given).unwrap();
        let wanted = folder.join(format!("{stem}.out.finw"));
        let out = format(&text);
        if std::env::var_os("FINWRIGHT_UPDATE").is_some() {
            std::fs::write(&wanted, &out).unwrap();
        }
        assert_eq!(out, std::fs::read_to_string(&wanted).unwrap(), "{name}");
        check(&text);
        seen += 1;
    }
    assert!(seen >= 5);
}

#[test]
fn newlines_follow_the_first_one() {
    assert_eq!(format("a: 1\r\nb:2\nc: 3"), "a: 1\r\nb: 2\r\nc: 3\r\n");
    assert_eq!(format("a: 1\rb:2\r\nc: 3"), "a: 1\rb: 2\rc: 3\r");
    assert_eq!(format("a: 1\nb:2\r\nc: 3"), "a: 1\nb: 2\nc: 3\n");
}

#[test]
fn a_byte_order_mark_stays_and_no_other_is_made_up() {
    assert_eq!(format("\u{FEFF}  a :1"), "\u{FEFF}a: 1\n");
    assert_eq!(format("\u{FEFF}"), "\u{FEFF}");
    assert_eq!(format("\u{FEFF}a: $\n"), "\u{FEFF}a: $\n");
    assert_eq!(format(""), "");
    assert_eq!(format("\n\n  \n"), "");
}

#[test]
fn a_wide_letter_takes_two_columns() {
    let text = "tube 紙 { length: 1 m } # a\ntube b { length: 1 m } # b\n";
    assert_eq!(format(text), "tube 紙 { length: 1 m } # a\ntube b  { length: 1 m } # b\n");
}

#[test]
fn remark_columns_come_to_rest_in_a_damaged_file() {
    // An unclosed block and a remark left of its neighbours' column: one pass leaves the last remark short of it.
    check(concat!(
        "tube body { # right behind\n",
        "let a = 3 mm # short\n",
        "flight rod_day { motor: d9; pad: club_rod; guided_by: [rear−ront]; site: fen } # too far to the right\n",
        "                                                                                 # and on\n",
        "let b = 30 mm # short\n",
    ));
}

#[test]
fn every_prefix_of_every_example_keeps_what_it_says() {
    std::thread::scope(|scope| {
        for (_, text) in examples() {
            scope.spawn(move || telling_parts(&text).into_iter().for_each(|part| check(&text[part])));
        }
    });
}

/// The prefixes of a text that differ in more than a word's length: cut off around every sign, behind a word's or a
/// number's first letter and behind its last, and at the start of a remark. What stands before the outermost block that
/// is being typed is whole, and is kept only once a line.
fn telling_parts(text: &str) -> Vec<Range<usize>> {
    let signs: Vec<(usize, char)> = text.char_indices().collect();
    let is_of_word = |at: usize| signs.get(at).is_some_and(|(_, c)| c.is_alphanumeric() || *c == '_');
    let (mut in_remark, mut outermost) = (0, 0);
    let mut parts = Vec::new();
    for (number, (at, c)) in signs.iter().enumerate() {
        in_remark = match c {
            '\n' => 0,
            '#' => 1,
            _ if in_remark > 0 => in_remark + 1,
            _ => 0,
        };
        let starts_a_line = number == 0 || signs.get(number - 1).is_some_and(|(_, c)| *c == '\n');
        if starts_a_line && is_of_word(number) {
            outermost = *at;
        }
        let inside_a_word = number > 1 && is_of_word(number) && is_of_word(number - 1) && is_of_word(number - 2);
        if !inside_a_word && in_remark <= 4 {
            parts.push(if starts_a_line { 0..*at } else { outermost..*at });
        }
    }
    parts
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_keeps_what_it_says(text in soup()) {
        check(&text);
    }

    #[test]
    fn an_example_with_slips_keeps_what_it_says(text in with_slips()) {
        check(&text);
    }
}

/// An example with some characters put in or taken out.
fn with_slips() -> impl Strategy<Value = String> {
    let texts: Vec<String> = examples().into_iter().map(|(_, text)| text).collect();
    let slip = proptest::sample::select(vec![
        "",
        " ",
        "   ",
        "\t",
        "\u{A0}",
        "\n",
        "\n\n\n",
        "\r\n",
        ";",
        " ; ",
        "{",
        "}",
        "[",
        "]",
        "(",
        ")",
        ":",
        ",",
        "#",
        "# x\n",
        "\"",
        "-",
        "+",
        "*",
        "/",
        "±",
        "+/-",
        "tube x {\n",
        "tube x\n",
        "1",
        ".",
        "=",
        "'",
        "“",
        "”",
        " // ",
        " /* ",
        " */ ",
        " -- ",
        "\n{",
        "½",
    ]);
    let slips = proptest::collection::vec((any::<proptest::sample::Index>(), 0usize..3, slip), 0..12);
    (proptest::sample::select(texts), slips).prop_map(|(mut text, slips)| {
        for (place, gone, put) in slips {
            let places: Vec<usize> = text.char_indices().map(|(at, _)| at).chain([text.len()]).collect();
            let start = place.index(places.len());
            let end = (start + gone).min(places.len() - 1);
            text.replace_range(places[start]..places[end], put);
        }
        text
    })
}

/// Formatting again changes nothing; the design, the comments, the problems and what each line says stay.
fn check(text: &str) {
    let out = format(text);
    assert_eq!(format(&out), out, "formatted twice: {text:?}");
    let (before, after) = (parse(text), parse(&out));
    assert_eq!(facts(&before), facts(&after), "what {text:?} says, and {out:?}");
    assert_eq!(comments(&before), comments(&after), "the comments of {text:?}");
    let told = |tree: &finwright_grammar::Tree| -> Vec<String> {
        tree.problems.iter().map(|p| format!("{} {}", p.rule, p.message)).collect()
    };
    assert_eq!(told(&before), told(&after), "the problems of {text:?} and {out:?}");
    assert_eq!(bare_lines(text), bare_lines(&out), "the lines of {text:?}");
}

/// The lines that say anything, without white space and what separates.
fn bare_lines(text: &str) -> Vec<String> {
    text.trim_start_matches('\u{FEFF}')
        .split(['\n', '\r'])
        .map(|line| {
            let bare: String = line.chars().filter(|c| !c.is_whitespace() && *c != ';').collect();
            bare.replace(",]", "]")
        })
        .filter(|line| !line.is_empty())
        .collect()
}
