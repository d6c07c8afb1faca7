//! What came of a class, for a terminal.

use super::tally::{common, counted};
use super::Report;
use crate::layout::table::{Column, Table};
use crate::layout::{hanging, measure};
use crate::output::{plural, printable, CAUTION};
use finwright_units::show;

/// More rows than these aren't shown in a terminal; the teacher's page has them all.
const MOST_ROWS: usize = 200;
const MOST_KINDS: usize = 8;

pub fn summary(report: &Report) -> String {
    let looked = &report.looked;
    let what = if report.has_roster { "pupil" } else { "submission" };
    let line = |words: &str| format!("{}\n", hanging(&printable(words), "", "  ", measure()));
    let mut out = line(&format!("{}: {}.", plural(looked.len(), what), counted(looked)));
    let mut table = Table::new([
        Column::words("id"),
        Column::words("who").gives_way(1),
        Column::numbers("points", ""),
        Column::prose("what came of it", 24),
    ]);
    for one in looked.iter().take(MOST_ROWS) {
        let fault = one.faults.first().map_or(String::new(), |fault| format!("; {fault}"));
        let reason = one.designs.iter().min_by_key(|design| design.verdict).and_then(|design| design.reason.as_ref());
        let reason = reason.map_or(String::new(), |reason| format!(": {reason}"));
        let said = format!("{}{reason}{fault}", one.state.words());
        table.row([printable(&one.id), printable(&one.name), show::trimmed(one.grade.points, 2), printable(&said)]);
    }
    out += &format!("\n{}", table.text(measure()).text);
    if looked.len() > MOST_ROWS {
        out += &line(&format!("… and {} more", looked.len() - MOST_ROWS));
    }
    let found = common(looked);
    if !found.is_empty() {
        out += "\nFound most often:\n";
    }
    for kind in found.iter().take(MOST_KINDS) {
        out += &line(&format!("  {} of {}: {} {}", kind.count, looked.len(), kind.level.word(), kind.rule));
    }
    let pairs = report.alike.len();
    if pairs > 0 {
        let pairs = if pairs == 1 { "1 pair".to_string() } else { format!("{pairs} pairs") };
        out += &format!("\n{}", line(&format!("{pairs} to look at together; the teacher's page has them.")));
    }
    let unclaimed = &report.class.unclaimed;
    if !unclaimed.is_empty() {
        let told: Vec<&str> = unclaimed.iter().take(MOST_KINDS).map(String::as_str).collect();
        let more = unclaimed.len().saturating_sub(MOST_KINDS);
        let more = if more > 0 { format!(" and {more} more") } else { String::new() };
        out += &format!("\n{}", line(&format!("Nobody's on the roster: {}{more}", told.join(", "))));
    }
    out + "\n" + &line(CAUTION)
}
