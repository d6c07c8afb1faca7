//! The section of a rod or rail, seen from behind.

use super::{Behind, Held};
use crate::draft::Draft;
use crate::scene::{Dash, Pen, Point, Role};
use crate::subject::{guide_width, Subject};
use finwright_assess::traced::at as across;
use finwright_model::Rail;
use std::f64::consts::PI;

/// The rod or rail in its place.
pub fn draw(draft: &mut Draft, subject: Subject, behind: &Behind, held: &Held) {
    let Some(width) = guide_width(subject.design(), held.pad) else { return };
    draft.stands_for(Some(held.pad.header));
    let from = held.distance + width * 1.25;
    let axis = [behind.polar(from * behind.scale, held.clock), behind.polar(super::RING - 2.0, held.clock)];
    if from * behind.scale < super::RING - 6.0 {
        draft.line(&axis, Pen::HAIR.dash(Dash::Axis));
    }
    match &held.pad.rail {
        Some(Rail::Rod { .. }) => rod(draft, behind, held, width / 2.0),
        Some(Rail::Slotted { slot, .. }) => {
            let section = slot.as_ref().and_then(|slot| subject.design().sections.get(slot.value));
            let mouth = section.and_then(|section| section.mouth.as_ref()).map_or(0.27 * width, |mouth| mouth.si);
            rail(draft, behind, held, width, mouth);
        }
        Some(Rail::Tower { .. }) | None => {}
    }
    draft.stands_for(None);
}

fn rod(draft: &mut Draft, behind: &Behind, held: &Held, radius: f64) {
    let middle = behind.at(across(held.distance, held.clock, 0.0));
    let r = radius * behind.scale;
    draft.circle(middle, r, Some(Role::Paper), Some(Pen::SMALL));
    let ring: Vec<Point> = (0..24)
        .map(|i| (f64::from(i) * PI / 12.0).sin_cos())
        .map(|(sin, cos)| (middle.0 + r * sin, middle.1 + r * cos))
        .collect();
    draft.hatch(&[ring], 0.6, 45.0, Pen::HAIR.role(Role::Ink));
}

/// A plain square section with a mouth on each side; how it is inside differs from one to the next, so the picture
/// shows that it's hollow, and not a size.
fn rail(draft: &mut Draft, behind: &Behind, held: &Held, width: f64, mouth: f64) {
    let (w, m) = (width / 2.0, (mouth / 2.0).min(0.3 * width));
    let (lip, deep, wide) = (0.18 * w, 0.62 * w, 0.52 * w);
    let quarter = [
        (-w, -w),
        (-m, -w),
        (-m, -w + lip),
        (-wide, -w + lip),
        (-wide + 0.36 * deep, -w + deep),
        (wide - 0.36 * deep, -w + deep),
        (wide, -w + lip),
        (m, -w + lip),
        (m, -w),
    ];
    let turned = |(x, y): (f64, f64), turn: usize| match turn {
        0 => (x, y),
        1 => (-y, x),
        2 => (-x, -y),
        _ => (y, -x),
    };
    let place = |(x, y): (f64, f64)| behind.at(across(held.distance + w + y, held.clock, x));
    let outline: Vec<Point> = (0..4).flat_map(|turn| quarter.map(|point| place(turned(point, turn)))).collect();
    let middle = place((0.0, 0.0));
    let r = 0.2 * w * behind.scale;
    let hole: Vec<Point> = (0..24)
        .map(|i| (f64::from(i) * PI / 12.0).sin_cos())
        .map(|(sin, cos)| (middle.0 + r * sin, middle.1 + r * cos))
        .collect();
    draft.solid(&outline, Pen::LINE);
    draft.hatch(&[outline, hole], 1.2, 45.0, Pen::HAIR);
    draft.circle(middle, r, None, Some(Pen::THIN));
}
