//! `grades.csv`, for the gradebook.

use super::Report;
use crate::escape::cell;
use finwright_units::show;

/// One row a pupil: whose it is, the points, and a comment that says whose it is, too, for whoever pastes it.
pub fn grades(report: &Report) -> Result<String, String> {
    let mut out = csv::Writer::from_writer(Vec::new());
    let failed = |error: csv::Error| error.to_string();
    out.write_record(["id", "name", "points", "of", "comment"]).map_err(failed)?;
    for looked in &report.looked {
        let grade = &looked.grade;
        let lines = if grade.lines.is_empty() { String::new() } else { format!("; {}", grade.lines.join("; ")) };
        let comment = format!("For {} alone: {}{lines}", looked.name, looked.state.words());
        let number = |value: f64| show::trimmed(value, 2);
        out.write_record([
            cell(&looked.id),
            cell(&looked.name),
            number(grade.points),
            number(grade.of),
            cell(&comment),
        ])
        .map_err(failed)?;
    }
    let bytes = out.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}
