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
            "//",
            "/*",
            "*/",
            " -- ",
            "“",
            "”",
            "'",
            "½",
            "1,5",
            "12 mm",
            "approx",
            "the back end",
            "launch lug",
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
        // Lines that are remembered from another place in another text give the same.
        let again = std::thread::spawn({
            let text = text.clone();
            move || {
                finwright_grammar::remember_lines();
                parse(&format!("# a line before\n{text}"));
                let again = parse(&text);
                (again.items, again.problems, again.comments, again.lost)
            }
        });
        let again = again.join().map_err(|_| TestCaseError::fail("the remembering thread panicked"))?;
        prop_assert_eq!(again, (tree.items.clone(), tree.problems.clone(), tree.comments.clone(), tree.lost.clone()));
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
