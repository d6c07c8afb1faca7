//! A working as plain text.

use crate::page::{Block, Step, Table};
use crate::{Known, Working};
use finwright_layout::table::{self as laid, Table as Columns};
use finwright_layout::{hanging, paragraph, pieces};
use unicode_width::UnicodeWidthStr;

/// The page as plain text in lines of at most `width` columns.
pub fn text(working: &Working, width: usize) -> String {
    let mut out = format!("{}\n\n", working.title);
    out += &lines(HOW, "", width);
    let mut number = 0;
    for block in &working.blocks {
        out.push('\n');
        match block {
            Block::Known(list) => out += &known(list, width),
            Block::Step(it) => {
                number += 1;
                out += &step(it, number, width);
            }
            Block::Table(table) => out += &table_text(table, width),
            Block::Note(text) => out += &lines(text, "  ", width),
        }
    }
    out.push('\n');
    for end in &working.ends {
        out += &lines(&end.in_words(), "", width);
    }
    if !working.neglects.is_empty() {
        out += "\nLeft out by hand:\n";
        for neglect in &working.neglects {
            out += &lines(neglect, "  ", width);
        }
    }
    out
}

/// How the page is to be read.
pub(crate) const HOW: &str = "Each result is worked from the numbers as they stand here, rounded to five digits, and \
    the rounded result is carried on. Angles are in degrees.";

fn known(list: &[Known], width: usize) -> String {
    let widest = |of: &dyn Fn(&Known) -> String| list.iter().map(|known| of(known).width()).max().unwrap_or(0);
    let (symbols, values) = (widest(&|known| known.symbol.clone()), widest(&|known| known.number.to_string()));
    let padded = |text: &str, to: usize| format!("{text}{}", " ".repeat(to.saturating_sub(text.width())));
    let line = |known: &Known| {
        let (symbol, number) = (padded(&known.symbol, symbols), padded(&known.number.to_string(), values));
        let head = format!("  {symbol} = {number}  ");
        let indent = " ".repeat(head.width());
        hanging(&format!("{}; {}", known.means, known.from), &head, &indent, width) + "\n"
    };
    list.iter().map(line).collect()
}

fn step(step: &Step, number: usize, width: usize) -> String {
    let mut out = lines(&format!("{number}. {}", step.want), "", width);
    let indent = " ".repeat(5 + step.symbol.width());
    let mut line = |text: &str, lead: &str| {
        let below = format!("{indent}   ");
        out.push_str(&pieces(&before_signs(text), &format!("{lead}= "), &below, width));
        out.push('\n');
    };
    line(&step.formula, &format!("     {} ", step.symbol));
    line(&step.values, &format!("{indent} "));
    line(&step.result.to_string(), &format!("{indent} "));
    out + &lines(&step.source, &format!("{indent}   "), width)
}

fn table_text(table: &Table, width: usize) -> String {
    let is_number = |at: usize| table.rows.iter().filter_map(|row| row.get(at)).any(|cell| cell.number().is_some());
    let mut laid = Columns::new(table.columns.iter().enumerate().map(|(at, column)| match is_number(at) {
        true => laid::Column::numbers(&column.heading, ""),
        false => laid::Column::words(&column.heading),
    }));
    for row in &table.rows {
        laid.row(row.iter().map(|cell| cell.text().to_string()));
    }
    let mut out = lines(&table.title, "  ", width) + &laid.text(width).text;
    for column in table.columns.iter().filter(|column| !column.formula.is_empty()) {
        out += &lines(&format!("{} = {}", column.symbol, column.formula), "    ", width);
    }
    out
}

/// Broken into lines between words, each indented.
fn lines(text: &str, indent: &str, width: usize) -> String {
    paragraph(text, indent, width) + "\n"
}

/// The pieces of an expression before each of which a line may be broken: a number stays with its unit.
fn before_signs(text: &str) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match pieces.last_mut() {
            Some(piece) if !matches!(word, "+" | "-" | "×" | "/") => {
                piece.push(' ');
                piece.push_str(word);
            }
            _ => pieces.push(word.to_string()),
        }
    }
    pieces
}
