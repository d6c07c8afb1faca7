//! Tables that fit the width that they get: prose is broken into lines, and then columns give way in the order that
//! their table says. What was left out is told, never cut.

use super::{hanging, joined, parted};
use unicode_width::UnicodeWidthStr;

/// Rows under the headings of their columns, perhaps in sections.
pub struct Table {
    columns: Vec<Column>,
    lines: Vec<Line>,
}

/// A table as text, and the headings of the columns for which there wasn't room.
pub struct Laid {
    /// The lines, each with its line break.
    pub text: String,
    /// What the caller must say isn't shown.
    pub left_out: Vec<String>,
}

/// A column: what stands above it, and what happens to it when there isn't room for all.
pub struct Column {
    heading: String,
    unit: String,
    kind: Kind,
    /// Its turn to be left out; without one it stays.
    turn: Option<u8>,
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Words,
    Numbers,
    /// Broken into lines of no fewer columns than this; below its row where not even those are left.
    Prose(usize),
}

enum Line {
    Section(String),
    Row(Vec<String>),
}

impl Column {
    /// Names, read from the left.
    pub fn words(heading: &str) -> Column {
        Column { heading: heading.to_string(), unit: String::new(), kind: Kind::Words, turn: None }
    }

    /// Numbers, read from the right, with the unit that they all have, if it stands above them.
    pub fn numbers(heading: &str, unit: &str) -> Column {
        Column { unit: unit.to_string(), kind: Kind::Numbers, ..Column::words(heading) }
    }

    /// Sentences, as the last column.
    pub fn prose(heading: &str, least: usize) -> Column {
        Column { kind: Kind::Prose(least), ..Column::words(heading) }
    }

    /// Left out when there isn't room for all: the column with the lowest turn first.
    pub fn gives_way(mut self, turn: u8) -> Column {
        self.turn = Some(turn);
        self
    }
}

impl Table {
    /// A table without rows.
    pub fn new(columns: impl IntoIterator<Item = Column>) -> Table {
        Table { columns: columns.into_iter().collect(), lines: Vec::new() }
    }

    /// Start a section. One that gets no rows isn't shown.
    pub fn section(&mut self, title: impl Into<String>) {
        if matches!(self.lines.last(), Some(Line::Section(_))) {
            self.lines.pop();
        }
        self.lines.push(Line::Section(title.into()));
    }

    /// Add a row, a cell for each column.
    pub fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.lines.push(Line::Row(cells.into_iter().map(|cell| joined(&cell)).collect()));
    }

    /// The table in lines of at most `width` columns: sections are indented by two, their rows by two more.
    pub fn text(&self, width: usize) -> Laid {
        let has_sections = self.lines.iter().any(|line| matches!(line, Line::Section(_)));
        let indent = if has_sections { "    " } else { "  " };
        let (shown, left_out) = self.fitting(width.saturating_sub(indent.len()));
        let left_out = left_out.into_iter().map(|i| self.columns[i].heading.clone()).collect();
        let widths = shown.iter().map(|i| self.natural(*i)).collect();
        let page = Page { table: self, widths, shown, indent, width };
        let mut text = page.headings();
        let mut lines = self.lines.iter().peekable();
        while let Some(line) = lines.next() {
            match line {
                Line::Section(_) if lines.peek().is_none() => {}
                Line::Section(title) => text += &(hanging(title, "  ", "    ", width) + "\n"),
                Line::Row(cells) => text += &page.row(cells),
            }
        }
        Laid { text: parted(&text), left_out }
    }

    /// The columns that there is room for, and those that have to give way, both by number.
    fn fitting(&self, room: usize) -> (Vec<usize>, Vec<usize>) {
        let mut shown: Vec<usize> = (0..self.columns.len()).collect();
        let mut left_out = Vec::new();
        let least = |shown: &[usize]| {
            let of = |i: &usize| match self.columns[*i].kind {
                Kind::Prose(least) => self.natural(*i).min(least),
                _ => self.natural(*i),
            };
            shown.iter().map(of).sum::<usize>() + GAP.len() * shown.len().saturating_sub(1)
        };
        while least(&shown) > room {
            let next = shown.iter().copied().filter(|i| self.columns[*i].turn.is_some());
            let Some(next) = next.min_by_key(|i| self.columns[*i].turn) else { break };
            shown.retain(|i| *i != next);
            left_out.push(next);
        }
        left_out.sort_unstable();
        (shown, left_out)
    }

    /// As wide as the widest of a column's cells and headings.
    fn natural(&self, column: usize) -> usize {
        let Column { heading, unit, .. } = &self.columns[column];
        let cells = self.lines.iter().filter_map(|line| match line {
            Line::Row(cells) => cells.get(column),
            Line::Section(_) => None,
        });
        cells.chain([heading, unit]).map(|cell| cell.width()).max().unwrap_or(0)
    }
}

const GAP: &str = "  ";

/// A table for which it's settled what is shown.
struct Page<'t> {
    table: &'t Table,
    shown: Vec<usize>,
    widths: Vec<usize>,
    indent: &'t str,
    width: usize,
}

impl Page<'_> {
    fn headings(&self) -> String {
        let columns = &self.table.columns;
        let above: [fn(&Column) -> &String; 2] = [|column| &column.heading, |column| &column.unit];
        let lines = above.iter().map(|of| columns.iter().map(|column| of(column).clone()).collect::<Vec<_>>());
        lines.filter(|cells| cells.iter().any(|cell| !cell.is_empty())).map(|cells| self.row(&cells)).collect()
    }

    fn row(&self, cells: &[String]) -> String {
        let mut line = self.indent.to_string();
        let mut prose = None;
        for (at, (column, width)) in self.shown.iter().zip(&self.widths).enumerate() {
            let cell = cells.get(*column).map_or("", String::as_str);
            let gap = " ".repeat(width.saturating_sub(cell.width()));
            line += if at > 0 { GAP } else { "" };
            match self.table.columns[*column].kind {
                Kind::Words => line += &format!("{cell}{gap}"),
                Kind::Numbers => line += &format!("{gap}{cell}"),
                Kind::Prose(least) => prose = Some((cell, least.min(*width))),
            }
        }
        match prose {
            Some((cell, least)) if !cell.is_empty() => self.with_prose(&line, cell, least),
            _ => line.trim_end().to_string() + "\n",
        }
    }

    /// A row that ends in prose: beside it where there is room, else on lines of its own.
    fn with_prose(&self, row: &str, cell: &str, least: usize) -> String {
        let start = row.width();
        if start + least <= self.width {
            return hanging(cell, row, &" ".repeat(start), self.width) + "\n";
        }
        let below = format!("{}    ", self.indent);
        format!("{}\n{}\n", row.trim_end(), hanging(cell, &below, &below, self.width))
    }
}
