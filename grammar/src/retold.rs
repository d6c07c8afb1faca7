//! An edit inside a comment: nothing changes by it but where things stand.

use crate::line_index::LineIndex;
use crate::shift::Shift;
use crate::span::Span;
use crate::tree::Tree;
use std::sync::Arc;

/// A text that differs from a tree's in the words of one comment, as [`retold`] finds it.
#[derive(Clone, Debug, PartialEq)]
pub struct Retold {
    /// The comment before.
    pub before: Span,
    /// The comment now.
    pub now: Span,
    /// The end of what changed, before.
    until: u32,
    /// By how many bytes what follows is moved.
    by: i64,
}

/// What a text changed, if that lies inside of one comment, on its line, and the file could be read throughout. Whether
/// the comment's words mean something is for others to say.
pub fn retold(tree: &Tree, text: &str) -> Option<Retold> {
    if !tree.problems.is_empty() || !tree.lost.is_empty() {
        return None;
    }
    let (old, new) = (tree.text.as_bytes(), text.as_bytes());
    let first = alike(old, new);
    let last = alike_at_the_end(old.get(first..)?, new.get(first..)?);
    let until = old.len() - last;
    let written = new.get(first..new.len() - last)?;
    let at = tree.comments.partition_point(|comment| (comment.start as usize) < first).checked_sub(1)?;
    let before = *tree.comments.get(at)?;
    if until > before.end as usize || written.iter().any(u8::is_ascii_control) {
        return None;
    }
    let by = new.len() as i64 - old.len() as i64;
    let now = Span { start: before.start, end: moved(before.end, by) };
    // Remarks as other languages mark them may go over several lines.
    let plain = |comment: &str| !comment.contains("/*") && !comment.contains("*/");
    let is_plain = plain(before.of(&tree.text)) && plain(now.of(text));
    is_plain.then_some(Retold { before, now, until: until as u32, by })
}

impl Retold {
    /// Where a span stands now.
    pub fn place(&self, span: Span) -> Span {
        let offset = |offset: u32| if offset >= self.until { moved(offset, self.by) } else { offset };
        Span { start: offset(span.start), end: offset(span.end) }
    }

    /// The tree of the text as it is now.
    pub fn tree(&self, tree: &Tree, text: Arc<str>) -> Tree {
        let to = |span| self.place(span);
        let (mut items, mut comments) = (tree.items.clone(), tree.comments.clone());
        items.relocate(&to);
        comments.relocate(&to);
        let lines = LineIndex::new(&text);
        Tree { text, lines, items, comments, problems: Vec::new(), lost: Vec::new() }
    }
}

fn moved(offset: u32, by: i64) -> u32 {
    (i64::from(offset) + by) as u32
}

/// How many bytes are the same from the start on.
fn alike(one: &[u8], other: &[u8]) -> usize {
    let blocks = one.chunks_exact(BLOCK).zip(other.chunks_exact(BLOCK));
    let whole = BLOCK * blocks.take_while(|(a, b)| a == b).count();
    whole + one.iter().zip(other).skip(whole).take_while(|(a, b)| a == b).count()
}

/// The same from the end on.
fn alike_at_the_end(one: &[u8], other: &[u8]) -> usize {
    let blocks = one.rchunks_exact(BLOCK).zip(other.rchunks_exact(BLOCK));
    let whole = BLOCK * blocks.take_while(|(a, b)| a == b).count();
    whole + one.iter().rev().zip(other.iter().rev()).skip(whole).take_while(|(a, b)| a == b).count()
}

/// Bytes that are compared at a time.
const BLOCK: usize = 256;
