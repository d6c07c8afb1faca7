//! The rocket from the side, drawn through any mapping to the paper.

use crate::draft::Draft;
use crate::rocket::{Fin, Rocket, Spot};
use crate::scene::{Dash, Pen, Point, Role};
use crate::subject::Subject;
use finwright_model::Extent;

/// How much of the rocket is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// Its outside.
    Outside,
    /// The motor and the tubes inside too.
    Inside,
    /// Its outside in hairlines.
    Tiny,
}

/// Draw the rocket: what is behind first, each thing standing for its part of the text.
pub fn draw(draft: &mut Draft, subject: Subject, rocket: &Rocket, at: &dyn Fn(&Spot) -> Point, detail: Detail) {
    let (line, small) = match detail {
        Detail::Tiny => (Pen::HAIR.role(Role::Ink), Pen::HAIR.role(Role::Ink)),
        _ => (Pen::LINE, Pen::SMALL),
    };
    let outline = |spots: &[Spot]| spots.iter().map(at).collect::<Vec<Point>>();
    for fin in rocket.fins.iter().filter(|fin| !fin.near) {
        draft.stands_for(subject.place(fin.part));
        draft.solid(&outline(&fin.outline), line);
    }
    for guide in rocket.guides.iter().filter(|guide| guide.hidden) {
        draft.stands_for(subject.place(guide.part));
        draft.solid(&outline(&guide.outline), small);
    }
    motor(draft, subject, rocket, &outline, detail, true);
    for (part, spots) in &rocket.bodies {
        draft.stands_for(subject.place(*part));
        body(draft, rocket, spots, &outline, line);
    }
    for (part, extent) in &rocket.gaps {
        draft.stands_for(subject.place(*part));
        let pen = Pen::SMALL.role(Role::Looks).dash(Dash::Hidden);
        draft.outline(&outline(&block(*extent, rocket.radius)), pen);
    }
    draft.stands_for(None);
    if detail == Detail::Inside {
        inside(draft, subject, rocket, &outline);
        motor(draft, subject, rocket, &outline, detail, false);
    }
    for guide in rocket.guides.iter().filter(|guide| !guide.hidden) {
        draft.stands_for(subject.place(guide.part));
        let spots = outline(&guide.outline);
        draft.solid(&spots, small);
        if detail != Detail::Tiny {
            draft.hatch(&[spots], 0.7, -45.0, Pen::HAIR.role(Role::Ink));
        }
    }
    for fin in rocket.fins.iter().filter(|fin| fin.near) {
        draft.stands_for(subject.place(fin.part));
        near_fin(draft, fin, &outline, line);
    }
    draft.stands_for(None);
}

/// A stretch of the airframe: its sides as outlines, where it meets another one a thin line.
fn body(draft: &mut Draft, rocket: &Rocket, spots: &[Spot], outline: &dyn Fn(&[Spot]) -> Vec<Point>, line: Pen) {
    draft.area(&outline(spots), Role::Paper);
    let (top, bottom) = spots.split_at(spots.len() / 2);
    draft.line(&outline(top), line);
    draft.line(&outline(bottom), line);
    for (a, b) in [(top.first(), bottom.last()), (top.last(), bottom.first())] {
        let (Some(a), Some(b)) = (a, b) else { continue };
        let is_end = a.0 <= 1e-9 || a.0 >= rocket.tail - 1e-9;
        if a.1 > 0.0 {
            draft.line(&outline(&[*a, *b]), if is_end { line } else { line.weight(line.weight.min(0.25)) });
        }
    }
}

fn near_fin(draft: &mut Draft, fin: &Fin, outline: &dyn Fn(&[Spot]) -> Vec<Point>, line: Pen) {
    draft.solid(&outline(&fin.outline), line.weight(line.weight.min(0.35)));
}

fn motor(
    draft: &mut Draft,
    subject: Subject,
    rocket: &Rocket,
    outline: &dyn Fn(&[Spot]) -> Vec<Point>,
    detail: Detail,
    behind: bool,
) {
    let Some(extent) = subject.numbers.and_then(|numbers| numbers.motor()) else { return };
    let Some(motor) = subject.motor() else { return };
    let radius = motor.diameter.as_ref().map_or(rocket.radius / 2.0, |diameter| diameter.si / 2.0);
    let front = if detail == Detail::Inside && !behind { extent.front } else { extent.front.max(rocket.tail - 1e-3) };
    let seen = Extent { front, back: extent.back };
    if seen.length() <= 0.0 || (behind && extent.back <= rocket.tail + 1e-6) {
        return;
    }
    let spots = outline(&block(seen, radius));
    draft.stands_for(Some(motor.header));
    draft.solid(&spots, if detail == Detail::Tiny { Pen::HAIR.role(Role::Ink) } else { Pen::SMALL });
    if detail != Detail::Tiny {
        draft.hatch(&[spots], if detail == Detail::Inside { 1.25 } else { 0.7 }, 45.0, Pen::HAIR);
    }
    draft.stands_for(None);
}

fn inside(draft: &mut Draft, subject: Subject, rocket: &Rocket, outline: &dyn Fn(&[Spot]) -> Vec<Point>) {
    for (part, extent, radius) in &rocket.inside {
        draft.stands_for(subject.place(*part));
        let clipped = Extent { front: extent.front.max(0.0), back: extent.back.min(rocket.tail) };
        let pen = Pen::HAIR.dash(Dash::Hidden);
        draft.outline(&outline(&block(clipped, radius.min(rocket.radius))), pen);
    }
    draft.stands_for(None);
}

fn block(extent: Extent, radius: f64) -> Vec<Spot> {
    vec![(extent.front, radius), (extent.back, radius), (extent.back, -radius), (extent.front, -radius)]
}
