//! A working set as pages: what we want, the formula, the values put in, the result.

use crate::draft::Draft;
use crate::font::{cut, tied, width, wrapped, LEAD};
use crate::paper::Paper;
use crate::scene::{Pen, Role, Scene, Style};
use finwright_working::page::{Block, Known, Step, Table};
use finwright_working::Working;

const EDGE: f64 = 20.0;
const HOW: &str =
    "Each result is worked from the numbers as they stand here, rounded to five digits, and the rounded result \
                   is carried on. Angles are in degrees.";

/// The pages of a working, with the verdict on its flight below.
pub fn working(working: &Working, closing: &[String], paper: Paper) -> Vec<Scene> {
    let (width, height) = paper.size();
    let mut sheet = Sheet {
        title: working.title.clone(),
        width,
        height,
        done: Vec::new(),
        draft: blank((width, height)),
        y: EDGE + 2.0,
    };
    sheet.flow(&working.title, Style::TITLE, 0.0);
    sheet.y += 1.0;
    sheet.flow(HOW, Style::LABEL.role(Role::Mid), 0.0);
    let mut number = 0;
    for block in &working.blocks {
        sheet.y += 3.2;
        match block {
            Block::Known(list) => known(&mut sheet, list),
            Block::Step(it) => {
                number += 1;
                step(&mut sheet, it, number);
            }
            Block::Table(it) => table(&mut sheet, it),
            Block::Note(words) => sheet.flow(words, Style::LABEL, 0.0),
        }
    }
    sheet.y += 3.0;
    for end in &working.ends {
        sheet.flow(&end.in_words(), Style::LABEL.bold(), 0.0);
    }
    if !working.neglects.is_empty() {
        sheet.y += 2.0;
        sheet.flow("Left out by hand:", Style::LABEL.bold(), 0.0);
        working.neglects.iter().for_each(|neglect| sheet.flow(neglect, Style::LABEL, 4.0));
    }
    for line in closing {
        sheet.y += 2.0;
        sheet.flow(line, Style::LABEL.role(Role::Mid), 0.0);
    }
    sheet.turn();
    sheet.done
}

/// Pages being filled.
struct Sheet {
    title: String,
    width: f64,
    height: f64,
    done: Vec<Scene>,
    draft: Draft,
    y: f64,
}

fn blank((width, height): (f64, f64)) -> Draft {
    Draft::new("working", width, height)
}

impl Sheet {
    fn room(&self) -> f64 {
        self.width - 2.0 * EDGE
    }

    /// Go on to another page where so much doesn't fit on this one.
    fn need(&mut self, height: f64) {
        if self.y + height > self.height - EDGE {
            self.turn();
        }
    }

    fn turn(&mut self) {
        let number = self.done.len() + 1;
        let at = (self.width / 2.0, self.height - 10.0);
        self.draft.text(at, format!("{number}"), Style::NOTE.middle());
        let draft = std::mem::replace(&mut self.draft, blank((self.width, self.height)));
        self.done.push(draft.done(self.title.clone(), format!("Page {number} of the working.")));
        self.y = EDGE + 2.0;
    }

    /// Words over the page's width, from `indent` on.
    fn flow(&mut self, words: &str, style: Style, indent: f64) {
        for line in wrapped(words, style, self.room() - indent) {
            self.need(style.size * LEAD);
            self.draft.text((EDGE + indent, self.y), line, style);
            self.y += style.size * LEAD;
        }
    }
}

fn known(sheet: &mut Sheet, list: &[Known]) {
    let bold = Style::LABEL.bold();
    let symbols = list.iter().map(|known| width(&known.symbol, bold)).fold(0.0, f64::max) + 2.0;
    let numbers =
        list.iter().map(|known| width(&tied(&known.number.to_string()), Style::LABEL)).fold(0.0, f64::max) + 7.0;
    for known in list {
        let from = (symbols + numbers).min(sheet.room() * 0.6);
        let lines = wrapped(&format!("{}; {}", known.means, known.from), Style::LABEL, sheet.room() - from);
        sheet.need(lines.len() as f64 * Style::LABEL.size * LEAD);
        sheet.draft.text((EDGE, sheet.y), cut(&known.symbol, bold, symbols), bold);
        sheet.draft.text((EDGE + symbols, sheet.y), format!("= {}", tied(&known.number.to_string())), Style::LABEL);
        for line in lines {
            sheet.draft.text((EDGE + from, sheet.y), line, Style::LABEL.role(Role::Mid));
            sheet.y += Style::LABEL.size * LEAD;
        }
    }
}

fn step(sheet: &mut Sheet, step: &Step, number: usize) {
    sheet.need(26.0);
    sheet.flow(&format!("{number}. {}", step.want), Style::LABEL.bold(), 0.0);
    let indent = 6.0 + width(&step.symbol, Style::LABEL.bold()) + 2.0;
    let y = sheet.y;
    sheet.draft.text((EDGE + 6.0, y), step.symbol.as_str(), Style::LABEL.bold());
    for (words, style) in
        [(&step.formula, Style::LABEL), (&step.values, Style::LABEL), (&step.result.to_string(), Style::LABEL.bold())]
    {
        for (i, line) in wrapped(words, style, sheet.room() - indent - 4.0).into_iter().enumerate() {
            sheet.need(5.0);
            if i == 0 {
                sheet.draft.text((EDGE + indent, sheet.y), "=", Style::LABEL);
            }
            sheet.draft.text((EDGE + indent + 4.0, sheet.y), line, style);
            sheet.y += Style::LABEL.size * LEAD;
        }
    }
    sheet.flow(&step.source, Style::NOTE, indent + 4.0);
}

fn table(sheet: &mut Sheet, table: &Table) {
    sheet.flow(&table.title, Style::LABEL.bold(), 0.0);
    let columns = table.columns.len().max(1);
    let style = Style::NOTE.role(Role::Ink);
    let natural: Vec<f64> = (0..columns)
        .map(|at| {
            let cells = table.rows.iter().filter_map(|row| row.get(at)).map(|cell| width(cell.text(), style));
            let heading = table.columns.get(at).map_or(0.0, |column| longest_word(&column.heading, Style::NOTE));
            cells.fold(heading, f64::max) + 3.0
        })
        .collect();
    let total: f64 = natural.iter().sum();
    let share = (sheet.room() / total).min(1.0);
    let wide: Vec<f64> = natural.iter().map(|wide| wide * share).collect();
    let lines: Vec<Vec<String>> = table
        .columns
        .iter()
        .zip(&wide)
        .map(|(column, wide)| wrapped(&column.heading, Style::NOTE, wide - 1.5))
        .collect();
    let deep = lines.iter().map(Vec::len).max().unwrap_or(1);
    sheet.need((deep as f64 + 2.0) * 4.0);
    let mut x = EDGE;
    for (heading, wide) in lines.iter().zip(&wide) {
        for (i, line) in heading.iter().enumerate() {
            sheet.draft.text((x, sheet.y + 4.0 * i as f64), line.as_str(), Style::NOTE);
        }
        x += wide;
    }
    sheet.y += 4.0 * deep as f64;
    sheet.draft.line(&[(EDGE, sheet.y - 2.8), (x, sheet.y - 2.8)], Pen::HAIR);
    sheet.y += 0.6;
    for row in &table.rows {
        let cells: Vec<Vec<String>> =
            row.iter().zip(&wide).map(|(cell, wide)| wrapped(cell.text(), style, wide - 1.5)).collect();
        let deep = cells.iter().map(Vec::len).max().unwrap_or(1);
        sheet.need(4.0 * deep as f64);
        let mut x = EDGE;
        for (cell, wide) in cells.iter().zip(&wide) {
            for (i, line) in cell.iter().enumerate() {
                sheet.draft.text((x, sheet.y + 4.0 * i as f64), line.as_str(), style);
            }
            x += wide;
        }
        sheet.y += 4.0 * deep as f64;
    }
    for column in table.columns.iter().filter(|column| !column.formula.is_empty()) {
        let words = format!("{}: {} = {}", column.heading, column.symbol, column.formula);
        sheet.flow(&words, Style::NOTE, 4.0);
    }
}

fn longest_word(words: &str, style: Style) -> f64 {
    words.split(' ').map(|word| width(word, style)).fold(0.0, f64::max)
}
