//! What stands under each other: braces and cells of blocks of one line, and remarks.

use super::lines::{width, Line, Piece, Remark, Sort, Sound};
use std::collections::HashMap;
use std::ops::Range;

/// Blocks of one line under each other with the same word: their braces stand under each other. Where the author left
/// more than one space in one of them, they are a table, and their fields stand under each other too.
pub(super) fn blocks(lines: &mut [Line<'_>]) {
    let mut rest = lines;
    while !rest.is_empty() {
        let word = rest.first().and_then(block_word).map(str::to_string);
        let same = rest.iter().take_while(|line| word.is_some() && block_word(line) == word.as_deref()).count();
        let (group, after) = rest.split_at_mut(same.max(1));
        if same > 1 {
            let mut rows: Vec<&mut Vec<Piece>> = group
                .iter_mut()
                .filter_map(|line| match line {
                    Line::Sound(line) => Some(&mut line.pieces),
                    _ => None,
                })
                .collect();
            pad_braces(rows.iter_mut().filter_map(|pieces| pieces.first_mut()));
            if rows.iter().any(|pieces| has_room(pieces)) {
                table(&mut rows);
            }
        }
        rest = after;
    }
}

/// The word of the one block that is all of the line.
fn block_word<'l>(line: &'l Line<'_>) -> Option<&'l str> {
    let Line::Sound(line) = line else { return None };
    let cells = cells(&line.pieces);
    let whole = cells.len() == 1 && line.pieces.len() > 1 && line.pieces.last()?.sort == Sort::Close;
    let first = line.pieces.first().filter(|first| whole && first.sort == Sort::Open)?;
    first.text.split(' ').next().filter(|word| !word.is_empty())
}

/// The pieces of each cell: a piece by itself, or a block with all that stands in it.
fn cells(pieces: &[Piece]) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let (mut start, mut depth) = (0, 0usize);
    for (number, piece) in pieces.iter().enumerate() {
        match piece.sort {
            Sort::Open => depth += 1,
            Sort::Close => depth = depth.saturating_sub(1),
            Sort::Plain => {}
        }
        if depth == 0 {
            found.push(start..number + 1);
            start = number + 1;
        }
    }
    if start < pieces.len() {
        found.push(start..pieces.len());
    }
    found
}

/// The cells between the braces of a block that is all of the line.
fn inner_cells(pieces: &[Piece]) -> Vec<Range<usize>> {
    let inner = pieces.get(1..pieces.len().saturating_sub(1)).unwrap_or(&[]);
    cells(inner).into_iter().map(|cell| cell.start + 1..cell.end + 1).collect()
}

/// Whether the author left more than one space between two cells, or before a cell's own brace.
fn has_room(pieces: &[Piece]) -> bool {
    let cells = inner_cells(pieces);
    let last = cells.len().saturating_sub(1);
    cells.iter().enumerate().any(|(number, cell)| {
        let (first, end) = (pieces.get(cell.start), pieces.get(cell.end - 1));
        first.is_some_and(|piece| piece.sort == Sort::Open && piece.wide)
            || (number < last && end.is_some_and(|piece| piece.stopped && piece.wide))
    })
}

/// Every cell is looked at a fixed number of times, however many columns some other row has.
fn table(rows: &mut [&mut Vec<Piece>]) {
    let cells: Vec<Vec<Range<usize>>> = rows.iter().map(|pieces| inner_cells(pieces)).collect();
    let opens = |piece: &&mut Piece| piece.sort == Sort::Open;
    let mut braces = Vec::new();
    for (pieces, cells) in rows.iter_mut().zip(&cells) {
        for (column, cell) in cells.iter().enumerate() {
            if let Some(piece) = pieces.get_mut(cell.start).filter(opens) {
                widen(&mut braces, column, brace_column(piece));
            }
        }
    }
    let mut widest = Vec::new();
    for (pieces, cells) in rows.iter_mut().zip(&cells) {
        for (column, cell) in cells.iter().enumerate() {
            if let Some(piece) = pieces.get_mut(cell.start).filter(opens) {
                piece.more = braces.get(column).map_or(0, |widest| widest - brace_column(piece));
            }
            // A row's last cell has nothing behind it that could stand under something.
            if cells.len() > column + 1 {
                widen(&mut widest, column, pieces.get(cell.clone()).map_or(0, width));
            }
        }
    }
    for (pieces, cells) in rows.iter_mut().zip(&cells) {
        for (cell, widest) in cells.iter().take(cells.len().saturating_sub(1)).zip(&widest) {
            let more = widest - pieces.get(cell.clone()).map_or(0, width);
            if let Some(last) = pieces.get_mut(cell.end - 1) {
                last.more = more;
            }
        }
    }
}

/// Keep the greatest width of a column.
fn widen(widest: &mut Vec<usize>, column: usize, width: usize) {
    if widest.len() <= column {
        widest.resize(column + 1, 0);
    }
    if let Some(widest) = widest.get_mut(column) {
        *widest = width.max(*widest);
    }
}

/// How far a header's brace reaches with nothing put before it.
fn brace_column(piece: &Piece) -> usize {
    width(std::slice::from_ref(piece)) - piece.more
}

fn pad_braces<'p>(headers: impl Iterator<Item = &'p mut Piece>) {
    let headers: Vec<&mut Piece> = headers.collect();
    let widest = headers.iter().map(|piece| brace_column(piece)).max().unwrap_or(0);
    for piece in headers {
        piece.more = widest - brace_column(piece);
    }
}

/// A line that is wider than the next narrower one by more than this has its remark right behind it: far to the right
/// of short lines nobody would look for their remarks.
const FAR: usize = 24;

/// Remarks behind neighbouring lines share the column that most of them have, or one that leaves room for the widest
/// line. A line with nothing but a remark right under one of them, in its column, goes on with it.
pub(super) fn remarks(lines: &mut [Line<'_>]) {
    let mut start = 0;
    while start < lines.len() {
        let mut end = start;
        let mut above = None;
        while let Some(column) = lines.get(end).and_then(|line| remark_column(line, above)) {
            above = Some(column);
            end += 1;
        }
        if let Some(group) = lines.get_mut(start..end) {
            align_remarks(group);
        }
        start = end.max(start + 1);
    }
}

/// The column of a line's remark, when it stands behind something or goes on with the one above.
fn remark_column(line: &Line<'_>, above: Option<usize>) -> Option<usize> {
    let Line::Sound(line) = line else { return None };
    let column = line.remark.as_ref()?.column;
    (!line.pieces.is_empty() || above == Some(column)).then_some(column)
}

fn align_remarks(group: &mut [Line<'_>]) {
    let mut rows: Vec<&mut Sound<'_>> = group
        .iter_mut()
        .filter_map(|line| match line {
            Line::Sound(line) => Some(line),
            _ => None,
        })
        .collect();
    let column = shared_column(&rows);
    let mut above = 0;
    for row in &mut rows {
        if row.pieces.is_empty() {
            row.indent = " ".repeat(above);
            continue;
        }
        let width = row.width();
        above = column.max(width + 1);
        if let Some(remark) = &mut row.remark {
            remark.gap = above - width;
        }
    }
}

/// The column for the remarks of neighbouring lines; a line too wide for it has its remark right behind it.
fn shared_column(rows: &[&mut Sound<'_>]) -> usize {
    let behind: Vec<(usize, &Remark<'_>)> = rows
        .iter()
        .filter(|row| !row.pieces.is_empty())
        .filter_map(|row| Some((row.width(), row.remark.as_ref()?)))
        .collect();
    let mut widths: Vec<usize> = behind.iter().map(|(width, _)| *width).collect();
    widths.sort_unstable();
    let mut widest = widths.first().copied().unwrap_or(0);
    for width in widths {
        if width - widest <= FAR {
            widest = width;
        }
    }
    let chosen: Vec<usize> = behind
        .iter()
        .filter(|(width, remark)| *width <= widest && remark.chosen)
        .map(|(_, remark)| remark.column)
        .collect();
    most(&chosen).unwrap_or(0).max(widest + 1)
}

/// The number that comes most often; the earliest of several.
fn most(numbers: &[usize]) -> Option<usize> {
    let mut counts = HashMap::new();
    for number in numbers {
        *counts.entry(number).or_insert(0usize) += 1;
    }
    let top = counts.values().copied().max()?;
    numbers.iter().copied().find(|number| counts.get(number) == Some(&top))
}
