//! The comparison as a page in Markdown.

use super::asked::Asked;
use super::places::{in_words, placements, to_fix};
use super::said::{guides_of, left_open, nothing, supposed, winds};
use super::{lengths, motors};
use crate::output::{AT_THE_PAD, CAUTION};
use finwright_advice::table::{heading, markdown as table};
use finwright_advice::words::{answer, besides};
use finwright_advice::Comparison;

pub fn page(asked: &Asked, found: &[Comparison]) -> String {
    let (shown, analysis) = (asked.shown.as_str(), &asked.own);
    let mut out = format!("# {}\n", analysis.design.title.as_ref().map_or(shown, |t| t.value.as_str()));
    if found.is_empty() {
        out += &format!("\n**{}**\n", nothing(analysis));
    }
    if let Some(supposed) = supposed(asked) {
        out += &format!("\n{supposed}\n");
    }
    if asked.is_about_motors() {
        let heads = motors::HEADS.map(str::to_string).to_vec();
        out += &format!("\n**{}**\n", motors::answer(found));
        return out
            + &rows(heads, found.iter().map(|c| motors::cells(c).to_vec()))
            + "\n"
            + AT_THE_PAD
            + "\n\n"
            + CAUTION
            + "\n";
    }
    for comparison in found {
        out += &format!("\n**{}**\n\n## {}\n\n{}\n", answer(comparison), heading(comparison), table(comparison));
        comparison.candidates.iter().for_each(|c| out += &format!("\n* {}", guides_of(comparison, c)));
        out.push('\n');
        for line in besides(comparison).into_iter().chain(winds(comparison)).chain(left_open(comparison)) {
            out += &format!("\n{line}\n");
        }
        if let Some(lengths) = &comparison.lengths {
            out += "\n## How long it must be, by the steady wind\n";
            out += &rows(lengths::heads(lengths), lengths.sizes.iter().map(lengths::cells));
            out += &format!("\n{}\n", lengths::LEGEND);
            lengths::limits(lengths).iter().for_each(|line| out += &format!("\n* {line}"));
            out.push('\n');
        }
    }
    for (what, placement) in placements(asked.analysis(), asked.wind) {
        out += &format!("\n## {what}\n\n");
        for spot in &placement.guides {
            let fixed = to_fix(&placement, spot).map_or(String::new(), |fix| format!("; {fix}"));
            out += &format!("* {}{fixed}\n", in_words(spot));
        }
        placement.reasons.iter().for_each(|reason| out += &format!("* {reason}\n"));
    }
    out + "\n" + AT_THE_PAD + "\n\n" + CAUTION + "\n"
}

/// A table in Markdown with an empty line above.
fn rows(heads: Vec<String>, rows: impl Iterator<Item = Vec<String>>) -> String {
    let line = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    let rule = format!("|{}\n", " --- |".repeat(heads.len()));
    format!("\n{}{rule}{}", line(heads), rows.map(line).collect::<String>())
}
