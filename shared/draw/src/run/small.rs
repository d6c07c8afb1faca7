//! The run as it goes into a page.

use super::{curves, told};
use crate::draft::Draft;
use crate::font::cut;
use crate::plot::{dot, label, level, Axis};
use crate::scene::{Pen, Point, Role, Scene, Style};
use crate::subject::Subject;
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_units::reader::alone;
use finwright_units::show;

const WIDTH: f64 = 96.0;
const HEIGHT: f64 = 61.5;

/// The small picture; `None` where no flight leaves its guide.
pub fn small(subject: Subject) -> Option<Scene> {
    let (curves, _) = curves(subject);
    if curves.is_empty() {
        return None;
    }
    let floor = subject.analysis.settings.limit(&EXIT_SPEED);
    let mut draft = Draft::new("run", WIDTH, HEIGHT);
    let travel = curves.iter().map(|curve| curve.last.0).fold(0.0, f64::max);
    let fastest = curves.iter().map(|curve| curve.last.1).fold(floor, f64::max);
    let x = Axis { from: 0.0, to: travel, start: 14.0, end: 86.0 };
    let y = Axis { from: 0.0, to: fastest, start: 46.0, end: 14.0 };
    let at = |(travel, speed): Point| (x.at(travel), y.at(speed));
    upright(&mut draft, x.start - 2.0, &y);
    level(&mut draft, y.start + 2.0, &x, 1.0, "m");
    draft.limit((x.start, y.at(floor)), (x.end, y.at(floor)), 1.0, Pen::THIN);
    for curve in curves.iter().filter(|curve| !curve.like_another || curve.last.0 >= travel) {
        let points: Vec<Point> = curve.points.iter().map(|point| at(*point)).collect();
        draft.line(&points, Pen::LINE.weight(0.6));
    }
    let role = |speed: f64| if speed < floor { Role::Fails } else { Role::Ink };
    curves.iter().for_each(|curve| dot(&mut draft, at(curve.last), role(curve.last.1)));
    for curve in &curves {
        let style = Style::NOTE.role(role(curve.last.1)).bold();
        let name = cut(&curve.name, style, 30.0);
        let words = format!("{name} {}", alone(|| show::speed(curve.last.1)));
        label(&mut draft, at(curve.last), &[(words, style)], false);
    }
    let words = format!("{} needed", alone(|| show::speed(floor)));
    let style = Style::NOTE.role(Role::Ink);
    if !draft.text_if_free((x.end, y.at(floor) + 4.4), words.as_str(), style.end()) {
        draft.text_if_free((x.start + 1.0, y.at(floor) - 1.4), words, style);
    }
    draft.text((x.start - 4.0, HEIGHT - 3.6), "travel from rest", Style::NOTE);
    let title = format!("{}: how the speed grows along the guide", subject.title());
    Some(draft.done(title, told(&curves, floor)))
}

fn upright(draft: &mut Draft, x: f64, axis: &Axis) {
    let unit = show::speed_scale();
    draft.line(&[(x, axis.start), (x, axis.end)], Pen::HAIR);
    let scaled = Axis { to: axis.to / unit, ..*axis };
    for tick in scaled.ticks(4.0) {
        let level = scaled.at(tick);
        draft.line(&[(x, level), (x - 1.2, level)], Pen::HAIR);
        draft.text((x - 2.0, level + 1.05), show::number(tick), Style::NOTE.end());
    }
    draft.text((4.0, 7.0), show::speed_unit(), Style::NOTE);
}
