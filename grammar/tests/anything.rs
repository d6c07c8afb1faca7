//! Any text at all: no panic, no byte lost, spans that fit.

use finwright_grammar::{parse, vocabulary::BLOCKS};
use proptest::prelude::*;

/// Pieces that make up designs, and some that don't.
fn piece() -> impl Strategy<Value = String> {
    let words: Vec<String> = BLOCKS
        .iter()
        .map(|b| b.word.to_string())
        .chain(BLOCKS.iter().flat_map(|b| b.fields.iter().map(|f| f.word.to_string())))
        .collect();
    prop_oneof![
        proptest::sample::select(words),
        proptest::sample::select(vec![
            "{",
            "}",
            "[",
            "]",
            "(",
            ")",
            ":",
            ";",
            ",",
            "\n",
            "\r\n",
            "\r",
            " ",
            "\t",
            "#",
            "\"",
            "+",
            "-",
            "*",
            "/",
            "±",
            "+/-",
            "=",
            ".",
            "1",
            "2.5",
            "1/8",
            "1 1/2",
            "mm",
            "kg/m3",
            "°C",
            "%",
            "from",
            "ahead of",
            "balance",
            "let x = ",
            "use \"a\"",
            "finwright 1",
            "é",
            "🚀",
            "\u{FEFF}",
            "\0",
        ])
        .prop_map(str::to_string),
        any::<String>().prop_map(|s| s.chars().take(6).collect()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_is_too_strange(pieces in proptest::collection::vec(piece(), 0..60)) {
        let text = pieces.concat();
        let tree = parse(&text);
        prop_assert_eq!(&*tree.text, text.as_str());
        let lines: usize = (0..tree.lines.count()).map(|n| tree.lines.span(n).len()).sum();
        prop_assert_eq!(lines, text.len());
        for problem in &tree.problems {
            prop_assert!(text.get(problem.span.range()).is_some(), "{:?}", problem);
        }
        for item in &tree.items {
            prop_assert!(text.get(item.span().range()).is_some(), "{:?}", item);
        }
    }
}
