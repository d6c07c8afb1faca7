//! The day's list for a terminal.

use super::line::Line;
use super::said::{answer, cells, distances, foot, heads, name, open, title, verdict};
use super::List;
use crate::layout::table::{Column, Table};
use crate::layout::{columns, hanging, measure};
use crate::output::{closing, printable};
use finwright_checks::Verdict;

/// The columns that a terminal shows, by their number among [`heads`], each with its turn to give way.
const SHOWN: [(usize, Option<u8>); 9] =
    [(0, None), (1, None), (2, Some(4)), (3, Some(3)), (4, Some(5)), (5, None), (6, None), (7, None), (8, Some(2))];

pub fn text(day: &List) -> String {
    let line = |said: &str, rest: &str| format!("{}\n", hanging(&printable(said), "", rest, measure()));
    let mut out = line(&title(day), "  ") + "\n";
    answer(day).iter().for_each(|said| out += &line(said, "  "));
    let heads = heads();
    let column = |(at, turn): &(usize, Option<u8>)| {
        let column = Column::words(heads.get(*at).map_or("", String::as_str));
        match turn {
            Some(turn) => column.gives_way(*turn),
            None => column,
        }
    };
    let mut table = Table::new(SHOWN.iter().map(column));
    for line in &day.lines {
        let mut cells = cells(line);
        // A terminal has no room to say of every motor what its class is.
        cells.get_mut(1).into_iter().for_each(|cell| *cell = line.motor.clone().unwrap_or_default());
        table.row(SHOWN.iter().map(|(at, _)| printable(cells.get(*at).map_or("", String::as_str))));
    }
    let laid = table.text(columns());
    out += &format!("\n{}", laid.text);
    if !laid.left_out.is_empty() {
        let left_out = laid.left_out.join("; ");
        out += "  ";
        out += &line(&format!("no room here for: {left_out}; `-o day.pdf` and `--format csv` have them"), "  ");
    }
    let remarks: Vec<String> = day.lines.iter().filter_map(remark).collect();
    if !remarks.is_empty() {
        out.push('\n');
    }
    remarks.iter().for_each(|said| out += &(hanging(&printable(said), "  - ", "    ", measure()) + "\n"));
    foot(day).iter().for_each(|said| out += &closing(said));
    out
}

/// What is to be known of a rocket besides its row: what speaks against it, what is open, what is allowed, how far away
/// people stay.
fn remark(line: &Line) -> Option<String> {
    let verdict = (line.verdict != Verdict::MeetsTheChecks || !line.fits).then(|| verdict(line));
    let open = Some(open(line)).filter(|open| open != "nothing");
    let distances = line.code.map(|_| format!("distances: {}", distances(line)));
    let said: Vec<String> = verdict.into_iter().chain(open).chain(distances).collect();
    (!said.is_empty()).then(|| format!("{}: {}", name(line), said.join("; ")))
}
