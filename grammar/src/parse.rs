//! Text to tree: every line to pieces, then the pieces to nested blocks.

use crate::ahead::{Ahead, Known};
use crate::line::{Line, LineRead};
use crate::line_index::LineIndex;
use crate::memo::{read_line_again, remembers};
use crate::nest::Nest;
use crate::piece::Piece;
use crate::plain::read_plain;
use crate::problem::Problem;
use crate::remarks::Remarks;
use crate::sound::header_without_brace;
use crate::span::Span;
use crate::tree::{Item, Tree};
use crate::unsound::{brace_below, remark_of_lines, too_large, without_brace};
use crate::vocabulary;
use std::panic::resume_unwind;
use std::sync::Arc;
use std::thread::scope;

/// A file of more bytes isn't read: no design comes near it, and a wrong file would hold up an editor.
pub const LARGEST_FILE: usize = 1_000_000;

/// Parse a file's text. This never fails; what can't be read stands in the tree's problems.
pub fn parse(text: &str) -> Tree {
    parse_shared(Arc::from(text))
}

/// [`parse`] for a text that is shared already.
pub fn parse_shared(text: Arc<str>) -> Tree {
    parse_by(text, Way::PlainFirst)
}

/// [`parse`] by the grammar alone: many times slower, with the same tree, which is how the quicker way is held to it.
pub fn parse_by_grammar(text: &str) -> Tree {
    parse_by(Arc::from(text), Way::Grammar)
}

/// How lines are read.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    /// Plain lines by hand, all others by the grammar.
    PlainFirst,
    /// All lines by the grammar.
    Grammar,
}

fn parse_by(text: Arc<str>, way: Way) -> Tree {
    let lines = LineIndex::new(&text);
    if text.len() > LARGEST_FILE {
        let problems = vec![too_large(&text, lines.content(0, &text))];
        let lost = vec![Span::new(0, text.len())];
        return Tree { text, lines, items: Vec::new(), comments: Vec::new(), problems, lost };
    }
    let read = read_lines(&text, &lines, way);
    // Where a brace is missing or left over, the indentation tells where, if the file has any.
    let by_indent = !is_balanced(&read.pieces);
    let (items, mut problems) = Nest::build(&read.lines, read.pieces, by_indent);
    problems.extend(read.problems);
    problems.sort_by_key(|p| (p.span.start, p.span.end));
    // One mistake can show twice on its line (a broken field and its stray brace); the first tells enough.
    problems.dedup_by_key(|p| lines.line_of(p.span.start as usize));
    let mut lost = read.lost;
    collect_lost(&items, &mut lost);
    Tree { text, lines, items, comments: read.comments, problems, lost }
}

/// Whether every brace has its partner.
fn is_balanced(pieces: &[Piece]) -> bool {
    let mut depth = 0usize;
    for piece in pieces {
        match piece {
            Piece::Header { .. } | Piece::Brace(_) => depth += 1,
            Piece::Close(_) if depth == 0 => return false,
            Piece::Close(_) => depth -= 1,
            _ => {}
        }
    }
    depth == 0
}

/// All lines of a file.
pub(crate) struct Lines {
    /// The lines with anything on them.
    pub lines: Vec<Line>,
    /// The pieces of all lines, in order.
    pub pieces: Vec<Piece>,
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

fn read_lines(text: &str, index: &LineIndex, way: Way) -> Lines {
    let count = index.count();
    let mut reading = Reading::of(text, index, way);
    if way == Way::Grammar || count < MANY_LINES || !remembers() || !reading.remarks.are_none() {
        (0..count).for_each(|number| reading.line(number, None));
        return reading.read;
    }
    // An editor's file is read again at every letter. What a plain line says hangs on no other line, so that another
    // thread can look ahead. It gets the larger half: its lines need only be put to the others then.
    let middle = count * 9 / 20;
    scope(|scope| {
        let helper = scope.spawn(move || Ahead::from(text, index, middle));
        (0..middle).for_each(|number| reading.line(number, None));
        let mut ahead = helper.join().unwrap_or_else(|panic| resume_unwind(panic));
        (middle..count).for_each(|number| reading.line(number, ahead.next()));
    });
    reading.read
}

/// Fewer aren't worth another thread.
const MANY_LINES: usize = 1000;

/// Lines under way.
struct Reading<'t> {
    text: &'t str,
    index: &'t LineIndex,
    way: Way,
    read: Lines,
    waiting: Option<Waiting>,
    in_list: bool,
    remarks: Remarks,
}

impl<'t> Reading<'t> {
    fn of(text: &'t str, index: &'t LineIndex, way: Way) -> Self {
        let read = Lines {
            lines: Vec::with_capacity(index.count()),
            pieces: Vec::with_capacity(text.len() / BYTES_OF_A_PIECE),
            comments: Vec::new(),
            problems: Vec::new(),
            lost: Vec::new(),
        };
        Self { text, index, way, read, waiting: None, in_list: false, remarks: Remarks::of(text) }
    }

    /// Reads the next line, unless its plain pieces are `known`.
    fn line(&mut self, number: usize, known: Option<Known>) {
        let Self { text, read, .. } = self;
        let (content, remark) = self.remarks.part(text, self.index.content(number, text));
        let line = content.of(text);
        let told = remark.is_some();
        read.problems.extend(remark.map(|(span, meant)| remark_of_lines(span, meant)));
        let Some(indent) = indentation(line) else { return };
        let first = read.pieces.len();
        // Settling the line above takes one of each away at most.
        let (problems, lost) = (read.problems.len().saturating_sub(1), read.lost.len().saturating_sub(1));
        let braceless = match known {
            Some(known) => read.take_known(known),
            None => read.take_line(line, content.start, told, self.way),
        };
        if let Some(above) = self.waiting.take() {
            above.settle(text, indent, first, read);
        }
        let pieces = read.pieces.get(first..).unwrap_or_default();
        let header = match pieces {
            [Piece::Unread(_)] => braceless,
            // A block's word alone looks like a row of a list.
            [Piece::Rows { span, closes: false, .. }] if !self.in_list => {
                let piece = span.of(text).trim_end();
                let span = Span::new(span.start as usize, span.start as usize + piece.len());
                vocabulary::block(piece).and_then(|_| header_without_brace(piece, span)).map(Box::new)
            }
            _ => None,
        };
        self.waiting = header.map(|header| Waiting { indent, header, problems, lost });
        self.in_list = pieces.iter().fold(self.in_list, leaves_list_open);
        if !pieces.is_empty() {
            read.lines.push(Line { indent, end: read.pieces.len() });
        }
    }
}

/// About how much of a text is one piece.
const BYTES_OF_A_PIECE: usize = 20;

/// How far a line is indented; `None` for one with nothing on it.
fn indentation(line: &str) -> Option<usize> {
    let blanks = line.bytes().take_while(|byte| matches!(byte, b' ' | b'\t')).count();
    if line.as_bytes().get(blanks).is_some_and(u8::is_ascii_graphic) {
        return Some(blanks);
    }
    Some(line.len() - line.trim_start().len()).filter(|indent| *indent < line.len())
}

impl Lines {
    /// Take what was read ahead.
    fn take_known(&mut self, known: Known) -> Option<Box<Piece>> {
        self.pieces.extend(known.pieces);
        self.comments.extend(known.comment);
        None
    }

    /// Read a line that starts at `base`; the block's first line that it is but for a brace. Where something else is
    /// `told` of it already, its own problems aren't.
    fn take_line(&mut self, line: &str, base: u32, told: bool, way: Way) -> Option<Box<Piece>> {
        if way == Way::PlainFirst {
            if let Some(comment) = read_plain(line, base, &mut self.pieces) {
                self.comments.extend(comment);
                return None;
            }
        }
        let LineRead { pieces, comments, problems, lost, braceless } = read_line_again(line, base);
        self.pieces.extend(pieces);
        self.comments.extend(comments);
        self.problems.extend(problems.into_iter().filter(|_| !told));
        self.lost.extend(lost);
        braceless
    }
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
    header: Box<Piece>,
    /// From where on its problem stands among all, if it has one.
    problems: usize,
    /// The same among the lost pieces.
    lost: usize,
}

impl Waiting {
    /// Open the block where deeper lines follow, or where its brace stands below it. The pieces of the line below start
    /// at `first`.
    fn settle(self, text: &str, indent: usize, first: usize, read: &mut Lines) {
        let at = self.header.span();
        let problem = match read.pieces.get(first) {
            Some(Piece::Brace(brace)) => {
                let gap = Span { start: at.end, end: brace.start };
                let problem = brace_below((at.of(text), at), gap.of(text), *brace);
                read.pieces.remove(first);
                problem
            }
            _ if indent > self.indent => without_brace(at.of(text), at, " {"),
            _ => return,
        };
        let told = read.problems.split_off(self.problems.min(read.problems.len()));
        read.problems.extend(told.into_iter().filter(|told| told.span != at));
        read.problems.push(problem);
        let lost = read.lost.split_off(self.lost.min(read.lost.len()));
        read.lost.extend(lost.into_iter().filter(|span| *span != at));
        // The line, of one piece, was taken for something else.
        if let Some(taken) = first.checked_sub(1).and_then(|last| read.pieces.get_mut(last)) {
            *taken = *self.header;
        }
    }
}
