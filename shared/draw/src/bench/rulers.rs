//! Rulers under the rocket: for each kind of part, how far ahead of the aft end it sits.

use super::Lying;
use crate::draft::{Draft, Head};
use crate::font::cut;
use crate::rocket::Rocket;
use crate::scene::{Pen, Role, Style};
use crate::subject::Subject;
use finwright_grammar::Place;
use finwright_model::PartKind;
use finwright_units::show;

/// A ruler.
pub struct Row {
    /// What it measures.
    pub name: &'static str,
    /// Stations from the tip, m, the rearmost first, each with the part that sits there.
    pub stations: Vec<(f64, Option<Place>)>,
}

/// How far apart rulers are, mm.
const STEP: f64 = 9.0;

/// The rulers of a rocket.
pub fn rows(subject: Subject, rocket: &Rocket) -> Vec<Row> {
    let parts = subject.parts();
    let mut rows: Vec<Row> = ["fins", "lugs", "buttons", "rail guides", "joints"]
        .map(|name| Row { name, stations: Vec::new() })
        .into_iter()
        .collect();
    for (id, part, extent) in parts.placed() {
        let place = subject.place(id);
        let (row, stations) = match &part.kind {
            PartKind::Fins(_) | PartKind::TubeFins { .. } | PartKind::RingFin { .. } => {
                (0, vec![extent.back, extent.front])
            }
            PartKind::Lug { .. } => (1, vec![extent.middle()]),
            PartKind::Button { .. } => (2, vec![extent.middle()]),
            PartKind::RailGuide { .. } => (3, vec![extent.middle()]),
            _ if part.is_body() => (4, vec![extent.front]),
            _ => continue,
        };
        rows[row].stations.extend(stations.into_iter().map(|station| (station, place)));
    }
    for row in &mut rows {
        row.stations.retain(|(station, _)| station.is_finite());
        row.stations.sort_by(|one, other| other.0.total_cmp(&one.0));
        row.stations.dedup_by(|one, other| (one.0 - other.0).abs() < 0.3e-3);
    }
    rows.retain(|row| !row.stations.is_empty());
    let _ = rocket;
    rows
}

/// Threads from the rocket down to its rulers, which come before everything that hides them.
pub fn threads(draft: &mut Draft, lying: &Lying, rows: &[Row], first: f64) {
    for (i, row) in rows.iter().enumerate() {
        let y = first + STEP * i as f64;
        for (station, place) in &row.stations {
            let x = lying.x(*station);
            draft.stands_for(*place);
            draft.line(&[(x, lying.axis), (x, y)], Pen::HAIR.role(Role::Faint));
        }
    }
    draft.stands_for(None);
}

/// The rulers, a row for each kind, the number over and right of its mark. Gives the y below.
pub fn draw(draft: &mut Draft, lying: &Lying, rows: &[Row], first: f64) -> f64 {
    let aft = lying.aft;
    let (per, _, decimals) = show::ruler();
    for (i, row) in rows.iter().enumerate() {
        let y = first + STEP * i as f64;
        let style = Style::LABEL;
        draft.text((aft - 4.0, y + 1.1), cut(row.name, style.bold(), aft - 8.0), style.bold().end());
        let marks: Vec<f64> = row.stations.iter().map(|(station, _)| lying.x(*station)).collect();
        let (low, high) = marks.iter().fold((aft, aft), |(low, high), x| (low.min(*x), high.max(*x)));
        draft.line(&[(low, y), (high, y)], Pen::THIN);
        draft.line(&[(aft, y - 1.6), (aft, y + 1.6)], Pen::THIN);
        for ((station, place), x) in row.stations.iter().zip(marks) {
            draft.stands_for(*place);
            match x - aft < 4.0 {
                true => draft.line(&[(x, y - 1.6), (x, y + 1.6)], Pen::THIN),
                false => draft.head((aft, y), (x, y), Role::Ink, Head::SLIM),
            }
            let number = show::trimmed(
                (lying.rocket.tail - station) / per,
                decimals.max(usize::from(per < 2e-3 && lying.scale > 900.0)),
            );
            // Right of its mark; where other words stand there, left of it, or below.
            let places = [
                ((x + 1.2, y - 1.5), style),
                ((x - 1.2, y - 1.5), style.end()),
                ((x + 1.2, y + 4.2), style),
                ((x - 1.2, y + 4.2), style.end()),
            ];
            let _ = places.into_iter().any(|(at, style)| draft.text_if_free(at, number.as_str(), style));
        }
        draft.stands_for(None);
    }
    first + STEP * rows.len() as f64
}
