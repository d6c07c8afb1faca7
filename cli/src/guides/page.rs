//! The comparison as a page in Markdown.

use super::places::{in_words, placements};
use super::said::{guides_of, left_open, nothing, winds};
use crate::output::{AT_THE_PAD, CAUTION};
use finwright_advice::table::{heading, markdown as table};
use finwright_advice::words::{answer, besides};
use finwright_advice::Comparison;
use finwright_checks::Analysis;

pub fn page(shown: &str, analysis: &Analysis, found: &[Comparison], wind: Option<f64>) -> String {
    let mut out = format!("# {}\n", analysis.design.title.as_ref().map_or(shown, |t| t.value.as_str()));
    if found.is_empty() {
        out += &format!("\n**{}**\n", nothing(analysis));
    }
    for comparison in found {
        out += &format!("\n**{}**\n\n## {}\n\n{}\n", answer(comparison), heading(comparison), table(comparison));
        comparison.candidates.iter().for_each(|c| out += &format!("\n* {}", guides_of(comparison, c)));
        out.push('\n');
        for line in besides(comparison).into_iter().chain(winds(comparison)).chain(left_open(comparison)) {
            out += &format!("\n{line}\n");
        }
    }
    for (what, placement) in placements(analysis, wind) {
        out += &format!("\n## {what}\n\n");
        placement.guides.iter().for_each(|spot| out += &format!("* {}\n", in_words(spot)));
        placement.reasons.iter().for_each(|reason| out += &format!("* {reason}\n"));
    }
    out + "\n" + AT_THE_PAD + "\n\n" + CAUTION + "\n"
}
