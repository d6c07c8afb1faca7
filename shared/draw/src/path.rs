//! Where does the flight go, and where does it come down?

mod ground;

use crate::draft::{Draft, Head};
use crate::plot::{dot, label, ring};
use crate::scene::{Pen, Point, Role, Scene, Style};
use crate::subject::Subject;
use finwright_assess::{course, path as flown, Path};
use finwright_checks::rules::field::drifts_out::DRIFTS_OUT;
use finwright_checks::rules::field::people_too_close::PEOPLE_TOO_CLOSE;
use finwright_physics::flight::Moment;
use finwright_units::show;

const WIDTH: f64 = 170.0;
/// Room for the flight across and up, mm.
const ACROSS: f64 = 126.0;
const UP: f64 = 96.0;

/// From flight to paper: drift downwind of the pad and height, m.
#[derive(Clone, Copy)]
struct Field {
    pad: Point,
    scale: f64,
}

impl Field {
    fn at(&self, drift: f64, height: f64) -> Point {
        (self.pad.0 + drift * self.scale, self.pad.1 - height * self.scale)
    }
}

/// The picture; `None` where the flight can't be followed.
pub fn path(subject: Subject) -> Option<Scene> {
    let numbers = subject.numbers?;
    let airframe = &subject.analysis.assessment.airframe;
    let known = flown(subject.design(), airframe, numbers).ok()?;
    let moments = course(subject.design(), airframe, numbers)?;
    let land = ground::Land::of(subject, known);
    let far = |pick: fn(f64, f64) -> f64| {
        let along = moments.iter().map(|moment| moment.drift).chain(land.marks());
        along.fold(0.0, pick)
    };
    let (west, east) = (far(f64::min), far(f64::max));
    let high = moments.iter().map(|moment| moment.height).fold(1.0, f64::max);
    let scale = (ACROSS / (east - west).max(1.0)).min(UP / high);
    let spare = (ACROSS - (east - west) * scale).max(0.0);
    let mut draft = Draft::new("path", WIDTH, 260.0);
    let over = format!("{}. Height and distance to one scale.", subject.line());
    let (said, more) = land.headline(subject, known);
    let top = draft.heading(&over, &said, &more);
    let ground = top + 14.0 + high * scale;
    let field = Field { pad: (18.0 + spare * 0.45 - west * scale, ground), scale };
    land.draw(&mut draft, &field, WIDTH);
    let line = |of: &mut dyn Iterator<Item = &Moment>| of.map(|m| field.at(m.drift, m.height)).collect::<Vec<_>>();
    let top_time = known.moments.apogee.time;
    let mut up = vec![field.at(0.0, 0.0)];
    up.extend(line(&mut moments.iter().filter(|moment| moment.time <= top_time)));
    draft.line(&up, Pen::BOLD);
    draft.line(&line(&mut moments.iter().filter(|moment| moment.time >= top_time - 1e-9)), Pen::LINE);
    let seconds = dots(&mut draft, &moments, top_time, &field);
    // What is told of the flight stands in the air.
    draft.close(Some((0.0, ground, WIDTH, ground + 60.0)));
    let untold = events(&mut draft, subject, known, &field, seconds);
    land.name_edge(&mut draft, &field);
    draft.close(None);
    wind(&mut draft, subject, high, &field, top);
    let mut below = land.distances(&mut draft, &field, known);
    if !untold.is_empty() {
        // What finds no room beside the flight stands under it.
        below = draft.paragraph((12.0, below + 3.0), &untold.join("; "), Style::NOTE.role(Role::Ink), WIDTH - 24.0);
    }
    draft.foot(below + 7.0);
    draft.set_height(below + 11.5);
    let title = format!("{}: where the flight goes in the wind, and where it comes down", subject.title());
    Some(draft.done(title, told(known, &land)))
}

/// A dot every so many seconds of the descent; gives how many.
fn dots(draft: &mut Draft, moments: &[Moment], top_time: f64, field: &Field) -> f64 {
    let end = moments.last().map_or(0.0, |moment| moment.time);
    let step = [1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 300.0]
        .into_iter()
        .find(|s| (end - top_time) / s <= 14.0)
        .unwrap_or(600.0);
    let mut time = top_time + step;
    while time < end - 0.3 * step {
        let pair =
            moments.windows(2).find(|pair| pair[0].time <= time && time <= pair[1].time && pair[1].time > pair[0].time);
        if let Some([a, b]) = pair {
            let share = (time - a.time) / (b.time - a.time);
            let at = field.at(a.drift + share * (b.drift - a.drift), a.height + share * (b.height - a.height));
            draft.circle(at, 0.62, Some(Role::Ink), None);
        }
        time += step;
    }
    step
}

/// What happens on the way, each beside its point; what found no room there is given back.
fn events(draft: &mut Draft, subject: Subject, known: &Path, field: &Field, seconds: f64) -> Vec<String> {
    let mut untold = Vec::new();
    let flown = &known.moments;
    let at = |moment: &Moment| field.at(moment.drift, moment.height);
    let note = Style::NOTE.role(Role::Ink);
    let apogee = at(&flown.apogee);
    dot(draft, apogee, Role::Ink);
    let words =
        format!("top at {}, {} after ignition", show::length(flown.apogee.height), show::time(flown.apogee.time));
    let right = apogee.0 < WIDTH * 0.55;
    let style = Style::LABEL.bold();
    let over = if right { style } else { style.end() };
    draft.text((apogee.0 + if right { -2.0 } else { 2.0 }, apogee.1 - 4.5), words, over);
    if let Some(burnout) = &flown.burnout {
        ring(draft, at(burnout));
        let words = format!("burnout at {}, {}", show::length(burnout.height), show::speed(burnout.speed));
        tell(draft, at(burnout), words, &mut untold);
    }
    for opening in known.descent.iter().flat_map(|descent| &descent.openings) {
        let names: Vec<String> = opening
            .parts
            .iter()
            .filter_map(|part| subject.design().parts.get(*part))
            .map(|part| part.label())
            .collect();
        let name = if names.is_empty() { "what slows it".to_string() } else { names.join(", ") };
        let after = opening.moment.time - flown.apogee.time;
        let when = if after.abs() < 0.05 {
            "at the top".to_string()
        } else {
            format!("{} {}", show::time(after.abs()), if after < 0.0 { "before" } else { "after" })
        };
        let words = format!("{name} opens {when}, at {}", show::speed(opening.air_speed));
        let point = at(&opening.moment);
        if (point.0 - apogee.0).hypot(point.1 - apogee.1) > 2.5 {
            ring(draft, point);
        }
        tell(draft, (point.0 + 0.5, point.1 + 4.0), crate::font::cut(&words, note, 100.0), &mut untold);
    }
    if let Some(descent) = &known.descent {
        let middle = (flown.apogee.height + flown.landing.height) * 0.5;
        let drift = (flown.apogee.drift + flown.landing.drift) * 0.5;
        let lines = [
            (format!("down at {},", show::descent(descent.sinking.rate)), Style::NOTE),
            (format!("a dot every {}", show::time(seconds)), Style::NOTE),
        ];
        label(draft, field.at(drift, middle), &lines, true);
    }
    let lean = known.leans();
    let way = if lean.abs() < 0.002 {
        "straight up".to_string()
    } else {
        format!("{} {}", show::angle(lean.abs()), if lean > 0.0 { "into the wind" } else { "with the wind" })
    };
    let words = format!("lets go at {}, {way}", show::speed(known.release.speed));
    tell(draft, (field.pad.0, field.pad.1 - 0.6), words, &mut untold);
    untold
}

fn tell(draft: &mut Draft, to: Point, words: String, untold: &mut Vec<String>) {
    if !label(draft, to, &[(words.clone(), Style::NOTE.role(Role::Ink))], true) {
        untold.push(words);
    }
}

/// The wind, as long as it's strong at each height.
fn wind(draft: &mut Draft, subject: Subject, high: f64, field: &Field, top: f64) {
    let Some(air) = subject.numbers.and_then(|numbers| numbers.air).filter(|air| air.wind > 0.0) else { return };
    let profile = air.profile();
    let x = WIDTH - 26.0;
    let most = profile.at(high).max(0.1);
    let per = 13.0 / most;
    let heights: Vec<f64> = (1..=5).map(|i| high * f64::from(i) / 5.0).collect();
    let lowest = field.at(0.0, heights[0]).1;
    let highest = field.at(0.0, high).1;
    if lowest - highest > 12.0 {
        draft.line(&[(x, highest), (x, lowest)], Pen::HAIR);
        for height in &heights {
            let y = field.at(0.0, *height).1;
            draft.arrow((x, y), (x + per * profile.at(*height), y), Pen::THIN.role(Role::Looks), Head(1.5, 0.3));
        }
    }
    let note = Style::NOTE.role(Role::Looks).end();
    let words = format!("wind {} 2 m up, {} at the top", show::speed(air.wind), show::speed(most));
    draft.text_if_free((WIDTH - 12.0, top + 3.0), words, note);
}

fn told(known: &Path, land: &ground::Land) -> String {
    let flown = &known.moments;
    let mut said =
        format!("Side view to scale, the wind from the left. It lets go at {}", show::speed(known.release.speed));
    if let Some(burnout) = &flown.burnout {
        said += &format!(", burns out at {}", show::length(burnout.height));
    }
    said += &format!(", tops out at {} after {}", show::length(flown.apogee.height), show::time(flown.apogee.time));
    match known.drift() {
        Some(drift) => {
            said += &format!(
                ", and lands {} from the pad after {}.",
                show::length(drift.abs()),
                show::time(flown.landing.time)
            )
        }
        None => said += ", and comes down without anything that slows it, or nobody knows when that opens.",
    }
    if let Some(edge) = land.edge {
        said += &format!(" The field's edge is {} from its middle.", show::length(edge));
    }
    said
}

/// Whether what is found about the field speaks against the landing.
fn lands_out(subject: Subject) -> bool {
    subject.found(&[&DRIFTS_OUT, &PEOPLE_TOO_CLOSE]).is_some_and(|finding| finding.rule == DRIFTS_OUT.name)
}
