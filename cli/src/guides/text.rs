//! The comparison in a terminal: the sentence that answers, then the table, then what stands behind it.

use super::asked::Asked;
use super::places::{in_words, placements, to_fix};
use super::said::{guides_of, left_open, nothing, supposed, winds};
use super::{lengths, motors};
use crate::layout::table::{Column as Laid, Table};
use crate::layout::{columns, hanging, measure, paragraph};
use crate::output::{closing, AT_THE_PAD, CAUTION};
use finwright_advice::table::{cells, heading, legend, COLUMNS};
use finwright_advice::words::{answer, besides};
use finwright_advice::{Comparison, Lengths};
use finwright_units::show;

pub fn text(asked: &Asked, found: &[Comparison]) -> String {
    let (shown, analysis) = (asked.shown.as_str(), &asked.own);
    let mut out = format!("{}\n", analysis.design.title.as_ref().map_or(shown, |t| t.value.as_str()));
    if found.is_empty() {
        out += &format!("\n{}\n", paragraph(&nothing(analysis), "", measure()));
    }
    if let Some(supposed) = supposed(asked) {
        out += &format!("\n{}\n", paragraph(&supposed, "", measure()));
    }
    if asked.is_about_motors() {
        out += &format!("\n{}\n\n{}", paragraph(&motors::answer(found), "", measure()), of_motors(found));
        return out + &closing(AT_THE_PAD) + &closing(CAUTION);
    }
    for comparison in found {
        out += &format!("\n{}\n", paragraph(&answer(comparison), "", measure()));
        out += &format!("\n{}\n\n", paragraph(&heading(comparison), "", measure()));
        out += &table(comparison);
        comparison.candidates.iter().for_each(|candidate| out += &point(&guides_of(comparison, candidate)));
        out.push('\n');
        for line in besides(comparison).into_iter().chain(winds(comparison)).chain(left_open(comparison)) {
            out += &format!("{}\n", said(&line));
        }
        out += &comparison.lengths.as_ref().map_or(String::new(), of_lengths);
    }
    for (what, placement) in placements(asked.analysis(), asked.wind) {
        out += &format!("\n{what}\n");
        for spot in &placement.guides {
            out += &(hanging(&in_words(spot), "  ", "    ", measure()) + "\n");
            let fixed = to_fix(&placement, spot);
            out += &fixed.map_or(String::new(), |fix| hanging(&fix, "    ", "    ", measure()) + "\n");
        }
        placement.reasons.iter().for_each(|reason| out += &point(reason));
    }
    out + &closing(AT_THE_PAD) + &closing(CAUTION)
}

/// The table with how its columns are read, and which of them this terminal has no room for.
fn table(comparison: &Comparison) -> String {
    let last = COLUMNS.len() - 1;
    let mut table = Table::new(COLUMNS.iter().enumerate().map(|(at, column)| {
        let laid = match (column.is_words, at == last) {
            (true, true) => Laid::prose(column.word, 20),
            (true, false) => Laid::words(column.word),
            (false, _) => Laid::numbers(column.word, column.unit().unwrap_or_default()),
        };
        match column.gives_way {
            Some(turn) => laid.gives_way(turn),
            None => laid,
        }
    }));
    comparison.candidates.iter().for_each(|candidate| table.row(cells(candidate)));
    let laid = table.text(columns());
    let is_shown = |column: &&finwright_advice::table::Column| !laid.left_out.iter().any(|left| left == column.word);
    let mut out = laid.text.clone() + &said(&legend(COLUMNS.iter().filter(is_shown))) + "\n";
    if !laid.left_out.is_empty() {
        let left_out = laid.left_out.join(", ");
        out +=
            &(said(&format!("no room here for: {left_out}; `--format markdown` and `--format csv` have them")) + "\n");
    }
    out
}

/// The shortest rods and rails, wind by wind, with what decides.
fn of_lengths(lengths: &Lengths) -> String {
    // Where there isn't room for all winds the strongest give way.
    let winds = lengths.winds_m_s.iter().zip((0..=u8::MAX).rev());
    let winds = winds.map(|(wind, turn)| Laid::numbers(&show::speed_number(*wind), show::speed_unit()).gives_way(turn));
    let mut table = Table::new(std::iter::once(Laid::words("rod or rail")).chain(winds));
    lengths.sizes.iter().for_each(|size| table.row(lengths::cells(size)));
    let laid = table.text(columns());
    let mut out = format!("\n{}\n\n{}{}\n", lengths::HEADING, laid.text, said(lengths::LEGEND));
    if !laid.left_out.is_empty() {
        let winds = format!("{} {}", laid.left_out.join(", "), show::speed_unit());
        out += &(said(&format!("no room here for winds of {winds}; `--format markdown` has them")) + "\n");
    }
    lengths::limits(lengths).iter().for_each(|line| out += &point(line));
    out
}

/// The motors side by side.
fn of_motors(found: &[Comparison]) -> String {
    let [motor, from, exit, verdict] = motors::HEADS;
    let laid = [Laid::words(motor), Laid::words(from), Laid::numbers(exit, ""), Laid::prose(verdict, 20)];
    let mut table = Table::new(laid);
    found.iter().for_each(|comparison| table.row(motors::cells(comparison).to_vec()));
    table.text(columns()).text
}

fn said(text: &str) -> String {
    paragraph(text, "  ", measure())
}

fn point(text: &str) -> String {
    hanging(text, "  - ", "    ", measure()) + "\n"
}
