//! A working in Markdown: for a worksheet, or for an editor's window.

use crate::page::{Block, Table};
use crate::text::HOW;
use crate::Working;

/// The page in Markdown.
pub fn markdown(working: &Working) -> String {
    let mut out = format!("# {}\n\n{HOW}\n", escaped(&working.title));
    let mut number = 0;
    for block in &working.blocks {
        out.push('\n');
        match block {
            Block::Known(list) => {
                out += "| | value | what it is | from |\n|---|---:|---|---|\n";
                for k in list {
                    let cells = [&k.symbol, &k.number.to_string(), &k.means, &k.from].map(|cell| escaped(cell));
                    out += &format!("| {} |\n", cells.join(" | "));
                }
            }
            Block::Step(step) => {
                number += 1;
                out += &format!("{number}. **{}**\n\n", escaped(&step.want));
                // Code keeps every sign as it is.
                for line in [
                    format!("{} = {}", step.symbol, step.formula),
                    format!("{} = {}", step.symbol, step.values),
                    format!("{} = {}", step.symbol, step.result),
                ] {
                    out += &format!("       {line}\n");
                }
                out += &format!("\n   Source: {}\n", escaped(&step.source));
            }
            Block::Table(table) => out += &table_text(table),
            Block::Note(text) => out += &format!("{}\n", escaped(text)),
        }
    }
    out += "\n## Compared\n\n";
    for end in &working.ends {
        out += &format!("- {}\n", escaped(&end.in_words()));
    }
    if !working.neglects.is_empty() {
        out += "\n## Left out by hand\n\n";
        for neglect in &working.neglects {
            out += &format!("- {}\n", escaped(neglect));
        }
    }
    out
}

fn table_text(table: &Table) -> String {
    let mut out = format!("{}:\n\n", escaped(&table.title));
    let line = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    out += &line(table.columns.iter().map(|c| escaped(&c.heading)).collect());
    let is_number = |at: usize| table.rows.iter().filter_map(|row| row.get(at)).any(|cell| cell.number().is_some());
    out += &line((0..table.columns.len()).map(|at| if is_number(at) { "---:" } else { "---" }.to_string()).collect());
    for row in &table.rows {
        out += &line(row.iter().map(|cell| escaped(cell.text())).collect());
    }
    for column in table.columns.iter().filter(|c| !c.formula.is_empty()) {
        out += &format!("\n`{} = {}`\n", column.symbol, column.formula);
    }
    out
}

/// Names come from the file: what Markdown would take for its own is told to be text.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        if matches!(c, '\\' | '|' | '*' | '_' | '`' | '<' | '>' | '[' | ']' | '#') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}
