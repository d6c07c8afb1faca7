//! Which findings are only about what isn't finished: a block that is open at the end of the text, a field without its
//! value yet. They count like all others, since the file can't be flown by as it is; an editor shows them more quietly,
//! because whoever types knows.

use crate::finding::Finding;
use crate::rules::words::{MISSING_VALUE, UNCLOSED_BLOCK, UNCLOSED_LIST, UNREADABLE_LINE};
use finwright_grammar::{FileId, Item, Span, Tree};

/// Mark the findings of a file that are about what isn't finished.
pub(crate) fn mark(tree: &Tree, findings: &mut [Finding]) {
    for finding in findings.iter_mut().filter(|finding| finding.place.file == FileId(0)) {
        finding.unfinished = is_unfinished(tree, finding.rule, finding.place.span);
    }
}

fn is_unfinished(tree: &Tree, rule: &str, span: Span) -> bool {
    if rule == MISSING_VALUE.name {
        return true;
    }
    if rule == UNCLOSED_BLOCK.name {
        return is_open_at_end(&tree.items, span);
    }
    (rule == UNREADABLE_LINE.name || rule == UNCLOSED_LIST.name) && is_last_line(tree, span)
}

/// Whether the block with this header is the last thing in the text, with whatever stands in it.
fn is_open_at_end(items: &[Item], header: Span) -> bool {
    match items.last() {
        Some(Item::Block(block)) if block.header == header => block.close.is_none(),
        Some(Item::Block(block)) => block.close.is_none() && is_open_at_end(&block.items, header),
        _ => false,
    }
}

/// Whether nothing is written behind the line of a span but remarks.
fn is_last_line(tree: &Tree, span: Span) -> bool {
    let next = tree.lines.line_of(span.range().end) + 1;
    (next..tree.lines.count()).all(|line| {
        let text = tree.text(tree.lines.span(line)).trim();
        text.is_empty() || text.starts_with('#')
    })
}
