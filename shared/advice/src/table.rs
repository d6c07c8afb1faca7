//! The comparison as a table: the same cells in a terminal, on a page and in a hover.

use crate::compare::{Candidate, Comparison, Verdict};
use crate::words::floor;
use finwright_units::reader::alone;
use finwright_units::show;

/// What the comparison is of, in a line.
pub fn heading(comparison: &Comparison) -> String {
    let wind = match (comparison.wind_m_s, comparison.gust_m_s) {
        (0.0, 0.0) => "no wind".to_string(),
        (wind, gust) if gust > wind => format!("{} of wind, gusts of {}", show::speed(wind), show::speed(gust)),
        (wind, _) => format!("{} of wind", show::speed(wind)),
    };
    let pads =
        if comparison.from_ladder { "the usual rods and rails (the file has no pad)" } else { "the pads at hand" };
    format!("{} in {wind}: {pads}, for an exit at {} or more", comparison.motor, show::speed(comparison.floor_m_s))
}

/// How the columns are to be read.
pub fn reading() -> String {
    format!("speeds in {}: {READING}", show::speed_unit())
}

const READING: &str = "when the front guide and the last one leave, and over the least exit speed; lean of the tip in\nthe steady wind and in a gust, the rocket at rest; swing: first frequency; wind to: the strongest that passes";

const COLUMNS: [&str; 10] = ["pad", "what", "front", "last", "over", "lean, gust", "swing", "play", "load", "wind to"];

/// The table's rows, headings first.
pub fn rows(comparison: &Comparison) -> Vec<Vec<String>> {
    let mut rows = vec![COLUMNS.into_iter().map(headed).chain(["verdict".to_string()]).collect::<Vec<_>>()];
    alone(|| rows.extend(comparison.candidates.iter().map(cells)));
    rows
}

/// A column's heading, with the unit of its speeds where that isn't the one of SI.
fn headed(column: &str) -> String {
    match (column, show::speed_unit()) {
        ("front" | "last" | "over" | "wind to", unit) if unit != "m/s" => format!("{column} ({unit})"),
        _ => column.to_string(),
    }
}

/// The same as a table in Markdown, a line a row.
pub fn markdown(comparison: &Comparison) -> String {
    let rows = rows(comparison);
    let columns = rows.first().map_or(0, Vec::len);
    let mut lines: Vec<String> = rows.iter().map(|row| format!("| {} |", row.join(" | "))).collect();
    lines.insert(1, format!("|{}", " --- |".repeat(columns)));
    lines.join("\n")
}

fn cells(c: &Candidate) -> Vec<String> {
    let some = |value: Option<f64>, how: &dyn Fn(f64) -> String| value.map_or("–".to_string(), how);
    let speed = |v: f64| show::speed_number(v);
    let over = |v: f64| if v >= 0.0 { format!("+{}", show::speed_number(v)) } else { show::speed_number(v) };
    let lean = match (c.lean_wind_rad, c.lean_gust_rad) {
        (Some(wind), Some(gust)) => {
            let tip = c.tip_gust_m.map_or(String::new(), |tip| format!(" ({})", show::length(tip)));
            format!("{}, {}{tip}", show::angle(wind), show::angle(gust))
        }
        _ => "–".to_string(),
    };
    let wind = c.ceiling.as_ref().map_or("–".to_string(), |ceiling| match ceiling.in_still_air.is_empty() {
        true => show::speed_number_at_most(floor(ceiling.wind)),
        false => "none".to_string(),
    });
    vec![
        c.pad.clone(),
        c.rail.clone(),
        some(c.front_release_m_s, &speed),
        some(c.exit_speed_m_s, &speed),
        some(c.over_floor_m_s, &over),
        lean,
        some(c.frequency_hz, &|f| format!("{} Hz", show::significant(f, 2, 1))),
        some(c.play_rad, &show::angle),
        some(c.load_share, &|share| format!("{} %", show::trimmed(100.0 * share, 0))),
        wind,
        match c.found.first().filter(|_| c.verdict >= Verdict::Look) {
            Some(first) => format!("{}: {}", c.verdict.words(), first.rule),
            None => c.verdict.words().to_string(),
        },
    ]
}
