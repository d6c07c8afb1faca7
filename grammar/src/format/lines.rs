//! A file's lines, ready to be written in the one style.

use super::spell::spell;
use super::BYTE_ORDER_MARK;
use crate::grammar::{pieces, Rule};
use crate::parse::parse;
use crate::read::text_as_meant;
use crate::remarks::Remarks;
use crate::tree::Tree;
use crate::vocabulary;
use pest::iterators::Pair;
use unicode_width::UnicodeWidthStr;

/// A line.
pub(super) enum Line<'t> {
    /// Nothing on it.
    Empty,
    /// It can't be read, so it stays.
    Kept(&'t str),
    /// Pieces, a remark, or both.
    Sound(Sound<'t>),
}

/// A line that could be read.
pub(super) struct Sound<'t> {
    /// The white space before it.
    pub indent: String,
    /// Its pieces, in order.
    pub pieces: Vec<Piece>,
    /// What stands behind the pieces, or alone.
    pub remark: Option<Remark<'t>>,
}

/// A comment.
pub(super) struct Remark<'t> {
    /// From its `#`.
    pub text: &'t str,
    /// The column that its author put it in.
    pub column: usize,
    /// Whether the author chose the column: one space behind the pieces is nobody's choice.
    pub chosen: bool,
    /// How many spaces go before it.
    pub gap: usize,
}

/// A piece of a line.
pub(super) struct Piece {
    /// Its text; a header without its brace.
    pub text: String,
    /// What it is to the nesting.
    pub sort: Sort,
    /// Whether a `;` follows.
    pub stopped: bool,
    /// Whether the author left more than one space behind the `;`, or before the header's brace.
    pub wide: bool,
    /// How many spaces go behind the `;` or before the brace, besides the usual one.
    pub more: usize,
}

/// What a piece is to the nesting.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    /// A header with its brace, or a brace without a header.
    Open,
    /// A closing brace.
    Close,
    /// Anything else.
    Plain,
}

/// All lines of a text.
pub(super) fn read(text: &str) -> Vec<Line<'_>> {
    let tree = parse(text);
    let mut nesting = Nesting::default();
    let mut remarks = Remarks::of(text);
    let mut taken = Vec::with_capacity(tree.lines.count());
    for (number, broken) in broken_lines(&tree).into_iter().enumerate() {
        let whole = tree.lines.content(number, text).of(text);
        let content = if number == 0 { whole.strip_prefix(BYTE_ORDER_MARK).unwrap_or(whole) } else { whole };
        let written = tree.lines.content(number, text);
        let (code, _) = remarks.part(text, written);
        let (line, depth) = if broken || code != written {
            (None, take_to_pieces(&mut nesting, &text_as_meant(code.of(text))).1)
        } else {
            take_to_pieces(&mut nesting, content)
        };
        // A byte order mark in the middle of a file was put there by an accident that is better seen.
        let misplaced = number > 0 && content.starts_with(BYTE_ORDER_MARK);
        taken.push((whole, content, line.filter(|_| !misplaced), depth));
    }
    let by_indent = !nesting.is_balanced();
    taken
        .into_iter()
        .map(|(whole, content, line, depth)| {
            line.and_then(|line| laid_out(line, content, depth, by_indent)).unwrap_or(Line::Kept(whole))
        })
        .collect()
}

/// A line's pieces and remark without its white space, and the depth at which it starts; no line where the grammar has
/// no problem but what it says may depend on its spaces.
fn take_to_pieces<'t>(nesting: &mut Nesting, content: &'t str) -> (Option<Sound<'t>>, usize) {
    let mut line = Sound { indent: String::new(), pieces: Vec::new(), remark: None };
    let mut start = None;
    let mut sound = true;
    let written = if content.trim().is_empty() { None } else { pieces(content) };
    for pair in written.into_iter().flatten() {
        match pair.as_rule() {
            Rule::comment => line.remark = Some(remark(content, &pair, !line.pieces.is_empty())),
            Rule::stop => stop(content, &pair, &mut line.pieces),
            rule => {
                // Rows without a list go with a broken line further up.
                sound &= nesting.list || !matches!(rule, Rule::rows | Rule::list_end);
                let depth = nesting.take(&pair);
                start.get_or_insert(depth);
                sound &= !hangs(&pair);
                line.pieces.push(piece(pair));
            }
        }
    }
    (sound.then_some(line), start.unwrap_or_else(|| nesting.inside()))
}

/// Whether it has an `of` or `like` without the name that should follow. The word is taken for a name itself, but only
/// where no space stands behind it.
fn hangs(pair: &Pair<'_, Rule>) -> bool {
    match pair.as_rule() {
        Rule::header => pair.clone().into_inner().any(|part| part.as_rule() == Rule::name && part.as_str() == "like"),
        _ => pair.as_str().trim_end().strip_suffix("of").is_some_and(|rest| rest.ends_with(char::is_whitespace)),
    }
}

/// The line with its indentation: the author's where that has a meaning. There even a lone `;` parts what is above from
/// what is below, and nothing comes of it.
fn laid_out<'t>(mut line: Sound<'t>, content: &str, depth: usize, by_indent: bool) -> Option<Line<'t>> {
    if line.pieces.is_empty() && line.remark.is_none() {
        return (!by_indent || content.trim().is_empty()).then_some(Line::Empty);
    }
    line.indent = if by_indent {
        content.get(..content.len() - content.trim_start().len()).unwrap_or("").to_string()
    } else {
        let closing = line.pieces.iter().take_while(|piece| piece.sort == Sort::Close).count();
        " ".repeat(2 * depth.saturating_sub(closing))
    };
    Some(Line::Sound(line))
}

/// For every line whether something on it couldn't be read.
fn broken_lines(tree: &Tree) -> Vec<bool> {
    let mut broken = vec![false; tree.lines.count()];
    let labels = tree.problems.iter().filter_map(|problem| problem.label).map(|(span, _)| span);
    let problems = tree.problems.iter().map(|problem| problem.span).chain(labels);
    for span in problems.chain(tree.lost.iter().copied()) {
        let (first, last) = (tree.lines.line_of(span.start as usize), tree.lines.line_of(span.end as usize));
        broken[first..=last].fill(true);
    }
    broken
}

/// How deep the pieces stand, one after another.
#[derive(Default)]
struct Nesting {
    depth: usize,
    list: bool,
    /// Whether a brace closed nothing, or a line may be a header without its brace, which is told by the lines below
    /// it.
    doubtful: bool,
}

impl Nesting {
    /// Take a piece; the depth at which it would start a line.
    fn take(&mut self, pair: &Pair<'_, Rule>) -> usize {
        let rule = pair.as_rule();
        let before = self.depth + usize::from(self.list && rule == Rule::rows);
        match rule {
            Rule::header | Rule::brace => self.depth += 1,
            Rule::close if self.depth == 0 => self.doubtful = true,
            Rule::close => self.depth -= 1,
            // A line that lacks only its brace may still open a block, as the lines below it tell.
            Rule::junk | Rule::partial | Rule::rows if rule != Rule::rows || !self.list => {
                let word = pair.as_str().split(|c: char| !c.is_alphanumeric() && c != '_').next();
                self.doubtful |= word.is_some_and(|word| vocabulary::block(word).is_some());
            }
            _ => {}
        }
        self.list = match rule {
            Rule::rows => self.list && !pair.as_str().trim_end().ends_with(']'),
            Rule::field => pair.clone().into_inner().any(|value| value.as_rule() == Rule::opened),
            _ => false,
        };
        before
    }

    /// The depth of a remark that stands here alone.
    fn inside(&self) -> usize {
        self.depth + usize::from(self.list)
    }

    /// Whether the braces alone say what belongs where.
    fn is_balanced(&self) -> bool {
        self.depth == 0 && !self.doubtful
    }
}

fn piece(pair: Pair<'_, Rule>) -> Piece {
    let sort = match pair.as_rule() {
        Rule::header | Rule::brace => Sort::Open,
        Rule::close => Sort::Close,
        _ => Sort::Plain,
    };
    let before_brace = pair.as_str().trim_end_matches('{');
    let wide = pair.as_rule() == Rule::header && blanks_behind(before_brace) > 1;
    let text = if pair.as_rule() == Rule::brace { String::new() } else { spell(pair) };
    Piece { text, sort, stopped: false, wide, more: 0 }
}

/// A `;` belongs to the piece before it; one without such a piece separates nothing.
fn stop(content: &str, pair: &Pair<'_, Rule>, pieces: &mut [Piece]) {
    if let Some(last) = pieces.last_mut().filter(|last| last.sort != Sort::Open) {
        let rest = content.get(pair.as_span().end()..).unwrap_or("");
        last.stopped = true;
        last.wide = rest.len() - rest.trim_start().len() > 1;
    }
}

fn remark<'t>(content: &'t str, pair: &Pair<'_, Rule>, behind: bool) -> Remark<'t> {
    let start = pair.as_span().start();
    let before = content.get(..start).unwrap_or("");
    let chosen = behind && blanks_behind(before) > 1;
    Remark { text: content.get(start..).unwrap_or("").trim_end(), column: columns(before), chosen, gap: 1 }
}

fn blanks_behind(text: &str) -> usize {
    text.len() - text.trim_end().len()
}

/// How many columns a text takes, tabs going to the next eighth.
fn columns(text: &str) -> usize {
    let mut parts = text.split('\t');
    let first = parts.next().map_or(0, UnicodeWidthStr::width);
    parts.fold(first, |column, part| column - column % 8 + 8 + part.width())
}

impl Line<'_> {
    /// Whether it begins with a closing brace.
    pub fn closes(&self) -> bool {
        matches!(self, Line::Sound(line) if line.pieces.first().is_some_and(|piece| piece.sort == Sort::Close))
    }

    /// Whether it begins with a byte order mark and stays as it is.
    pub fn is_marked(&self) -> bool {
        matches!(self, Line::Kept(text) if text.starts_with(BYTE_ORDER_MARK))
    }

    /// Whether it ends with an opening brace.
    pub fn opens(&self) -> bool {
        matches!(self, Line::Sound(line) if line.pieces.last().is_some_and(|piece| piece.sort == Sort::Open))
    }

    /// Write it, without a newline.
    pub fn write(&self, out: &mut String) {
        match self {
            Line::Empty => {}
            Line::Kept(text) => out.push_str(text),
            Line::Sound(line) => {
                out.push_str(&line.indent);
                put_pieces(&line.pieces, out);
                if let Some(remark) = &line.remark {
                    let gap = if line.pieces.is_empty() { 0 } else { remark.gap };
                    out.extend(std::iter::repeat_n(' ', gap));
                    out.push_str(remark.text);
                }
            }
        }
    }
}

impl Sound<'_> {
    /// How many columns it takes up to its remark.
    pub fn width(&self) -> usize {
        let mut text = self.indent.clone();
        put_pieces(&self.pieces, &mut text);
        columns(&text)
    }
}

/// How many columns pieces take by themselves.
pub(super) fn width(pieces: &[Piece]) -> usize {
    let mut text = String::new();
    put_pieces(pieces, &mut text);
    text.width()
}

fn put_pieces(pieces: &[Piece], out: &mut String) {
    for (number, piece) in pieces.iter().enumerate() {
        let before = number.checked_sub(1).and_then(|before| pieces.get(before));
        if let Some(before) = before {
            if before.stopped && piece.sort != Sort::Close {
                out.push(';');
                out.extend(std::iter::repeat_n(' ', before.more));
            }
            out.push(' ');
        }
        out.push_str(&piece.text);
        if piece.sort == Sort::Open {
            out.extend(std::iter::repeat_n(' ', piece.more));
            out.push_str(if piece.text.is_empty() { "{" } else { " {" });
        }
    }
}
