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

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// A long text in an editor, which two threads read, gives the same as line by line: whatever stands in the middle,
    /// where the one begins, and among the lines that it reads ahead.
    #[test]
    fn long_texts_are_read_alike(
        strange in proptest::collection::vec(piece(), 1..40),
        at in proptest::collection::vec(0_usize..2400, 1..12),
        list in any::<bool>(),
    ) {
        let mut lines = vec!["  0.1 s: 12 N, # a row".to_string(); 2400];
        if !list {
            for (number, line) in lines.iter_mut().enumerate() {
                *line = ["tube body {", "  length: 300 mm; outer: 25 mm", "", "}"][number % 4].to_string();
            }
        } else {
            lines[0] = "motor a { curve: [".to_string();
        }
        let piece = strange.concat();
        at.into_iter().chain([1078, 1080, 1081]).for_each(|line| lines[line].push_str(&piece));
        let text = lines.join("\n");
        let tree = parse(&text);
        let editor = std::thread::spawn({
            let text = text.clone();
            move || {
                finwright_grammar::remember_lines();
                let tree = parse(&text);
                (tree.items, tree.problems, tree.comments, tree.lost)
            }
        });
        let read = editor.join().map_err(|_| TestCaseError::fail("the editor's thread panicked"))?;
        prop_assert_eq!(read, (tree.items, tree.problems, tree.comments, tree.lost));
    }
}
