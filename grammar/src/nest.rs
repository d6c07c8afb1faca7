//! Flat lines to nested blocks.
//!
//! Braces decide the nesting while they balance. Where one is missing or left over, the indentation decides instead:
//! a line that stands no deeper than an open block's header ends that block, a brace belongs to the block whose header
//! it stands under, and lines deeper than their block's own belong to a block whose header is lost.

use crate::line::Line;
use crate::piece::Piece;
use crate::problem::{Problem, STRAY_BRACE, TOO_DEEP, UNCLOSED_BLOCK, UNCLOSED_LIST, UNREADABLE};
use crate::span::Span;
use crate::tree::{Block, Element, Item, ValueKind};

/// Blocks nested deeper than this are left out; no rocket needs half of it.
pub const DEEPEST_BLOCKS: usize = 16;

/// As many rows as most lists have on lines of their own.
const USUAL_ROWS: usize = 24;

/// The nesting under construction.
pub(crate) struct Nest {
    open: Vec<Frame>,
    top: Vec<Item>,
    problems: Vec<Problem>,
    /// Where a list was opened whose bracket hasn't come yet.
    list: Option<Span>,
    /// Whether rows without a list are explained by what came before: they are told once.
    rows_told: bool,
    /// Blocks opened beyond the depth limit and not yet closed.
    beyond: usize,
}

struct Frame {
    block: Block,
    /// Indentation of the header's line.
    indent: usize,
    /// Indentation of the first line inside, once there is one.
    body: Option<usize>,
    /// Whether something stands behind the brace on the header's own line.
    filled: bool,
    /// Whether the block was made up for lines without a header.
    lost: bool,
}

impl Nest {
    /// Nest the lines: the items and the problems.
    pub(crate) fn build(lines: &[Line], pieces: Vec<Piece>, by_indent: bool) -> (Vec<Item>, Vec<Problem>) {
        let mut nest =
            Nest { open: Vec::new(), top: Vec::new(), problems: Vec::new(), list: None, rows_told: false, beyond: 0 };
        let mut pieces = pieces.into_iter();
        let mut start = 0;
        for line in lines {
            let count = line.end - start;
            start = line.end;
            let ahead = pieces.as_slice().get(..count).unwrap_or_default();
            if by_indent {
                nest.follow_indent(line.indent, ahead);
            }
            if let Some(frame) = nest.open.last_mut() {
                if frame.body.is_none() && !matches!(ahead.first(), Some(Piece::Close(_))) {
                    frame.body = Some(line.indent);
                }
            }
            let opens_last = matches!(ahead.last(), Some(Piece::Header { .. } | Piece::Brace(_)));
            for piece in pieces.by_ref().take(count) {
                nest.take(piece, line.indent);
            }
            // A block with something behind its brace isn't waiting for deeper lines.
            if !opens_last {
                if let Some(frame) = nest.open.last_mut() {
                    frame.filled |= frame.body.is_none();
                }
            }
        }
        nest.end_list();
        while !nest.open.is_empty() {
            nest.close_unfinished();
        }
        (nest.top, nest.problems)
    }

    fn take(&mut self, piece: Piece, indent: usize) {
        if !matches!(piece, Piece::Rows { .. } | Piece::ListEnd(_)) {
            self.end_list();
            self.rows_told = match &piece {
                Piece::Statement { item: Item::Field(field), .. } => field.value.is_none(),
                Piece::Unread(_) => true,
                _ => false,
            };
        }
        match piece {
            Piece::Header { span, word, name, like, title } => {
                let header = Span { start: span.start, end: title.or(like).or(name).unwrap_or(word).end };
                let block = Block { span, header, word, name, like, title, ..Block::default() };
                self.open_block(block, indent, false);
            }
            Piece::Brace(span) => {
                self.problem(
                    STRAY_BRACE,
                    span,
                    "this `{` has no block to open",
                    "a block starts with its word on the same line: `tube body {`",
                );
                let lost = Span { start: span.start, end: span.start };
                self.open_block(Block { span, header: lost, word: lost, ..Block::default() }, indent, true);
            }
            Piece::Close(span) => self.close_block(span),
            Piece::Statement { item, opens } => {
                if opens {
                    if let Item::Field(field) = &item {
                        self.list = field.value.as_ref().map(|v| Span { start: v.span.start, end: v.span.start + 1 });
                    }
                }
                self.add(item);
            }
            Piece::Rows { span, elements, closes, meant } => {
                if self.list.is_none() {
                    if std::mem::replace(&mut self.rows_told, true) {
                        return;
                    }
                    if let Some(meant) = meant {
                        let (problem, pieces) = *meant;
                        self.problems.push(problem);
                        pieces.into_iter().for_each(|piece| self.take(piece, indent));
                        return;
                    }
                    let help = if elements.len() == 1 && elements.iter().all(|e| e.first.as_name().is_some()) {
                        "a field is written `name: value`, a block `word name {`"
                    } else {
                        "rows belong in a list: `curve: [` … `]`"
                    };
                    self.problem(UNREADABLE, span, "this isn't a field or a block yet", help);
                    return;
                }
                self.extend_list(elements, span);
                if closes {
                    self.list = None;
                }
            }
            Piece::ListEnd(span) => {
                if self.list.take().is_some() {
                    self.extend_list(Vec::new(), span);
                } else if !self.rows_told {
                    self.problem(UNREADABLE, span, "this `]` closes nothing", "take it out, or open a list with `[`");
                }
            }
            Piece::Unread(_) => {}
        }
    }

    fn open_block(&mut self, block: Block, indent: usize, lost: bool) {
        if self.open.len() >= DEEPEST_BLOCKS {
            if self.beyond == 0 {
                self.problem(
                    TOO_DEEP,
                    block.header,
                    &format!("blocks nest more than {DEEPEST_BLOCKS} deep here"),
                    "look for a missing `}` further up",
                );
            }
            self.beyond += 1;
            return;
        }
        self.open.push(Frame { block, indent, body: None, filled: false, lost });
    }

    fn close_block(&mut self, brace: Span) {
        if self.beyond > 0 {
            self.beyond -= 1;
            return;
        }
        match self.open.pop() {
            Some(mut frame) => {
                if frame.lost && frame.block.span.is_empty() {
                    self.problem(
                        STRAY_BRACE,
                        brace,
                        "this `}` ends a block whose first line is missing",
                        "put the block's first line back, such as `tube body {`, or take the brace out",
                    );
                }
                frame.block.span.end = brace.end;
                frame.block.close = Some(brace);
                self.add(Item::Block(frame.block));
            }
            None => {
                self.problem(
                    STRAY_BRACE,
                    brace,
                    "this `}` closes nothing",
                    "take it out, or open its block further up",
                );
            }
        }
    }

    /// End a block whose brace never came.
    fn close_unfinished(&mut self) {
        if let Some(mut frame) = self.open.pop() {
            let header = frame.block.header;
            if !frame.lost {
                self.problem(
                    UNCLOSED_BLOCK,
                    header,
                    "this block has no closing `}`",
                    "close it with `}` on a line of its own",
                );
            }
            if let Some(last) = frame.block.items.last() {
                frame.block.span.end = frame.block.span.end.max(last.span().end);
            }
            self.add(Item::Block(frame.block));
        }
        self.beyond = 0;
    }

    /// Before a line is taken: end the blocks that its indentation says are over, start the one that it says is lost.
    fn follow_indent(&mut self, indent: usize, pieces: &[Piece]) {
        if self.list.is_some() && matches!(pieces.first(), Some(Piece::Rows { .. } | Piece::ListEnd(_))) {
            return;
        }
        let closes = matches!(pieces.first(), Some(Piece::Close(_)));
        if closes && !self.open.iter().any(|f| f.indent == indent) {
            // It stands under no open header, so it ends a block whose first line is lost with all that was in it.
            if self.open.last().is_some_and(|f| f.indent < indent) {
                let start = pieces.first().map_or(0, |p| p.span().start);
                let lost = Span { start, end: start };
                let block = Block { span: lost, header: lost, word: lost, ..Block::default() };
                self.open_block(block, indent, true);
            }
            return;
        }
        while let Some(frame) = self.open.last() {
            let over = if closes {
                frame.indent > indent
            } else {
                indent <= frame.indent && (frame.filled || frame.body.is_some_and(|body| body > frame.indent))
            };
            if !over {
                break;
            }
            self.close_unfinished();
        }
        if let Some(frame) = self.open.last() {
            let body = frame.body;
            if let Some(body) = body {
                if indent > body && !closes {
                    let start = pieces.first().map_or(frame.block.span, Piece::span).start;
                    let lost = Span { start, end: start };
                    let block = Block { span: lost, header: lost, word: lost, ..Block::default() };
                    self.open_block(block, body, true);
                }
            }
        }
    }

    fn end_list(&mut self) {
        if let Some(bracket) = self.list.take() {
            self.problem(UNCLOSED_LIST, bracket, "this list has no closing `]`", "end it with `]`");
        }
    }

    fn extend_list(&mut self, more: Vec<Element>, until: Span) {
        let items = self.open.last_mut().map_or(&mut self.top, |f| &mut f.block.items);
        if let Some(Item::Field(field)) = items.last_mut() {
            field.span.end = until.end;
            if let Some(value) = &mut field.value {
                value.span.end = until.end;
                if let ValueKind::List(elements) = &mut value.kind {
                    // A list with a row on each line has some more to come.
                    if elements.len() + more.len() > elements.capacity() {
                        elements.reserve(more.len().max(USUAL_ROWS).max(elements.len()));
                    }
                    elements.extend(more);
                }
            }
        }
    }

    fn add(&mut self, item: Item) {
        if self.beyond > 0 {
            return;
        }
        match self.open.last_mut() {
            Some(frame) => frame.block.items.push(item),
            None => self.top.push(item),
        }
    }

    fn problem(&mut self, rule: &'static str, span: Span, message: &str, help: &str) {
        self.problems.push(Problem::new(rule, span, message, help));
    }
}
