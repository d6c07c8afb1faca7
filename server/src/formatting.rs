//! `textDocument/formatting`.

use crate::view::View;
use finwright_grammar::Span;
use lsp_types::TextEdit;

/// The edits that lay the document out in the one style: each stretch of lines that changes, and nothing else, so that
/// cursors and marks elsewhere stay where they are.
pub fn answer(view: &View) -> Option<Vec<TextEdit>> {
    let text = view.analysis.as_ref().ok()?.sources.first()?.text.clone();
    let formatted = finwright_grammar::format(&text);
    let (old, new): (Vec<&str>, Vec<&str>) = (lines(&text), lines(&formatted));
    let mut before = 0;
    while before < old.len() && before < new.len() && old[before] == new[before] {
        before += 1;
    }
    let mut after = 0;
    while after < old.len() - before
        && after < new.len() - before
        && old[old.len() - 1 - after] == new[new.len() - 1 - after]
    {
        after += 1;
    }
    let length = |lines: &[&str]| lines.iter().map(|l| l.len()).sum::<usize>();
    if before == old.len() && before == new.len() {
        return Some(Vec::new());
    }
    let start = length(&old[..before]);
    let span = Span::new(start, start + length(&old[before..old.len() - after]));
    let new_text = new[before..new.len() - after].concat();
    Some(vec![TextEdit { range: view.range(span), new_text }])
}

fn lines(text: &str) -> Vec<&str> {
    text.split_inclusive('\n').collect()
}
