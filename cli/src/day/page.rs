//! The day's list on paper, or as one HTML file with the same pages.

use super::line::Line;
use super::said::{answer, cells, foot, heads, title};
use super::List as Lines;
use crate::sheet::{put, Form};
use finwright_draw::paper::Paper;
use finwright_draw::sheet::{html, list, List, Row};
use std::path::Path;

pub fn page(day: &Lines, output: &Path, paper: Paper) -> Result<(), String> {
    let whole = |cell: String| cell.replace(" ± ", "\u{a0}±\u{a0}").replace("class ", "class\u{a0}");
    let row = |line: &Line| Row { cells: cells(line).into_iter().map(whole).collect(), fails: !line.may_fly() };
    let listed = List {
        title: title(day),
        said: answer(day),
        heads: heads(),
        rows: day.lines.iter().map(row).collect(),
        foot: foot(day),
    };
    put(output, Form::of(output)?, &html::alone(&list(&listed, paper)), &listed.title)
}
