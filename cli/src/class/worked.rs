//! One number of a pupil's own, worked by hand: the page of the working, as HTML.

use finwright_checks::{Analysis, Finding};
use finwright_draw::svg::escaped;
use finwright_working::page::{Block, Known, Step, Table};
use finwright_working::{working, Quantity, Working};

/// Numbers that a first working may be of where no finding asks for another, the shortest first.
const USUAL: [Quantity; 4] = [Quantity::Margin, Quantity::ThrustToWeight, Quantity::Balance, Quantity::PressureCentre];

/// The working of the number behind the gravest finding that has one, else of a usual one that is known.
pub fn worked(analysis: &Analysis, flight: usize) -> Option<Working> {
    let mut found: Vec<&Finding> = analysis.findings.iter().collect();
    found.sort_by_key(|finding| finding.level);
    let behind = found.iter().filter_map(|finding| Quantity::behind(finding.rule));
    let mut wanted = behind.chain(USUAL);
    wanted.find_map(|quantity| working(&analysis.design, &analysis.assessment, flight, quantity).ok())
}

/// It as HTML.
pub fn html(working: &Working) -> String {
    let mut out = String::from(
        "<p>Each result is worked from the numbers as they stand here, rounded to five digits, and the rounded result is \
         carried on. Take a calculator and follow it.</p>\n",
    );
    let mut number = 0;
    for block in &working.blocks {
        match block {
            Block::Known(list) => known(&mut out, list),
            Block::Step(it) => {
                number += 1;
                step(&mut out, it, number);
            }
            Block::Table(it) => table(&mut out, it),
            Block::Note(words) => out += &format!("<p>{}</p>\n", escaped(words)),
        }
    }
    for end in &working.ends {
        out += &format!("<p><strong>{}</strong></p>\n", escaped(&end.in_words()));
    }
    if !working.neglects.is_empty() {
        let neglects: Vec<String> = working.neglects.iter().map(|neglect| escaped(neglect)).collect();
        out += &format!("<p>Left out by hand:</p>\n{}", super::html::list(&neglects));
    }
    out
}

fn known(out: &mut String, list: &[Known]) {
    *out += "<dl class=\"known\">\n";
    for known in list {
        let (symbol, number) = (escaped(&known.symbol), escaped(&known.number.to_string()));
        let (means, from) = (escaped(&known.means), escaped(&known.from));
        *out += &format!("<dt>{symbol} = {number}</dt><dd>{means}; {from}</dd>\n");
    }
    *out += "</dl>\n";
}

fn step(out: &mut String, step: &Step, number: usize) {
    let result = step.result.to_string();
    let lines = [(step.symbol.as_str(), &step.formula), ("", &step.values), ("", &result)];
    let lines = lines.map(|(symbol, line)| format!("<p>{} = {}</p>\n", escaped(symbol), escaped(line)));
    *out += &format!(
        "<div class=\"step\"><h3>{number}. {}</h3>\n<div class=\"sum\">{}<p class=\"source\">{}</p></div></div>\n",
        escaped(&step.want),
        lines.concat(),
        escaped(&step.source)
    );
}

fn table(out: &mut String, table: &Table) {
    *out += &format!("<h3>{}</h3>\n<div class=\"wide\" tabindex=\"0\"><table>\n<thead><tr>", escaped(&table.title));
    for column in &table.columns {
        *out += &format!("<th scope=\"col\">{}</th>", escaped(&column.heading));
    }
    *out += "</tr></thead>\n<tbody>\n";
    for row in &table.rows {
        let cells: String = row.iter().map(|cell| format!("<td>{}</td>", escaped(cell.text()))).collect();
        *out += &format!("<tr>{cells}</tr>\n");
    }
    *out += "</tbody></table></div>\n";
    let formulas = table.columns.iter().filter(|column| !column.formula.is_empty());
    let said: Vec<String> = formulas
        .map(|c| format!("{}: {} = {}", escaped(&c.heading), escaped(&c.symbol), escaped(&c.formula)))
        .collect();
    *out += &super::html::list(&said);
}
