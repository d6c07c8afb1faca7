//! Any text is parsed: no byte lost, every span in the text and in its place.
#![no_main]

use finwright_grammar::{parse, Item, Span, Tree};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let tree = parse(text);
    let lines: usize = (0..tree.lines.count()).map(|number| tree.lines.span(number).len()).sum();
    assert_eq!(lines, text.len());
    check(&tree, &tree.items, Span::new(0, text.len()));
    for span in tree
        .comments
        .iter()
        .copied()
        .chain(tree.problems.iter().map(|problem| problem.span))
        .chain(tree.lost.iter().copied())
    {
        assert!(text.get(span.range()).is_some(), "{span:?}");
    }
});

/// Items in order, without overlap, inside what they stand in.
fn check(tree: &Tree, items: &[Item], outer: Span) {
    let mut end = outer.start;
    for item in items {
        let span = item.span();
        assert!(tree.text.get(span.range()).is_some(), "{item:?}");
        assert!(end <= span.start && span.end <= outer.end, "{span:?} in {outer:?} after {end}");
        end = span.end;
        if let Item::Block(block) = item {
            check(tree, &block.items, span);
        }
    }
}
