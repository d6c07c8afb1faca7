//! The stand as it goes into a page: fewer words, a layout of its own.

use super::ladder::Ladder;
use super::{answer, guide, Blown};
use crate::draft::{Draft, Head};
use crate::font::cut;
use crate::pose::{Paper, Pose};
use crate::rocket::Spot;
use crate::scene::{Pen, Role, Scene, Style};
use crate::side::{draw, Detail};
use crate::spread::spread;
use crate::subject::Subject;
use finwright_units::reader::alone;
use finwright_units::show;

const WIDTH: f64 = 72.0;
const HEIGHT: f64 = 62.0;

/// The small picture; `None` where the rocket or its pad has no shape.
pub fn small(subject: Subject) -> Option<Scene> {
    let pose = Pose::of(subject)?;
    let ladder = Ladder::of(subject, &pose);
    let (right, left) = pose.sides();
    let high = pose.tip().max(pose.length);
    let wide = right + left + (high * pose.tilt.sin()).abs();
    let scale = (51.0 / (high * pose.tilt.cos())).min(16.0 / wide);
    let lean = (high * pose.tilt.sin() * scale).max(0.0);
    let paper = Paper { foot: (24.0 + lean + left * scale * 0.5, HEIGHT - 5.0), scale, tilt: pose.tilt };
    let mut draft = Draft::new("stand", WIDTH, HEIGHT);
    let ground = paper.foot.1;
    draft.limit((4.0, ground), (WIDTH - 4.0, ground), 1.0, Pen::LINE.role(Role::Mid));
    guide(&mut draft, &pose, &paper);
    let stop = paper.at((pose.stop, pose.axis + pose.rocket.radius));
    draft.line(&[paper.at((pose.stop, 0.0)), stop], Pen::LINE);
    draw(&mut draft, subject, &pose.rocket, &|spot: &Spot| paper.at(pose.spot(*spot)), Detail::Tiny);
    alone(|| levels(&mut draft, &ladder, &paper, (right * scale, ground)));
    if let Some(blown) = Blown::of(subject) {
        alone(|| winds(&mut draft, &blown, ground));
    }
    Some(draft.done(answer::title(subject), answer::told(subject, &ladder, "to scale")))
}

/// The speeds, each at its height.
fn levels(draft: &mut Draft, ladder: &Ladder, paper: &Paper, (right, ground): (f64, f64)) {
    let (Some(start), Some(last)) = (ladder.start, ladder.last) else { return };
    let short = |speed: f64| show::speed_number(speed);
    let unit = show::speed_unit();
    let mut levels = vec![(last.0, format!("{} {unit}, free", short(last.1)), Role::Ink, true)];
    levels.extend(
        ladder
            .front
            .filter(|f| f.0 > 0.0 && f.0 < last.0 - 1e-6)
            .map(|f| (f.0, format!("{} front off", short(f.1)), Role::Ink, false)),
    );
    if ladder.is_slow() {
        levels.push((last.0, format!("{} needed", short(ladder.floor)), Role::Fails, false));
    } else {
        levels.extend(ladder.floor_at.map(|at| (at, format!("{} needed", short(ladder.floor)), Role::Ink, false)));
    }
    // The highest first; what is needed and missing stands above all.
    levels.sort_by(|a, b| b.0.total_cmp(&a.0).then((b.2 == Role::Fails).cmp(&(a.2 == Role::Fails))));
    let style = Style::NOTE;
    let edge = paper.foot.0 + right + 3.0;
    let wanted: Vec<f64> = levels.iter().map(|level| paper.at((start + level.0, 0.0)).1 - 1.2).collect();
    let tops = spread(&wanted, &vec![2.9; levels.len()], 0.9, (3.2, ground - 5.0));
    for ((travel, words, role, bold), top) in levels.into_iter().zip(tops) {
        let (y, level) = (top + 2.2, paper.at((start + travel, 0.0)));
        let role = if role == Role::Ink { Role::Ink } else { role };
        let style = if bold { style.role(role).bold() } else { style.role(role) };
        draft.line(&[level, (edge - 2.0, level.1), (edge + 0.6, y - 1.0), (edge + 2.0, y - 1.0)], Pen::HAIR);
        draft.text((edge + 2.8, y), cut(&words, style, WIDTH - 4.0 - edge - 2.8), style);
    }
}

fn winds(draft: &mut Draft, blown: &Blown, ground: f64) {
    let longest = 13.0;
    let per = (longest / blown.winds[1].max(0.1)).min(2.3);
    for (i, word) in [(0, ""), (1, "gust ")] {
        if blown.winds[i] <= 0.0 {
            continue;
        }
        let y = ground - 25.0 + 11.0 * i as f64;
        draft.arrow((4.0, y), (4.0 + per * blown.winds[i], y), Pen::THIN.role(Role::Looks), Head::SMALL);
        let words = format!("{word}{}", show::speed(blown.winds[i]));
        draft.text((4.0, y - 1.7), cut(&words, Style::NOTE, 17.0), Style::NOTE.role(Role::Looks));
    }
}
