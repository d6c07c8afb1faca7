//! A working as plain text.

use crate::page::{Block, Table};
use crate::Working;
use unicode_width::UnicodeWidthStr;

/// The page as plain text in lines of at most `width` columns.
pub fn text(working: &Working, width: usize) -> String {
    let mut out = format!("{}\n\n", working.title);
    out += &wrapped(HOW, "", width);
    let mut number = 0;
    for block in &working.blocks {
        out.push('\n');
        match block {
            Block::Known(list) => {
                let widest =
                    |of: &dyn Fn(&crate::Known) -> String| list.iter().map(|k| of(k).width()).max().unwrap_or(0);
                let (symbols, values) = (widest(&|k| k.symbol.clone()), widest(&|k| k.number.to_string()));
                for k in list {
                    let number = k.number.to_string();
                    let head = format!("  {} = {}  ", padded(&k.symbol, symbols), padded(&number, values));
                    let indent = " ".repeat(head.width());
                    let told = wrapped(&format!("{}; {}", k.means, k.from), &indent, width);
                    out += &head;
                    out += told.trim_start();
                }
            }
            Block::Step(step) => {
                number += 1;
                out += &wrapped(&format!("{number}. {}", step.want), "", width);
                let indent = " ".repeat(5 + step.symbol.width());
                let mut line = |text: &str, lead: &str| {
                    let text = broken(&before_signs(text), &format!("{indent}   "), width);
                    out.push_str(&format!("{lead}= {}", text.trim_start()));
                };
                line(&step.formula, &format!("     {}", step.symbol.clone() + " "));
                line(&step.values, &format!("{indent} "));
                line(&step.result.to_string(), &format!("{indent} "));
                out += &wrapped(&step.source, &format!("{indent}   "), width);
            }
            Block::Table(table) => out += &table_text(table, width),
            Block::Note(text) => out += &wrapped(text, "  ", width),
        }
    }
    out.push('\n');
    for end in &working.ends {
        out += &wrapped(&end.in_words(), "", width);
    }
    if !working.neglects.is_empty() {
        out += "\nLeft out by hand:\n";
        for neglect in &working.neglects {
            out += &wrapped(neglect, "  ", width);
        }
    }
    out
}

/// How the page is to be read.
pub(crate) const HOW: &str = "Each result is worked from the numbers as they stand here, rounded to five digits, and the rounded result is carried on. Angles are in degrees.";

fn padded(text: &str, to: usize) -> String {
    format!("{text}{}", " ".repeat(to.saturating_sub(text.width())))
}

fn table_text(table: &Table, most: usize) -> String {
    let mut out = wrapped(&table.title, "  ", most);
    let width = |at: usize| {
        let cells = table.rows.iter().filter_map(|row| row.get(at)).map(|cell| cell.text().width());
        cells.chain(table.columns.get(at).map(|c| c.heading.width())).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..table.columns.len()).map(width).collect();
    let mut line = |cells: Vec<(&str, bool)>| {
        let mut text = String::from("   ");
        for ((cell, is_number), width) in cells.into_iter().zip(&widths) {
            let fill = " ".repeat(width.saturating_sub(cell.width()));
            text += &if is_number { format!(" {fill}{cell} ") } else { format!(" {cell}{fill} ") };
        }
        out.push_str(text.trim_end());
        out.push('\n');
    };
    let is_number = |at: usize| table.rows.iter().filter_map(|row| row.get(at)).any(|cell| cell.number().is_some());
    line(table.columns.iter().enumerate().map(|(at, c)| (c.heading.as_str(), is_number(at))).collect());
    for row in &table.rows {
        line(row.iter().enumerate().map(|(at, cell)| (cell.text(), is_number(at))).collect());
    }
    for column in table.columns.iter().filter(|c| !c.formula.is_empty()) {
        out += &wrapped(&format!("{} = {}", column.symbol, column.formula), "    ", most);
    }
    out
}

/// Broken into lines at spaces, each indented.
fn wrapped(text: &str, indent: &str, width: usize) -> String {
    broken(&text.split(' ').collect::<Vec<_>>(), indent, width)
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

fn broken(pieces: &[impl AsRef<str>], indent: &str, width: usize) -> String {
    let mut out = String::new();
    let mut line = String::new();
    for word in pieces {
        let word = word.as_ref();
        if !line.is_empty() && indent.width() + line.width() + 1 + word.width() > width {
            out += &format!("{indent}{line}\n");
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line += word;
    }
    out += &format!("{indent}{line}\n");
    out
}
