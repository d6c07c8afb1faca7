//! Text to tree: every line to pieces, then the pieces to nested blocks.

use crate::line_index::LineIndex;
use crate::memo::read_line_again;
use crate::nest::Nest;
use crate::problem::{brace_below, remark_of_lines, without_brace, Problem};
use crate::read::{header_without_brace, LineRead};
use crate::slip;
use crate::span::Span;
use crate::tree::{Element, Item, Tree};
use crate::vocabulary;
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
    /// Rows of an open list; `closes` when its bracket follows. Where no list is open, they may be meant to be something
    /// else, with the problem to tell.
    Rows { span: Span, elements: Vec<Element>, closes: bool, meant: Option<Box<(Problem, Vec<Piece>)>> },
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
    let mut waiting: Option<Waiting> = None;
    let mut in_list = false;
    let mut remarks = Remarks::default();
    for number in 0..index.count() {
        let (content, remark) = remarks.part(text, index.content(number, text));
        let line = content.of(text);
        let told = remark.is_some();
        read.problems.extend(remark.map(|(span, meant)| remark_of_lines(span, meant)));
        let indent = line.len() - line.trim_start().len();
        if indent == line.len() {
            continue;
        }
        let mut one = read_line_again(line, content.start);
        // The remark is what is wrong with the line.
        one.problems.retain(|_| !told);
        let LineRead { mut pieces, comments, problems, lost, braceless } = one;
        read.comments.extend(comments);
        read.problems.extend(problems);
        read.lost.extend(lost);
        if let Some(above) = waiting.take() {
            above.settle(text, indent, &mut pieces, &mut read);
        }
        let header = match pieces.as_slice() {
            [Piece::Unread(_)] => braceless,
            // A block's word alone looks like a row of a list.
            [Piece::Rows { span, closes: false, .. }] if !in_list => {
                let piece = span.of(text).trim_end();
                let span = Span::new(span.start as usize, span.start as usize + piece.len());
                header_without_brace(piece, span).filter(|_| vocabulary::block(piece).is_some())
            }
            _ => None,
        };
        waiting = header.map(|header| Waiting { indent, header });
        in_list = pieces.iter().fold(in_list, leaves_list_open);
        if !pieces.is_empty() {
            read.lines.push(Line { indent, pieces });
        }
    }
    read
}

fn leaves_list_open(open: bool, piece: &Piece) -> bool {
    match piece {
        Piece::Statement { opens, .. } => *opens,
        Piece::Rows { closes, .. } => open && !closes,
        _ => false,
    }
}

/// A line that is a block's first line but for its brace, if what follows says so.
struct Waiting {
    indent: usize,
    header: Piece,
}

impl Waiting {
    /// Open the block where deeper lines follow, or where its brace stands below it.
    fn settle(self, text: &str, indent: usize, pieces: &mut Vec<Piece>, read: &mut Lines) {
        let at = self.header.span();
        let problem = match pieces.first() {
            Some(Piece::Brace(brace)) => {
                let gap = Span { start: at.end, end: brace.start };
                let problem = brace_below((at.of(text), at), gap.of(text), *brace);
                pieces.remove(0);
                problem
            }
            _ if indent > self.indent => without_brace(at.of(text), at, " {"),
            _ => return,
        };
        read.problems.retain(|told| told.span != at);
        read.problems.push(problem);
        read.lost.retain(|span| *span != at);
        // The line was taken for something else.
        read.lines.pop();
        read.lines.push(Line { indent: self.indent, pieces: vec![self.header] });
    }
}

/// Remarks between `/*` and `*/` that go over several lines.
#[derive(Default)]
pub(crate) struct Remarks {
    /// Where the last one ends.
    end: u32,
    /// Whether no other one ends further down.
    no_more: bool,
}

impl Remarks {
    /// What of the next line isn't in such a remark, and the one that starts on it, with how it's meant to be written.
    pub fn part(&mut self, text: &str, line: Span) -> (Span, Option<(Span, String)>) {
        let line = Span { start: line.start.max(self.end.min(line.end)), end: line.end };
        if self.no_more
            || !line.of(text).contains("/*")
            || read_line_again(line.of(text), line.start).problems.is_empty()
        {
            return (line, None);
        }
        let Some((range, meant)) = slip::block_remark(text, line.range()) else {
            self.no_more = !text.get(line.range().end..).is_some_and(|rest| rest.contains("*/"));
            return (line, None);
        };
        self.end = range.end as u32;
        let remark = Span::new(range.start, range.end);
        (Span { end: remark.start, ..line }, Some((remark, meant)))
    }
}
