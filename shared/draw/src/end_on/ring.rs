//! A ring of degrees around the rocket from behind, with what stands at each.

use super::{Behind, Held, RING, WIDTH};
use crate::draft::Draft;
use crate::font::wrapped;
use crate::scene::{Pen, Style};
use crate::subject::Subject;
use finwright_model::PartKind;
use finwright_units::show;
use std::f64::consts::PI;

/// What stands at each angle, by name.
fn at_angles(subject: Subject, held: &[Held]) -> Vec<(f64, String)> {
    let parts = subject.parts();
    let mut found: Vec<(f64, String)> = Vec::new();
    let mut add = |clock: f64, word: String| {
        let degrees = clock.to_degrees().rem_euclid(360.0);
        let degrees = if degrees > 359.95 { 0.0 } else { degrees };
        match found.iter_mut().find(|(known, _)| (known - degrees).abs() < 0.5) {
            Some((_, words)) if words.split(", ").any(|known| known == word) => {}
            Some((_, words)) => *words += &format!(", {word}"),
            None => found.push((degrees, word)),
        }
    };
    for (_, part) in parts.all() {
        let first = part.clock.as_ref().map(|clock| clock.si);
        let count = match &part.kind {
            PartKind::Fins(fins) => fins.count.as_ref().map(|count| (count.si, "fin")),
            PartKind::TubeFins { count, .. } => count.as_ref().map(|count| (count.si, "tube fin")),
            _ => None,
        };
        if let Some((count, word)) = count {
            let first = first.unwrap_or(0.0);
            (0..count as u32).for_each(|n| add(first + 2.0 * PI * f64::from(n) / count, word.to_string()));
        }
        let word = match &part.kind {
            PartKind::Lug { .. } => "lug",
            PartKind::Button { .. } => "button",
            PartKind::RailGuide { .. } => "rail guide",
            _ => continue,
        };
        if let Some(clock) = first {
            add(clock, word.to_string());
        }
    }
    for one in held {
        add(one.clock, one.pad.rail_word().to_string());
    }
    found.sort_by(|one, other| one.0.total_cmp(&other.0));
    found
}

/// A ring of degrees all around, long marks where something stands, each with its name.
pub fn draw(draft: &mut Draft, subject: Subject, behind: &Behind, held: &[Held]) {
    draft.circle(behind.middle, RING, None, Some(Pen::HAIR));
    let ticks = (0..36).map(|i| f64::from(i) * PI / 18.0);
    draft.lines(ticks.map(|clock| [behind.polar(RING, clock), behind.polar(RING + 1.3, clock)]), Pen::HAIR);
    for (degrees, words) in at_angles(subject, held) {
        let clock = degrees.to_radians();
        draft.line(&[behind.polar(RING, clock), behind.polar(RING + 3.0, clock)], Pen::LINE);
        let (sin, cos) = clock.sin_cos();
        let style = Style::LABEL;
        let style = if sin.abs() < 0.1 {
            style.middle()
        } else if sin < 0.0 {
            style.end()
        } else {
            style
        };
        let (x, y) = behind.polar(RING + 5.0, clock);
        let room = if sin.abs() < 0.1 {
            90.0
        } else {
            (WIDTH - 8.0 - x).min(x - 8.0).max(if sin > 0.0 { WIDTH - 8.0 - x } else { x - 8.0 })
        };
        let mut lines = vec![format!("{}°", show::trimmed(degrees, 1))];
        lines.extend(wrapped(&words, Style::LABEL, room));
        let lead = style.size * crate::font::LEAD;
        let down = if cos > 0.9 {
            -lead * (lines.len() as f64 - 1.0)
        } else if cos < -0.9 {
            2.5
        } else {
            1.1 - 0.5 * lead * (lines.len() as f64 - 1.0)
        };
        // Neighbours a few degrees apart give way outwards along the ring.
        let steps = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0];
        let free = |draft: &Draft, dy: f64| {
            let own = lines.iter().enumerate().map(|(i, line)| {
                let style = if i == 0 { style.bold() } else { style };
                crate::scene::Text { at: (x, y + down + dy + lead * i as f64), words: line.clone(), style }
            });
            own.into_iter().all(|text| draft.is_free(crate::font::bounds(&text)))
        };
        if let Some(step) = steps.into_iter().find(|step| free(draft, step * lead)) {
            draft.say((x, y + down + step * lead), &lines, style);
        }
    }
}

/// The same told.
pub fn told(subject: Subject) -> String {
    let found: Vec<String> =
        at_angles(subject, &[]).iter().map(|(at, words)| format!("{words} at {}°", show::trimmed(*at, 1))).collect();
    if found.is_empty() {
        return String::new();
    }
    format!("Around the body: {}.", found.join("; "))
}
