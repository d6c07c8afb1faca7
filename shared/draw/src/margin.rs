//! Does it stay stable as the motor burns?

use crate::draft::{Draft, Head};
use crate::lacking::lacking;
use crate::plot::{dot, label, level, ring, upright, Axis};
use crate::rocket::{rocket, Rocket, Spot};
use crate::scene::{Pen, Point, Role, Scene, Style};
use crate::side::{draw, Detail};
use crate::subject::{sentence, Subject};
use finwright_assess::traced::margins;
use finwright_checks::common::limits::MARGIN;
use finwright_checks::rules::stability::low_margin::{LOW_MARGIN, UNSTABLE};
use finwright_checks::rules::stability::low_margin_at_release::LOW_MARGIN_AT_RELEASE;
use finwright_checks::rules::stability::low_margin_burnt::LOW_MARGIN_BURNT;
use finwright_units::show;

const WIDTH: f64 = 170.0;

/// What the picture shows. Margins in calibres, times in s.
struct Stable {
    line: Vec<Point>,
    loaded: f64,
    burnt: Point,
    release: Option<(f64, f64)>,
    gust: Option<f64>,
    limit: f64,
}

impl Stable {
    fn of(subject: Subject) -> Option<Stable> {
        let numbers = subject.numbers?;
        let line = margins(&subject.analysis.assessment.airframe, numbers, 40);
        let known = numbers.margins?;
        let end = line.last()?.0;
        let released = numbers.run.as_ref().and_then(|run| run.last()).map(|last| last.time);
        let release = released.zip(numbers.release.and_then(|release| release.margin));
        let gust = numbers.release.and_then(|release| release.gust_margin);
        let (loaded, burnt) = (known.loaded, (end, known.burnt));
        let limit = subject.analysis.settings.limit(&MARGIN);
        Some(Stable { line, loaded, burnt, release: release.filter(|at| at.0 <= end), gust, limit })
    }

    fn least(&self) -> f64 {
        let known = self.line.iter().map(|point| point.1).chain(self.release.map(|release| release.1)).chain(self.gust);
        known.fold(f64::INFINITY, f64::min)
    }
}

/// The picture; `None` where the margin isn't known.
pub fn margin(subject: Subject) -> Option<Scene> {
    let stable = Stable::of(subject)?;
    let rocket = rocket(subject.parts(), 0.0)?;
    let mut draft = Draft::new("margin", WIDTH, 260.0);
    let calibre = subject.analysis.assessment.airframe.calibre.unwrap_or(0.0);
    let over = format!("{}. A calibre is the body's diameter, {}.", subject.line(), show::length(calibre));
    let said = headline(subject, &stable);
    let rules = [&UNSTABLE, &LOW_MARGIN, &LOW_MARGIN_AT_RELEASE, &LOW_MARGIN_BURNT];
    let mut answers: Vec<String> =
        subject.found(&rules).map(|finding| sentence("Look at it", &finding.message)).into_iter().collect();
    if stable.release.is_none() {
        answers.extend(lacking(subject).into_iter().take(1));
    }
    let top = draft.heading(&over, &said, &answers);
    let most = stable.line.iter().map(|point| point.1).fold(stable.limit, f64::max);
    let low = stable.least().min(0.0);
    let x = Axis { from: 0.0, to: stable.burnt.0.max(1e-3), start: 28.0, end: WIDTH - 24.0 };
    let y = Axis { from: low, to: most, start: top + 92.0, end: top + 20.0 };
    let at = |(time, margin): Point| (x.at(time), y.at(margin));
    upright(&mut draft, x.start - 2.0, &y, 1.0, "margin in calibres, by time from ignition");
    level(&mut draft, y.start + 2.0, &x, 1.0, "s");
    let line = y.at(stable.limit);
    draft.limit((x.start, line), (x.end + 3.0, line), 1.0, Pen::SMALL);
    let points: Vec<Point> = stable.line.iter().map(|point| at(*point)).collect();
    if let (Some((time, _)), Some(lowest)) = (stable.release, stable.gust.or(stable.release.map(|r| r.1))) {
        draft.line(&[at((time, read(&stable.line, time))), at((time, lowest))], Pen::HAIR);
    }
    draft.line(&points, Pen::BOLD);
    points_told(&mut draft, subject, &stable, &at);
    let words = format!("{}, the least that is usual", calibres(stable.limit));
    let style = Style::NOTE.role(Role::Ink);
    let _ = draft.text_if_free((x.end + 3.0, line - 1.5), words.as_str(), style.end())
        || draft.text_if_free((x.end + 3.0, line + 4.8), words, style.end());
    let below = moments(&mut draft, subject, &rocket, y.start + 14.0);
    draft.foot(below + 7.0);
    draft.set_height(below + 11.5);
    let title = format!("{}: does it stay stable as the motor burns?", subject.title());
    Some(draft.done(title, told(&stable)))
}

fn headline(subject: Subject, stable: &Stable) -> String {
    let least = stable.least();
    let calibres = calibres(least.abs());
    let in_gust = stable.gust.is_some_and(|gust| (gust - least).abs() < 1e-9);
    let at_release = stable.release.is_some_and(|release| (release.1 - least).abs() < 1e-9);
    let blows = subject.numbers.and_then(|n| n.air).is_some_and(|air| air.gust > 0.0);
    let when = match (in_gust && blows, at_release && blows) {
        (true, _) => ", in a gust at release",
        (_, true) => ", at release in the wind",
        _ => "",
    };
    match least {
        l if l < 0.0 => {
            format!("It isn't stable: the wind would push {calibres} ahead of the balance point{when}.")
        }
        l if l < stable.limit => format!("It's barely stable: {calibres} at least{when}."),
        _ => format!("It stays stable: {calibres} at least{when}."),
    }
}

fn calibres(number: f64) -> String {
    let said = show::number(number);
    let one = if said == "1" { "calibre" } else { "calibres" };
    format!("{said} {one}")
}

/// The margin at a time, read off the line.
fn read(line: &[Point], time: f64) -> f64 {
    crate::run::speed_at(line, time)
}

fn points_told(draft: &mut Draft, subject: Subject, stable: &Stable, at: &dyn Fn(Point) -> Point) {
    let least = stable.least();
    let role = |margin: f64| match margin < stable.limit {
        true if margin < 0.0 || subject.level(&[&UNSTABLE]).is_some() => Role::Fails,
        true => Role::Looks,
        false => Role::Ink,
    };
    let number = show::number;
    let air = subject.numbers.and_then(|numbers| numbers.air);
    let (steady, gust) = air.map_or((0.0, 0.0), |air| (air.as_read(air.wind), air.as_read(air.gust)));
    let mut told: Vec<(Point, String, bool)> = Vec::new();
    if let Some((time, margin)) = stable.release.filter(|_| gust > 0.0) {
        if let Some(lowest) = stable.gust.filter(|_| gust > steady) {
            told.push((
                (time, lowest),
                format!("{} in a gust of {} at release", number(lowest), show::speed(gust)),
                true,
            ));
        }
        if steady > 0.0 {
            told.push((
                (time, margin),
                format!("{} as it lets go in the steady {}", number(margin), show::speed(steady)),
                true,
            ));
        }
    }
    told.push((stable.burnt, format!("{} at burnout", number(stable.burnt.1)), false));
    told.push(((0.0, stable.loaded), format!("{} on the pad", number(stable.loaded)), true));
    for (point, words, right) in told {
        let is_least = (point.1 - least).abs() < 1e-9;
        match is_least {
            true => dot(draft, at(point), role(point.1)),
            false => ring(draft, at(point)),
        }
        let style = Style::LABEL.role(role(point.1));
        let words = if is_least { format!("{words}: the least") } else { words };
        let style = if is_least { style.bold() } else { style };
        // At release there is room to the right, level with the point.
        let (x, y) = at(point);
        if right && draft.text_if_free((x + 3.0, y + 1.1), words.as_str(), style) {
            continue;
        }
        label(draft, at(point), &[(words, style)], right);
    }
}

/// Two small rockets on their edges: on the pad and at burnout. Gives the y below.
fn moments(draft: &mut Draft, subject: Subject, rocket: &Rocket, top: f64) -> f64 {
    let (Some(weighed), Some(known)) =
        (subject.numbers.and_then(|n| n.weighed), subject.numbers.and_then(|n| n.margins))
    else {
        return top;
    };
    let pressure = subject.analysis.assessment.airframe.airflow.as_ref().and_then(|airflow| airflow.total.x());
    let Some(pressure) = pressure else { return top };
    let (up, down) = rocket.reach;
    let overhang = subject.numbers.and_then(|n| n.lowest()).map_or(0.0, |lowest| (lowest - rocket.tail).max(0.0));
    let scale = (58.0 / (rocket.tail + overhang)).min(14.0 / (up + down));
    let axis = top + 8.0 + up * scale;
    let under = axis + rocket.radius * scale;
    let base = (axis + down * scale).max(under + 3.6);
    for (i, (balance, margin, when)) in
        [(weighed.loaded.x, known.loaded, "on the pad"), (weighed.burnt.x, known.burnt, "at burnout")]
            .into_iter()
            .enumerate()
    {
        let from = 16.0 + 74.0 * i as f64 + overhang * scale;
        let at = |(station, above): Spot| (from + (rocket.tail - station) * scale, axis - above * scale);
        draw(draft, subject, rocket, &|spot: &Spot| at(*spot), Detail::Tiny);
        let (b, p) = (at((balance, 0.0)).0, at((pressure.clamp(0.0, rocket.tail), 0.0)).0);
        let hull = axis - rocket.radius * scale;
        draft.area(&[(b, under), (b - 1.3, under + 3.4), (b + 1.3, under + 3.4)], Role::Ink);
        let level = top + 3.0;
        draft.arrow((p, level), (p, hull - 0.2), Pen::LINE, Head(1.8, 0.3));
        draft.line(&[(b, hull - 0.4), (b, level + 1.2)], Pen::HAIR.role(Role::Ink));
        draft.line(&[(b, level + 1.5), (p, level + 1.5)], Pen::HAIR.role(Role::Ink));
        let apart = show::station((pressure - balance).abs());
        draft.text((b.max(p) + 1.8, level + 2.4), apart, Style::NOTE.role(Role::Ink));
        draft.text(
            (16.0 + 74.0 * i as f64, base + 5.0),
            format!("{when}: {}", show::number(margin)),
            Style::NOTE.role(Role::Ink),
        );
    }
    let words = "It balances on the edge; a side wind pushes at the arrow. The further apart, the steadier.";
    draft.paragraph((16.0, base + 10.4), words, Style::NOTE, WIDTH - 28.0)
}

fn told(stable: &Stable) -> String {
    let number = show::number;
    let mut said = format!(
        "Margin in calibres over time from the pad to burnout: {} on the pad, {} at burnout after {}.",
        number(stable.loaded),
        number(stable.burnt.1),
        show::time(stable.burnt.0)
    );
    if let Some((_, margin)) = stable.release {
        said += &format!(" At release it is {} in the steady wind", number(margin));
        if let Some(gust) = stable.gust {
            said += &format!(" and {} in a gust", number(gust));
        }
        said += ".";
    }
    said + &format!(" The least that is usual is {}.", number(stable.limit))
}
