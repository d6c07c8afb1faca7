//! What is what, under the picture from behind.

use super::{Held, WIDTH};
use crate::draft::Draft;
use crate::font::cut;
use crate::scene::{Role, Style};
use crate::subject::{guide_words, Subject};
use finwright_units::show;

/// What is what, under the picture.
pub fn draw(draft: &mut Draft, subject: Subject, radius: f64, held: &[Held], y: f64) -> f64 {
    let mut rows: Vec<(String, String)> = vec![("body".to_string(), show::length(2.0 * radius))];
    rows.extend(subject.motor_words().map(|motor| {
        let wide = subject.motor().and_then(|motor| motor.diameter.as_ref());
        ("motor".to_string(), wide.map_or(motor.clone(), |wide| format!("{motor}, {}", show::length(wide.si))))
    }));
    for one in held {
        let words = guide_words(subject.design(), one.pad).unwrap_or_default();
        rows.push((
            one.pad.name.value.clone(),
            format!("{words}, {} from the rocket's axis", show::length(one.distance)),
        ));
    }
    let numbers = subject.numbers.and_then(|numbers| numbers.clearance.as_ref());
    if let Some(room) = numbers.and_then(|c| c.fins.iter().map(|fin| fin.room).reduce(f64::min)) {
        let words = match room >= 0.0 {
            true => format!("the guides stand {} further out than they have to, for the fins", show::length(room)),
            false => format!("the guides stand {} too close to the body, for the fins", show::length(-room)),
        };
        rows.push(("room".to_string(), words));
    }
    if let Some(body) = numbers.and_then(|c| c.body) {
        let part = subject.design().parts.get(body.part).map_or(String::new(), |part| part.label());
        rows.push((
            part,
            format!("wider than the body under the guides; {} of room beyond what it needs", show::length(body.room)),
        ));
    }
    let mut y = y;
    for (name, words) in rows {
        draft.text((12.0, y), cut(&name, Style::LABEL.bold(), 36.0), Style::LABEL.bold());
        y = draft.paragraph((50.0, y), &words, Style::LABEL.role(Role::Mid), WIDTH - 62.0);
    }
    y
}
