//! Text to tree: every line to pieces, then the pieces to nested blocks.

use crate::line_index::LineIndex;
use crate::memo::read_line_again;
use crate::nest::Nest;
use crate::problem::Problem;
use crate::read::LineRead;
use crate::span::Span;
use crate::tree::{Element, Item, Tree};
use std::sync::Arc;

/// Parse a file's text. This never fails; what can't be read stands in the tree's problems.
pub fn parse(text: &str) -> Tree {
    parse_shared(Arc::from(text))
}

/// [`parse`] for a text that is shared already.
pub fn parse_shared(text: Arc<str>) -> Tree {
    let lines = LineIndex::new(&text);
    let read = read_lines(&text, &lines);
    // Where a brace is missing or left over, the indentation tells where, if the file has any.
    let by_indent = !is_balanced(&read.lines);
    let (items, mut problems) = Nest::build(read.lines, by_indent);
    problems.extend(read.problems);
    problems.sort_by_key(|p| (p.span.start, p.span.end));
    // One mistake can show twice on its line (a broken field and its stray brace); the first tells enough.
    problems.dedup_by_key(|p| lines.line_of(p.span.start as usize));
    let mut lost = read.lost;
    collect_lost(&items, &mut lost);
    Tree { text, lines, items, comments: read.comments, problems, lost }
}

/// Whether every brace has its partner.
fn is_balanced(lines: &[Line]) -> bool {
    let mut depth = 0usize;
    for piece in lines.iter().flat_map(|line| &line.pieces) {
        match piece {
            Piece::Header { .. } | Piece::Brace(_) => depth += 1,
            Piece::Close(_) if depth == 0 => return false,
            Piece::Close(_) => depth -= 1,
            _ => {}
        }
    }
    depth == 0
}

/// A piece of a line, ready for nesting.
#[derive(Clone, Debug)]
pub(crate) enum Piece {
    /// `word name "title" {`.
    Header { span: Span, word: Span, name: Option<Span>, like: Option<Span>, title: Option<Span> },
    /// `}`.
    Close(Span),
    /// `{` without a header.
    Brace(Span),
    /// A statement; `opens` is set when it leaves a list open for the lines that follow.
    Statement { item: Item, opens: bool },
    /// Rows of an open list; `closes` when its bracket follows.
    Rows { span: Span, elements: Vec<Element>, closes: bool },
    /// `]` by itself.
    ListEnd(Span),
    /// Something that couldn't be read, and has been told.
    Unread(Span),
}

impl Piece {
    /// The place of the piece.
    pub fn span(&self) -> Span {
        match self {
            Piece::Header { span, .. } | Piece::Close(span) | Piece::Brace(span) => *span,
            Piece::Rows { span, .. } | Piece::ListEnd(span) | Piece::Unread(span) => *span,
            Piece::Statement { item, .. } => item.span(),
        }
    }
}

/// A line that has anything on it.
pub(crate) struct Line {
    /// Width of the white space before its first piece.
    pub indent: usize,
    /// Its pieces.
    pub pieces: Vec<Piece>,
}

/// All lines of a file.
pub(crate) struct Lines {
    pub lines: Vec<Line>,
    pub comments: Vec<Span>,
    pub problems: Vec<Problem>,
    /// Pieces of which not even the kind is known.
    pub lost: Vec<Span>,
}

/// Blocks without a first line are lost too.
fn collect_lost(items: &[Item], lost: &mut Vec<Span>) {
    for item in items {
        if let Item::Block(block) = item {
            if block.word.is_empty() {
                lost.push(block.span);
            }
            collect_lost(&block.items, lost);
        }
    }
}

fn read_lines(text: &str, index: &LineIndex) -> Lines {
    let mut read = Lines {
        lines: Vec::with_capacity(index.count()),
        comments: Vec::new(),
        problems: Vec::new(),
        lost: Vec::new(),
    };
    let mut waiting: Option<(usize, Piece)> = None;
    for number in 0..index.count() {
        let content = index.content(number, text);
        let line = content.of(text);
        let indent = line.len() - line.trim_start().len();
        if indent == line.len() {
            continue;
        }
        let LineRead { pieces, comments, problems, lost, braceless } = read_line_again(line, content.start);
        read.comments.extend(comments);
        read.problems.extend(problems);
        read.lost.extend(lost);
        // A block's first line that lacks only its brace still opens its block, when deeper lines follow it.
        if let Some((above, header)) = waiting.take() {
            if indent > above {
                let at = header.span();
                read.lost.retain(|span| *span != at);
                read.lines.push(Line { indent: above, pieces: vec![header] });
            }
        }
        let alone = matches!(pieces.as_slice(), [Piece::Unread(_)]);
        waiting = braceless.filter(|_| alone).map(|header| (indent, header));
        if !pieces.is_empty() {
            read.lines.push(Line { indent, pieces });
        }
    }
    read
}
