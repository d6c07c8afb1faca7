//! What stands under each other: braces and cells of blocks of one line, and remarks.

use super::lines::{width, Line, Piece, Remark, Sort, Sound};
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

fn table(rows: &mut [&mut Vec<Piece>]) {
    let cells: Vec<Vec<Range<usize>>> = rows.iter().map(|pieces| inner_cells(pieces)).collect();
    for column in 0..cells.iter().map(Vec::len).max().unwrap_or(0) {
        let opening = rows.iter_mut().zip(&cells).filter_map(|(pieces, cells)| {
            let first = cells.get(column).and_then(|cell| pieces.get_mut(cell.start));
            first.filter(|piece| piece.sort == Sort::Open)
        });
        pad_braces(opening);
        // A row's last cell has nothing behind it that could stand under something.
        let followed = |cells: &[Range<usize>]| cells.get(column).filter(|_| cells.len() > column + 1).cloned();
        let wide = |pieces: &[Piece], cell: Range<usize>| pieces.get(cell).map_or(0, width);
        let widest = rows
            .iter()
            .zip(&cells)
            .filter_map(|(pieces, cells)| Some(wide(pieces, followed(cells)?)))
            .max()
            .unwrap_or(0);
        for (pieces, cells) in rows.iter_mut().zip(&cells) {
            if let Some(cell) = followed(cells) {
                let more = widest - wide(pieces, cell.clone());
                if let Some(last) = pieces.get_mut(cell.end - 1) {
                    last.more = more;
                }
            }
        }
    }
}

fn pad_braces<'p>(headers: impl Iterator<Item = &'p mut Piece>) {
    let headers: Vec<&mut Piece> = headers.collect();
    let wide = |piece: &Piece| width(std::slice::from_ref(piece)) - piece.more;
    let widest = headers.iter().map(|piece| wide(piece)).max().unwrap_or(0);
    for piece in headers {
        piece.more = widest - wide(piece);
    }
}

/// A line that is wider than the next narrower one by more than this has its remark right behind it: far to the right of
/// short lines nobody would look for their remarks.
const FAR: usize = 24;

/// Remarks behind neighbouring lines share the column that most of them have, or one that leaves room for the widest line.
/// A line with nothing but a remark right under one of them, in its column, goes on with it.
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
    let often = |number: usize| numbers.iter().filter(|other| **other == number).count();
    let top = numbers.iter().map(|number| often(*number)).max()?;
    numbers.iter().copied().find(|number| often(*number) == top)
}
