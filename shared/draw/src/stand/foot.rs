//! What is under the ground: what stands there, how it leans, and the scale.

use super::WIDTH;
use crate::draft::{Draft, Head};
use crate::pose::{Paper, Pose};
use crate::scene::{Dash, Pen, Point, Role, Style};
use crate::subject::Subject;
use finwright_units::show;

/// Under the ground: what stands there and how it leans. Gives the y below.
pub fn foundation(draft: &mut Draft, subject: Subject, pose: &Pose, paper: &Paper) -> f64 {
    let (x, y) = paper.foot;
    let words = subject.guide_words().unwrap_or_default();
    let on_pad = subject.numbers.and_then(|numbers| numbers.on_pad.as_ref());
    let tilt = on_pad.map_or(0.0, |on_pad| on_pad.tilt.si);
    let across = on_pad.is_some_and(|on_pad| on_pad.lean.across != 0.0);
    let level = y + 12.0;
    if pose.tilt.abs() < 0.002 {
        let how = match across {
            true => format!("tilted {} across the wind, which can't be seen from here", show::angle(tilt)),
            false => "upright".to_string(),
        };
        draft.paragraph((12.0, level), &format!("{words}; {how}"), Style::LABEL, WIDTH - 24.0);
        return level + 2.0;
    }
    let how = if pose.tilt > 0.0 { "into the wind" } else { "with the wind" };
    let end = x + 14.0 * pose.tilt.tan();
    draft.line(&[(x, y + 3.2), (x, y + 14.0)], Pen::HAIR);
    draft.line(&[(x + 3.2 * pose.tilt.tan(), y + 3.2), (end, y + 14.0)], Pen::HAIR.dash(Dash::Axis));
    let at = x + 12.0 * pose.tilt.tan();
    let (left, right) = (x.min(at), x.max(at));
    draft.arrow((left - 7.0, level - 1.1), (left, level - 1.1), Pen::THIN.role(Role::Mid), Head(1.8, 0.2));
    draft.arrow((right + 7.0, level - 1.1), (right, level - 1.1), Pen::THIN.role(Role::Mid), Head(1.8, 0.2));
    draft.text((left - 9.0, level), words, Style::LABEL.end());
    draft.text((right + 9.0, level), format!("tilt {}, {how}", show::angle(tilt)), Style::LABEL);
    level + 2.0
}

/// A bar with the scale of the drawing.
pub fn scale_bar(draft: &mut Draft, (x, y): Point, scale: f64, written: &str) {
    let steps = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0];
    let step = steps.into_iter().find(|step| step * scale >= 9.0).unwrap_or(10.0);
    let wide = step * scale;
    for i in 0..3 {
        let (from, to) = (x + wide * f64::from(i), x + wide * f64::from(i + 1));
        let block = [(from, y - 1.1), (to, y - 1.1), (to, y), (from, y)];
        if i % 2 == 0 {
            draft.area(&block, Role::Ink);
        }
        draft.outline(&block, Pen::HAIR.role(Role::Ink));
    }
    let (unit, per) = if step < 1.0 { ("mm", 1000.0) } else { ("m", 1.0) };
    for i in 0..=3 {
        let value = show::number(step * per * f64::from(i));
        draft.text((x + wide * f64::from(i), y - 2.2), value, Style::NOTE.role(Role::Ink).middle());
    }
    draft.text((x + 3.0 * wide + 4.5, y), format!("{unit}, drawn {written}"), Style::NOTE);
}
