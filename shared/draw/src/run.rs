//! The run along the guide: how does the speed grow, and where is it enough?

mod small;

use crate::draft::Draft;
use crate::lacking::lacking;
use crate::plot::{dot, label, level, ring, upright, Axis};
use crate::scene::{Dash, Pen, Point, Role, Scene, Style};
use crate::subject::Subject;
use finwright_assess::traced::{speeds, travel_at};
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::lacking::joined;
use finwright_units::show;

pub use small::small;

/// A flight's run. Travels in m, speeds in m/s.
pub struct Curve {
    /// The flight's number.
    pub flight: usize,
    /// What its pad is called; the flight's name where several share a pad.
    pub name: String,
    /// "rod" or "rail".
    pub word: &'static str,
    /// Speed by travel.
    pub points: Vec<Point>,
    /// The front guide's release.
    pub front: Option<Point>,
    /// The last one's.
    pub last: Point,
    /// One standard deviation of the last speed.
    pub spread: Option<f64>,
    /// Where the floor is reached, on an endless guide.
    pub floor_at: Option<f64>,
    /// Whether it has a single guide.
    pub alone: bool,
    /// Whether a tower holds it by its body.
    pub in_tower: bool,
    /// Whether its line is that of an earlier curve.
    pub like_another: bool,
}

const WIDTH: f64 = 170.0;
/// More flights than these in one picture can't be told apart.
const MOST: usize = 4;

/// The curves of a design's flights, the one that is asked for first, and how many more there are.
pub fn curves(subject: Subject) -> (Vec<Curve>, usize) {
    let analysis = subject.analysis;
    let floor = analysis.settings.limit(&EXIT_SPEED);
    let mut order: Vec<usize> = (0..analysis.design.flights.len()).collect();
    order.sort_by_key(|number| *number != subject.number);
    let mut found: Vec<Curve> = Vec::new();
    let mut more = 0;
    for number in order {
        let one = Subject::new(analysis, number);
        let (Some(numbers), Some(pad), Some(flight)) = (one.numbers, one.pad(), one.flight) else { continue };
        let Some(last) = numbers.run.as_ref().and_then(|run| run.last()) else { continue };
        if found.len() >= MOST {
            more += 1;
            continue;
        }
        let points = speeds(numbers, (1..60).map(|i| last.speed * f64::from(i) / 60.0));
        let front = numbers.run.as_ref().and_then(|run| run.front()).map(|front| (front.travel, front.speed));
        let name = pad.name.value.clone();
        let name = if found.iter().any(|known| known.name == name) { flight.name.value.clone() } else { name };
        let like_another = found.iter().any(|known| is_like(&known.points, &points));
        found.push(Curve {
            flight: number,
            name,
            word: pad.rail_word(),
            points,
            front: front.filter(|front| front.0 > 0.0 && front.0 < last.travel - 1e-6),
            last: (last.travel, last.speed),
            spread: analysis.likely(number).map(|likely| likely.exit_speed_sd),
            floor_at: travel_at(numbers, floor),
            alone: numbers.guides().len() == 1,
            in_tower: pad.has_tower(),
            like_another,
        });
    }
    (found, more)
}

/// Whether two curves are the same to the eye as far as both go.
fn is_like(one: &[Point], other: &[Point]) -> bool {
    let to = one.last().zip(other.last()).map_or(0.0, |(a, b)| a.0.min(b.0));
    (1..=8).all(|i| {
        let travel = to * f64::from(i) / 8.0;
        let (a, b) = (speed_at(one, travel), speed_at(other, travel));
        (a - b).abs() <= 0.02 * a.max(b).max(0.1)
    })
}

/// The speed at a travel, read off a curve.
pub fn speed_at(points: &[Point], travel: f64) -> f64 {
    let between = points.windows(2).find(|pair| pair[0].0 <= travel && travel <= pair[1].0 && pair[1].0 > pair[0].0);
    between.map_or(points.last().map_or(0.0, |last| last.1), |pair| {
        pair[0].1 + (travel - pair[0].0) / (pair[1].0 - pair[0].0) * (pair[1].1 - pair[0].1)
    })
}

/// Nine of ten runs lie within this many standard deviations: the normal distribution's 95th hundredth.
pub const NINE_OF_TEN: f64 = 1.645;

/// The picture; `None` where no flight leaves its guide.
pub fn run(subject: Subject) -> Option<Scene> {
    let (curves, more) = curves(subject);
    if curves.is_empty() {
        return None;
    }
    let floor = subject.analysis.settings.limit(&EXIT_SPEED);
    let mut draft = Draft::new("run", WIDTH, 260.0);
    let said = [headline(&curves, floor)];
    let over = format!("{}. Speed along the guide, from rest.", subject.title());
    let top = draft.heading(&over, &said[0], &detail(subject, &curves, more));
    let travel = curves.iter().map(|curve| curve.last.0).fold(0.0, f64::max);
    let fastest = curves.iter().map(|curve| curve.last.1).fold(floor, f64::max);
    let x = Axis { from: 0.0, to: travel, start: 28.0, end: WIDTH - 26.0 };
    let y = Axis { from: 0.0, to: fastest, start: top + 98.0, end: top + 22.0 };
    let at = |(travel, speed): Point| (x.at(travel), y.at(speed));
    let unit = show::speed_scale();
    bands(&mut draft, &curves, &at);
    upright(&mut draft, x.start - 2.0, &y, unit, &format!("speed, {}", show::speed_unit()));
    level(&mut draft, y.start + 2.0, &x, 1.0, "m");
    floor_line(&mut draft, &curves, floor, (&x, &y));
    let bottom = y.start + 2.0;
    for (i, curve) in curves.iter().enumerate() {
        let rail = bottom + 13.0 + 8.5 * i as f64;
        draft.line(&[at(curve.last), (x.at(curve.last.0), rail)], Pen::HAIR.dash(Dash::Fine));
    }
    for curve in curves.iter().filter(|curve| !curve.like_another || curve.last.0 >= travel) {
        let points: Vec<Point> = curve.points.iter().map(|point| at(*point)).collect();
        draft.line(&points, Pen::BOLD);
    }
    let untold = marks(&mut draft, &curves, floor, &at);
    for (i, curve) in curves.iter().enumerate() {
        guide(&mut draft, curve, &x, bottom + 13.0 + 8.5 * i as f64);
    }
    let y = bottom + 13.0 + 8.5 * curves.len() as f64;
    draft.text((x.start, y), "below the axis the guides themselves, to its scale", Style::NOTE);
    let mut y = y;
    if !untold.is_empty() {
        let style = Style::NOTE.role(Role::Ink);
        y = draft.paragraph((12.0, y + 5.0), &untold.join("; "), style, WIDTH - 24.0) - 4.0;
    }
    draft.foot(y + 8.0);
    draft.set_height(y + 12.5);
    let title = format!("{}: how the speed grows along the guide", subject.title());
    Some(draft.done(title, told(&curves, floor)))
}

fn headline(curves: &[Curve], floor: f64) -> String {
    let (slow, fast): (Vec<&Curve>, Vec<&Curve>) = curves.iter().partition(|curve| curve.last.1 < floor);
    let names = |of: &[&Curve]| joined(&of.iter().map(|curve| curve.name.as_str()).collect::<Vec<_>>(), "and");
    match (slow.as_slice(), fast.as_slice()) {
        ([], [only]) => format!("{} lets go at {}, fast enough.", only.name, show::speed(only.last.1)),
        ([], all) => {
            let least = all.iter().min_by(|a, b| a.last.1.total_cmp(&b.last.1));
            let least = least
                .map_or(String::new(), |one| format!(" The slowest is {} at {}.", one.name, show::speed(one.last.1)));
            format!("Every pad lets go fast enough.{least}")
        }
        ([only], []) => format!("{} lets go at {}, too slowly.", only.name, show::speed(only.last.1)),
        (_, []) => "Every pad lets go too slowly.".to_string(),
        (slow, fast) => format!("Fast enough: {}. Too slow: {}.", names(fast), names(slow)),
    }
}

fn detail(subject: Subject, curves: &[Curve], more: usize) -> Vec<String> {
    let mut said = Vec::new();
    if curves.iter().any(|curve| curve.like_another) {
        said.push("Curves that are the same are drawn once: a longer guide only goes on for longer.".to_string());
    }
    if more > 0 {
        said.push(format!("{more} more of this design's flights aren't in the picture."));
    }
    if !curves.iter().any(|curve| curve.flight == subject.number) && subject.flight.is_some() {
        said.push(format!(
            "{} isn't among them: its speeds aren't known, or it doesn't leave its guide.",
            subject.flight_line()
        ));
        said.extend(lacking(subject).into_iter().take(1));
    }
    said
}

fn bands(draft: &mut Draft, curves: &[Curve], at: &dyn Fn(Point) -> Point) {
    for curve in curves.iter().filter(|curve| !curve.like_another) {
        let Some(share) = curve.spread.map(|sd| NINE_OF_TEN * sd / curve.last.1.max(0.1)) else { continue };
        let longest =
            curves.iter().filter(|other| other.like_another).map(|other| &other.points).chain([&curve.points]);
        let Some(points) =
            longest.max_by(|a, b| a.last().map_or(0.0, |p| p.0).total_cmp(&b.last().map_or(0.0, |p| p.0)))
        else {
            continue;
        };
        let up = points.iter().map(|(travel, speed)| at((*travel, speed * (1.0 + share))));
        let down = points.iter().rev().map(|(travel, speed)| at((*travel, speed * (1.0 - share))));
        draft.area(&up.chain(down).collect::<Vec<_>>(), Role::Pale);
    }
}

fn floor_line(draft: &mut Draft, curves: &[Curve], floor: f64, (x, y): (&Axis, &Axis)) {
    let level = y.at(floor);
    draft.limit((x.start, level), (x.end + 4.0, level), 1.0, Pen::SMALL);
    let words = format!("the fins need {}", show::speed(floor));
    let style = Style::NOTE.role(Role::Ink);
    // Where the curves pass early the words stand at the other end.
    let early = curves.iter().filter_map(|curve| curve.floor_at).fold(f64::INFINITY, f64::min);
    if x.at(early.min(x.to)) - x.start > crate::font::width(&words, style) + 4.0 {
        draft.text((x.start, level - 1.5), words, style);
    } else {
        draft.text((x.end + 4.0, level + 4.6), words, style.end());
    }
}

/// The releases, each with its words; what found no room beside its point is given back.
fn marks(draft: &mut Draft, curves: &[Curve], floor: f64, at: &dyn Fn(Point) -> Point) -> Vec<String> {
    for curve in curves {
        let end = at(curve.last);
        if let Some(sd) = curve.spread {
            let (low, high) = (curve.last.1 - NINE_OF_TEN * sd, curve.last.1 + NINE_OF_TEN * sd);
            let (a, b) = (at((curve.last.0, low)), at((curve.last.0, high)));
            draft.line(&[a, b], Pen::LINE);
            draft.lines([[(a.0 - 0.8, a.1), (a.0 + 0.8, a.1)], [(b.0 - 0.8, b.1), (b.0 + 0.8, b.1)]], Pen::LINE);
        }
        let role = if curve.last.1 < floor { Role::Fails } else { Role::Ink };
        dot(draft, end, role);
        curve.front.iter().for_each(|front| ring(draft, at(*front)));
    }
    let mut told: Vec<(Point, Vec<(String, Style)>)> = Vec::new();
    for curve in curves {
        let role = if curve.last.1 < floor { Role::Fails } else { Role::Ink };
        let style = Style::LABEL.role(role).bold();
        let mut lines = vec![(format!("{} lets go at {}", curve.name, show::speed(curve.last.1)), style)];
        if let Some(sd) = curve.spread {
            let (low, high) = (curve.last.1 - NINE_OF_TEN * sd, curve.last.1 + NINE_OF_TEN * sd);
            let words = format!("{} to {} in nine runs of ten", show::speed_number(low), show::speed(high));
            lines.push((words, Style::NOTE));
        }
        told.push((at(curve.last), lines));
        if let Some(front) = curve.front {
            let which = match (curve.in_tower, curve.alone) {
                (true, _) => "held no longer",
                (false, true) => "its front edge leaves",
                (false, false) => "front guide leaves",
            };
            told.push((at(front), vec![(format!("{which}, {}", show::speed(front.1)), Style::NOTE.role(Role::Ink))]));
        }
    }
    if let Some(curve) = curves.iter().find(|curve| curve.floor_at.is_some_and(|at| at <= curve.last.0)) {
        let travel = curve.floor_at.unwrap_or(0.0);
        let (x, y) = at((travel, floor));
        draft.line(&[(x, y - 1.0), (x, y + 1.0)], Pen::LINE);
        let words = format!("had by {}", show::length(travel));
        draft.text_if_free((x + 3.0, y + 5.6), words, Style::NOTE.role(Role::Ink));
    }
    // The last releases first: what counts has the best places.
    told.sort_by_key(|(_, lines)| !lines[0].1.bold);
    let mut untold = Vec::new();
    for (to, lines) in told {
        if !label(draft, to, &lines, false) {
            untold.push(lines.iter().map(|line| line.0.as_str()).collect::<Vec<_>>().join(", "));
        }
    }
    untold
}

/// A guide under the axis, to its scale.
fn guide(draft: &mut Draft, curve: &Curve, x: &Axis, y: f64) {
    let (from, to) = (x.at(0.0), x.at(curve.last.0));
    let name = crate::font::cut(&curve.name, Style::NOTE, from - 3.4 - 6.0);
    draft.text((from - 3.4, y + 1.05), name, Style::NOTE.role(Role::Ink).end());
    if curve.word == "rail" {
        draft.solid(&[(from, y - 0.9), (to, y - 0.9), (to, y + 0.9), (from, y + 0.9)], Pen::SMALL);
        draft.line(&[(from, y), (to, y)], Pen::HAIR);
    } else {
        draft.line(&[(from, y), (to, y)], Pen::BOLD);
    }
    draft.line(&[(from, y - 1.9), (from, y + 1.9)], Pen::LINE);
    if let Some(front) = curve.front {
        ring(draft, (x.at(front.0), y));
    }
    dot(draft, (to, y), Role::Ink);
    let length = show::length(curve.last.0);
    draft.text_if_free((to + 3.0, y + 1.05), length, Style::NOTE.role(Role::Ink));
}

fn told(curves: &[Curve], floor: f64) -> String {
    let mut said = format!("Speed over travel from rest. The fins need {}.", show::speed(floor));
    for curve in curves {
        said +=
            &format!(" {} lets go at {} after {}", curve.name, show::speed(curve.last.1), show::length(curve.last.0));
        if let Some(front) = curve.front {
            said += &format!(", its front guide at {} after {}", show::speed(front.1), show::length(front.0));
        }
        said += ".";
    }
    said
}
