//! The rocket upright on its pad: is it fast enough when it lets go, and will the wind move it?

mod answer;
mod foot;
mod ladder;
mod small;

use crate::column::Column;
use crate::draft::{Draft, Head};
use crate::pose::{Paper, Pose};
use crate::rocket::Spot;
use crate::scene::{Dash, Pen, Point, Role, Scene, Style};
use crate::subject::Subject;
use finwright_assess::Stiffness;
use finwright_units::show;
use ladder::Ladder;

pub use small::small;

const WIDTH: f64 = 190.0;
/// The highest that rod, rail or rocket are drawn, mm.
const TALL: f64 = 176.0;
/// Room for the words of a column, mm.
const WORDS: f64 = 44.0;
/// From the rod's or rail's side to the ladder, and the ladder's width, mm.
const LADDER: (f64, f64) = (4.5, 4.5);

/// The picture; `None` where the rocket or its pad has no shape.
pub fn stand(subject: Subject) -> Option<Scene> {
    let pose = Pose::of(subject)?;
    let ladder = Ladder::of(subject, &pose);
    let blown = Blown::of(subject);
    let lay = Lay::of(&pose, &ladder, blown.as_ref());
    let mut draft = Draft::new("stand", WIDTH, 297.0);
    let answers = answer::answers(subject, &ladder);
    let top = draft.heading(&subject.line(), "Fast enough when it lets go? Will the wind move it?", &answers);
    let rows = if blown.is_some() { 24.0 } else { 6.0 };

    let mut left = Column::new(lay.left, false, lay.left - 12.0);
    let mut right = Column::new(lay.right, true, WIDTH - 12.0 - lay.right);
    let high = lay.high * lay.scale;
    // The columns are filled for a foot at 0 first, to know how high they are.
    let height = {
        let paper = Paper { foot: (lay.foot, 0.0), scale: lay.scale, tilt: pose.tilt };
        ladder.label(&paper, &mut left);
        name(subject, &pose, &paper, &mut right);
        left.height().max(right.height()).max(high) + 4.0
    };
    let ground = top + rows + height;
    let paper = Paper { foot: (lay.foot, ground), scale: lay.scale, tilt: pose.tilt };
    (left, right) = (Column::new(left.x, false, left.width), Column::new(right.x, true, right.width));
    ladder.label(&paper, &mut left);
    name(subject, &pose, &paper, &mut right);

    let standing = ladder.reach(&pose);
    if let Some(blown) = &blown {
        blown.draw(&mut draft, &paper, (standing, pose.length), lay.times, top);
    }
    guide(&mut draft, &pose, &paper);
    pad(&mut draft, &pose, &paper, (12.0, WIDTH - 12.0));
    drawn(&mut draft, subject, &pose, &paper);
    ladder.draw(&mut draft, &paper);
    left.draw(&mut draft, (top + rows - 3.0, ground - 1.0));
    right.draw(&mut draft, (top + rows - 3.0, ground - 1.0));
    let below = foot::foundation(&mut draft, subject, &pose, &paper);
    foot::scale_bar(&mut draft, (13.5, below + 9.0), lay.scale, &lay.written);
    if ladder.last.is_some() {
        draft.text((12.0, below + 14.5), lowest_held(subject), Style::NOTE);
    }
    draft.foot(below + 18.5);
    draft.set_height(below + 23.0);
    Some(draft.done(answer::title(subject), answer::told(subject, &ladder, &lay.written)))
}

/// Where things go on the paper.
struct Lay {
    scale: f64,
    written: String,
    foot: f64,
    left: f64,
    right: f64,
    high: f64,
    times: Option<f64>,
}

impl Lay {
    fn of(pose: &Pose, ladder: &Ladder, blown: Option<&Blown>) -> Lay {
        let high = pose.tip().max(ladder.reach(pose));
        let (sin, cos) = pose.tilt.sin_cos();
        let (wide_right, wide_left) = pose.sides();
        let left_of = |scale: f64| {
            let lean = (high * sin * scale).max(0.0);
            lean + wide_left * scale + LADDER.0 + LADDER.1 + 3.0
        };
        let right_of = |scale: f64| {
            let lean = (-high * sin * scale).max(0.0);
            let bent = blown.and_then(|blown| blown.times(scale)).map_or(0.0, |(_, mm)| mm - pose.length * sin * scale);
            (lean + wide_right * scale).max(bent)
        };
        let room = WIDTH - 24.0 - 2.0 * WORDS - 16.0;
        let fits = |scale: f64| high * cos * scale <= TALL && left_of(scale) + right_of(scale) <= room;
        let (scale, written) = crate::pose::scale(fits);
        let spare = (room - left_of(scale) - right_of(scale)).max(0.0);
        let foot = 12.0 + WORDS + 8.0 + left_of(scale) + spare * 0.5;
        let (left, right) = (foot - left_of(scale) - 6.0, foot + right_of(scale) + 8.0);
        let times = blown.and_then(|blown| blown.times(scale)).map(|(times, _)| times);
        Lay { scale, written, foot, left, right: right.min(WIDTH - 12.0 - WORDS), high, times }
    }
}

/// What the wind does to the rod or rail.
struct Blown {
    /// The steady wind and the gust, m/s, as the site's meter reads them.
    winds: [f64; 2],
    /// How far the tip leans in each, m, and at what slope it ends, rad.
    leans: [(f64, f64); 2],
}

impl Blown {
    fn of(subject: Subject) -> Option<Blown> {
        let numbers = subject.numbers?;
        let air = numbers.air.filter(|air| air.gust > 0.0)?;
        let Stiffness { at_rest, .. } = numbers.stiffness.as_ref()?;
        let winds = [air.as_read(air.wind), air.as_read(air.gust)];
        let leans = [at_rest.in_wind(), at_rest.in_gust()].map(|bend| (bend.tip.abs(), bend.slope.abs()));
        Some(Blown { winds, leans })
    }

    /// How many times the lean is drawn, and how many mm that are; `None` where even once is too much.
    fn times(&self, scale: f64) -> Option<(f64, f64)> {
        let mm = self.leans[1].0 * scale;
        let fits = [200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0].into_iter().find(|times| times * mm <= 30.0)?;
        Some((fits, fits * mm))
    }

    fn draw(&self, draft: &mut Draft, paper: &Paper, (standing, length): (f64, f64), times: Option<f64>, y: f64) {
        let tip = paper.at((length, 0.0));
        let pen = Pen::SMALL.role(Role::Looks);
        let note = Style::NOTE.role(Role::Looks);
        let longest = (tip.0 - 62.0).clamp(10.0, 36.0);
        let per = [5.0, 4.0, 3.0, 2.0, 1.0, 0.5].into_iter().find(|mm| mm * self.winds[1] <= longest).unwrap_or(0.25);
        draft.text((12.0, y + 3.0), format!("wind, {} mm for each m/s", show::number(per)), note);
        let said = match times {
            Some(1.0) => "how far the tip leans, to scale".to_string(),
            Some(times) => format!("how far the tip leans, drawn {times} times"),
            None => "how far the tip leans: too far to draw".to_string(),
        };
        draft.text((WIDTH - 12.0, y + 3.0), said, note.end());
        let drawn: Vec<f64> = self.leans.iter().map(|lean| lean.0 * paper.scale * times.unwrap_or(0.0)).collect();
        let widest = tip.0 + drawn[1].max(drawn[0]);
        for (i, word, dash) in [(1, "gust", Dash::Hidden), (0, "steady", Dash::Ghost)] {
            if i == 0 && self.winds[0] <= 0.0 {
                continue;
            }
            let level = y + if i == 1 { 9.5 } else { 16.5 };
            let bold = Style::LABEL.role(Role::Looks).bold();
            let from = tip.0 - 10.0 - self.winds[i] * per;
            draft.arrow((from, level), (tip.0 - 10.0, level), pen.weight(0.8), Head::WIND);
            draft.text((from - 3.0, level + 1.1), format!("{word} {}", show::speed(self.winds[i])), bold.end());
            let (lean, slope) = self.leans[i];
            let words = format!("{}, {}", show::length(lean), show::angle(slope));
            draft.text((widest + 3.5, level + 1.1), words, bold);
            if times.is_none() {
                continue;
            }
            // As an evenly loaded beam bends, clamped at its foot.
            let shape = |q: f64| (q.powi(4) - 4.0 * q.powi(3) + 6.0 * q * q) / 3.0;
            let at = |i: i32| {
                paper.beside(length * f64::from(i) / 40.0, drawn_at(drawn[usize::from(word == "gust")], shape, i))
            };
            let points: Vec<Point> = (0..=40).map(at).collect();
            draft.line(&points, pen.weight(0.35).dash(dash));
            let end = points.last().copied().unwrap_or(tip);
            draft.line(&[(end.0, end.1 - 0.8), (end.0, level - 1.4)], Pen::HAIR.role(Role::Looks));
            if (end.0 - tip.0).abs() > 2.0 {
                draft.arrow((tip.0, level), (end.0, level), pen.weight(0.35), Head(2.3, 0.25));
            }
        }
        let start = if standing > length { paper.at((standing, 0.0)) } else { tip };
        draft.line(&[(tip.0, start.1 - 0.8), (tip.0, y + 8.0)], Pen::HAIR.role(Role::Looks));
    }
}

fn drawn_at(lean: f64, shape: impl Fn(f64) -> f64, i: i32) -> f64 {
    lean * shape(f64::from(i) / 40.0)
}

/// The rod or rail.
fn guide(draft: &mut Draft, pose: &Pose, paper: &Paper) {
    let half = (pose.width / 2.0).max(0.35 / paper.scale);
    let sides = [(0.0, -half), (pose.length, -half), (pose.length, half), (0.0, half)];
    draft.solid(&sides.map(|side| paper.at(side)), Pen::SMALL);
    if !pose.is_rod && pose.width * paper.scale > 1.2 {
        draft.line(&[paper.at((0.0, 0.0)), paper.at((pose.length, 0.0))], Pen::HAIR);
    }
}

/// The ground, what the rod or rail stands in, and the stop.
fn pad(draft: &mut Draft, pose: &Pose, paper: &Paper, (from, to): (f64, f64)) {
    let (x, y) = paper.foot;
    draft.line(&[(from, y), (to, y)], Pen::BOLD);
    let strokes = ((to - from - 2.2) / 2.2) as usize;
    let below = (0..strokes).map(|i| {
        let x = from + 2.2 * i as f64;
        [(x + 2.2, y + 0.3), (x, y + 2.5)]
    });
    draft.lines(below.collect::<Vec<_>>(), Pen::HAIR.role(Role::Faint));
    let high = (0.7 * pose.stop * paper.scale).clamp(1.2, 5.0);
    let foot = vec![(x - 9.0, y), (x - 3.0, y - high), (x + 3.0, y - high), (x + 9.0, y)];
    draft.solid(&foot, Pen::LINE);
    draft.hatch(&[foot], 1.1, 45.0, Pen::HAIR);
    if pose.stop > 0.0 {
        let (left, right) = (-(pose.width + 6e-3), pose.axis + pose.rocket.radius);
        let thick = 1.3 / paper.scale;
        let plate = [(pose.stop, left), (pose.stop, right), (pose.stop - thick, right), (pose.stop - thick, left)];
        draft.solid(&plate.map(|corner| paper.at(corner)), Pen::LINE);
    }
}

/// The rocket itself.
fn drawn(draft: &mut Draft, subject: Subject, pose: &Pose, paper: &Paper) {
    let at = |spot: &Spot| paper.at(pose.spot(*spot));
    crate::side::draw(draft, subject, &pose.rocket, &at, crate::side::Detail::Outside);
}

/// What stands there, by name.
fn name(subject: Subject, pose: &Pose, paper: &Paper, column: &mut Column) {
    let numbers = subject.numbers;
    let at = |spot: Spot| paper.at(pose.spot(spot));
    let mass = numbers.and_then(|numbers| numbers.loaded()).map(|loaded| loaded.mass);
    let weighed = numbers.is_some_and(|numbers| numbers.basis().mass);
    let how = if weighed { "as weighed, with its motor" } else { "with its motor" };
    let mass = mass.map_or("its mass isn't known".to_string(), |mass| format!("{} {how}", show::mass(mass)));
    column.name(at((0.45 * pose.lowest, 0.3 * pose.rocket.radius)), &subject.title(), &mass, Role::Ink, None);
    let guides = numbers.map_or(&[][..], |numbers| numbers.guides());
    for (i, guide) in guides.iter().enumerate() {
        let seen = pose.rocket.guides.iter().find(|seen| seen.part == guide.part);
        let off = seen.and_then(|seen| seen.outline.iter().map(|spot| spot.1).reduce(f64::min)).unwrap_or(0.0);
        let word = match (guides.len(), i) {
            (1, _) => "the only guide",
            (_, 0) => "front guide",
            (n, i) if i + 1 == n => "rear guide",
            _ => "middle guide",
        };
        let ahead = pose.rocket.tail - guide.extent.middle();
        let side = if ahead >= 0.0 { "ahead of" } else { "behind" };
        let meaning = format!("{} {side} the aft end", show::station(ahead.abs()));
        let to = at((guide.extent.middle(), off.max(-pose.axis) * 0.96));
        column.name(to, word, &meaning, Role::Ink, subject.place(guide.part));
    }
    if pose.stop > 0.0 {
        let to = paper.at((pose.stop - 0.65 / paper.scale, pose.axis + pose.rocket.radius * 0.9));
        let word = subject.pad().map_or("rail", |pad| pad.rail_word());
        column.name(to, "stop", &format!("{} up the {word}", show::length(pose.stop)), Role::Ink, None);
    }
}

/// Where along rod, rail or tower a speed is read.
fn lowest_held(subject: Subject) -> &'static str {
    match subject.pad().is_some_and(|pad| pad.has_tower()) {
        true => "A speed is read where the lower end of what the tower holds passes.",
        false => "A speed is read where the rear guide's lower end passes.",
    }
}
