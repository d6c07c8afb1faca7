//! The rocket from behind: do rod, rail, fins and every set of guides clear each other?

mod list;
mod ring;
mod section;
mod tower;

use crate::draft::Draft;
use crate::font::width;
use crate::scene::{Pen, Point, Ring, Role, Scene, Style};
use crate::subject::{guide_width, sentence, Subject};
use finwright_assess::hardware::guide_offset;
use finwright_assess::traced::{at as across, fins, nearest, Nearest};
use finwright_checks::rules::guide::body_in_the_way::BODY_IN_THE_WAY;
use finwright_checks::rules::guide::fin_in_the_way::FIN_IN_THE_WAY;
use finwright_checks::rules::pad::tower::{FINS_MEET, MISFIT};
use finwright_model::{Pad, PartKind};
use finwright_units::show;
use std::f64::consts::PI;
use tower::Tower;

const WIDTH: f64 = 200.0;
/// The ring of degrees, and what stands inside of it, mm.
const RING: f64 = 74.0;
const INSIDE: f64 = 70.0;

/// The scales that a builder can hold a part against, larger ones for small rockets: this many to one.
const SCALES: [f64; 14] = [5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.8, 0.5, 0.4, 0.25, 0.2, 0.1, 0.05, 0.02];

/// From behind, m to mm of paper.
struct Behind {
    middle: Point,
    scale: f64,
}

impl Behind {
    fn at(&self, (right, up): (f64, f64)) -> Point {
        (self.middle.0 + right * self.scale, self.middle.1 - up * self.scale)
    }

    fn polar(&self, mm: f64, clock: f64) -> Point {
        (self.middle.0 + mm * clock.sin(), self.middle.1 - mm * clock.cos())
    }
}

/// A rod or rail of the design beside its guides.
struct Held<'a> {
    pad: &'a Pad,
    distance: f64,
    clock: f64,
}

/// The picture; `None` where the airframe has no shape.
pub fn end_on(subject: Subject) -> Option<Scene> {
    let parts = subject.parts();
    let radius = parts
        .placed()
        .filter_map(|(id, ..)| parts.body(id).map(|b| b.section.fore_radius().max(b.section.aft_radius())));
    let radius = radius.fold(0.0, f64::max);
    if radius <= 0.0 {
        return None;
    }
    let held = held(subject);
    let tower = tower::of(subject);
    let reach = reach(subject, radius, &held).max(tower.as_ref().map_or(0.0, Tower::reach));
    let zoom = SCALES.into_iter().find(|zoom| reach * 1000.0 * zoom <= INSIDE).unwrap_or(0.01);
    let written = match zoom {
        1.0 => "at true size".to_string(),
        zoom if zoom > 1.0 => format!("{zoom} times its size"),
        zoom => format!("drawn 1 : {}", show::number(1.0 / zoom)),
    };
    let closest = subject.pad().zip(subject.numbers).and_then(|(pad, numbers)| nearest(parts, pad, numbers));
    let mut draft = Draft::new("end-on", WIDTH, 297.0);
    let over = format!("{}, seen from behind, {written}", subject.flight_line());
    let said = answers(subject, closest.as_ref(), &held, tower.as_ref());
    let top = draft.heading(&over, "Do rod, rail, fins and guides clear each other?", &said);
    let behind = Behind { middle: (WIDTH / 2.0, top + 15.0 + RING), scale: zoom * 1000.0 };

    ring::draw(&mut draft, subject, &behind, &held);
    surfaces(&mut draft, subject, &behind);
    body(&mut draft, subject, &behind, radius);
    for one in &held {
        section::draw(&mut draft, subject, &behind, one);
    }
    if let Some(tower) = &tower {
        tower.draw(&mut draft, &behind);
    }
    hardware(&mut draft, subject, &behind);
    if let Some(closest) = &closest {
        gap(&mut draft, subject, &behind, closest);
    }
    let y = list::draw(&mut draft, subject, radius, &held, behind.middle.1 + RING + 17.0);
    draft.foot(y + 2.0);
    draft.set_height(y + 6.5);
    let told = format!("Seen from behind, clockwise from above, {written}. {} {}", said.join(" "), ring::told(subject));
    let title = format!("{} from behind: do rod, rail, fins and guides clear each other?", subject.title());
    Some(draft.done(title, told))
}

/// The rods and rails of the design's flights, each once, this flight's first.
fn held<'a>(subject: Subject<'a>) -> Vec<Held<'a>> {
    let design = subject.design();
    let mut numbers: Vec<_> = subject.analysis.assessment.flights.iter().collect();
    numbers.sort_by_key(|numbers| numbers.flight != subject.number);
    let mut held: Vec<Held> = Vec::new();
    for numbers in numbers {
        let Some(pad) = design.flights.get(numbers.flight).and_then(|flight| design.pad_of(flight)) else { continue };
        let Some(clearance) = &numbers.clearance else { continue };
        let Some(clock) = clearance.guides.iter().find_map(|line| line.clock) else { continue };
        let distance = clearance.guides.iter().map(|line| line.distance).fold(f64::INFINITY, f64::min);
        // What stands where another one does is drawn once.
        let apart = |other: &Held| ((clock - other.clock + PI).rem_euclid(2.0 * PI) - PI).abs() > 0.05;
        if held.iter().all(apart) {
            held.push(Held { pad, distance, clock });
        }
    }
    held
}

fn reach(subject: Subject, radius: f64, held: &[Held]) -> f64 {
    let parts = subject.parts();
    let corners = parts.all().flat_map(|(id, _)| fins(parts, id)).flat_map(|(_, corners)| corners);
    let fins = corners.map(|(x, y)| x.hypot(y)).fold(radius, f64::max);
    let others = parts.placed().filter_map(|(_, part, extent)| match &part.kind {
        PartKind::TubeFins { outer, .. } => Some(parts.radius_under(part, extent.middle())? + outer.as_ref()?.si),
        PartKind::RingFin { outer, .. } => Some(outer.as_ref()?.si / 2.0),
        _ if part.is_guide() => {
            Some(parts.radius_under(part, extent.middle())? + 2.0 * guide_offset(subject.design(), part))
        }
        _ => None,
    });
    let rails = held.iter().map(|one| one.distance + guide_width(subject.design(), one.pad).unwrap_or(0.0) * 1.2);
    others.chain(rails).fold(fins, f64::max)
}

fn answers(subject: Subject, closest: Option<&Nearest>, held: &[Held], tower: Option<&Tower>) -> Vec<String> {
    let way = [&FIN_IN_THE_WAY, &BODY_IN_THE_WAY, &FINS_MEET, &MISFIT];
    let word = subject.pad().map_or("rod", |pad| pad.rail_word());
    let mut said: Vec<String> = Vec::new();
    match (subject.found(&way), closest) {
        (Some(finding), _) => {
            said.push(format!("No: {}.", finding.message.trim_end_matches('.')));
            said.extend(Some(sentence("To pass", &finding.help)).filter(|help| !help.is_empty()));
        }
        (None, Some(closest)) => {
            said.push(format!("Yes. The {word} comes closest to a fin, {} away.", show::length(closest.apart)))
        }
        (None, None) if tower.is_some() => said.extend(tower.map(Tower::told)),
        (None, None) if held.is_empty() => {
            said.push("The guides' angle, or the pad, isn't known, so that can't be told yet.".to_string())
        }
        (None, None) => said.push(format!("Yes: no fin stands beside the {word}.")),
    }
    said
}

fn surfaces(draft: &mut Draft, subject: Subject, behind: &Behind) {
    let parts = subject.parts();
    for (id, part, extent) in parts.placed() {
        draft.stands_for(subject.place(id));
        for (_, corners) in fins(parts, id) {
            draft.solid(&corners.map(|corner| behind.at(corner)), Pen::LINE);
        }
        let outer = |amount: &Option<finwright_model::Amount>| amount.as_ref().map(|outer| outer.si / 2.0);
        match &part.kind {
            PartKind::TubeFins { count, outer: wide, inner, .. } => {
                let (Some(count), Some(tube)) = (count.as_ref(), outer(wide)) else { continue };
                let Some(under) = parts.radius_under(part, extent.middle()) else { continue };
                let first = part.clock.as_ref().map_or(0.0, |clock| clock.si);
                for n in 0..count.si as u32 {
                    let middle = behind.at(across(under + tube, first + 2.0 * PI * f64::from(n) / count.si, 0.0));
                    draft.circle(middle, tube * behind.scale, Some(Role::Paper), Some(Pen::LINE));
                    if let Some(inner) = outer(inner) {
                        draft.circle(middle, inner * behind.scale, None, Some(Pen::HAIR));
                    }
                }
            }
            PartKind::RingFin { outer: wide, inner, .. } => {
                for ring in [outer(wide), outer(inner)].into_iter().flatten() {
                    draft.circle(behind.middle, ring * behind.scale, None, Some(Pen::LINE));
                }
            }
            _ => {}
        }
    }
    draft.stands_for(None);
}

fn body(draft: &mut Draft, subject: Subject, behind: &Behind, radius: f64) {
    let parts = subject.parts();
    draft.circle(behind.middle, radius * behind.scale, Some(Role::Paper), Some(Pen::LINE));
    let tail = subject.analysis.assessment.airframe.tail.unwrap_or(0.0);
    let at_tail = parts.placed().filter(|(.., extent)| (extent.back - tail).abs() < 1e-4);
    for (id, part, _) in at_tail {
        let Some(shape) = parts.body(id) else { continue };
        draft.stands_for(subject.place(id));
        let aft = shape.section.aft_radius();
        if aft < radius - 1e-5 {
            draft.circle(behind.middle, aft * behind.scale, None, Some(Pen::LINE));
        }
        if let PartKind::Tube { inner: Some(inner), .. } = &part.kind {
            draft.circle(behind.middle, inner.si / 2.0 * behind.scale, None, Some(Pen::HAIR));
        }
    }
    draft.stands_for(None);
    let (Some(motor), Some(flight)) = (subject.motor(), subject.flight) else { return };
    let Some(diameter) = motor.diameter.as_ref() else { return };
    let stage =
        if flight.booster_motor.is_some() { finwright_model::Stage::Booster } else { finwright_model::Stage::Upper };
    let (count, circle) = finwright_assess::stage::cluster(subject.design(), stage);
    let r = diameter.si / 2.0 * behind.scale;
    draft.stands_for(Some(motor.header));
    for n in 0..count.max(1.0) as u32 {
        let clock = 2.0 * PI * f64::from(n) / count.max(1.0);
        let away = if count > 1.0 { circle } else { 0.0 };
        let middle = behind.at(across(away, clock, 0.0));
        let nozzle = 0.28 * r;
        draft.circle(middle, r, Some(Role::Paper), Some(Pen::THIN));
        let ring = |r: f64| {
            (0..48)
                .map(|i| (f64::from(i) * PI / 24.0).sin_cos())
                .map(|(s, c)| (middle.0 + r * s, middle.1 + r * c))
                .collect::<Vec<Point>>()
        };
        draft.hatch(&[ring(r), ring(nozzle)], 1.3, 45.0, Pen::HAIR.role(Role::Faint));
        draft.circle(middle, nozzle, None, Some(Pen::THIN));
    }
    draft.stands_for(None);
}

/// Lugs as rings, buttons and rail guides as they stand off the body.
fn hardware(draft: &mut Draft, subject: Subject, behind: &Behind) {
    let parts = subject.parts();
    for (id, part, extent) in parts.placed().filter(|(_, part, _)| part.is_guide()) {
        let Some(clock) = part.clock.as_ref().map(|clock| clock.si) else { continue };
        let Some(under) = parts.radius_under(part, extent.middle()) else { continue };
        draft.stands_for(subject.place(id));
        match &part.kind {
            PartKind::Lug { bore: Some(bore), wall, .. } => {
                let middle = behind.at(across(under + guide_offset(subject.design(), part), clock, 0.0));
                let inner = bore.si / 2.0;
                let outer = inner + wall.as_ref().map_or(0.0, |wall| wall.si);
                let rings =
                    vec![Ring::Circle(middle, outer * behind.scale), Ring::Circle(middle, inner * behind.scale)];
                draft.shape(rings, None, Some(Pen::SMALL));
            }
            PartKind::Button { profile, standoff, .. } | PartKind::RailGuide { profile, standoff, .. } => {
                let section = finwright_assess::hardware::section_of_width(subject.design(), profile);
                let mouth = section.and_then(|(_, s)| s.mouth.as_ref()).map_or(5e-3, |mouth| mouth.si);
                let standoff = standoff.as_ref().map_or(0.0, |s| s.si);
                let spot = |r: f64, beside: f64| behind.at(across(under + r, clock, beside));
                let (neck, head, lip, end) =
                    (0.42 * mouth, 0.85 * mouth, standoff + 0.42 * mouth, standoff + 0.9 * mouth);
                let outline = [
                    spot(0.0, -neck),
                    spot(lip, -neck),
                    spot(lip, -head),
                    spot(end, -head),
                    spot(end, head),
                    spot(lip, head),
                    spot(lip, neck),
                    spot(0.0, neck),
                ];
                draft.solid(&outline, Pen::SMALL);
            }
            _ => {}
        }
    }
    draft.stands_for(None);
}

/// The least clearance, from point to point.
fn gap(draft: &mut Draft, subject: Subject, behind: &Behind, closest: &Nearest) {
    let (a, b) = (behind.at(closest.of_guide), behind.at(closest.of_fin));
    let role = if subject.level(&[&FIN_IN_THE_WAY]).is_some() { Role::Fails } else { Role::Looks };
    draft.dimension(a, b, role);
    let middle = ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0);
    let word = subject.pad().map_or("rod", |pad| pad.rail_word());
    let lines = [show::length(closest.apart), format!("{word} to fin,"), "the closest".to_string()];
    let right = middle.0 >= behind.middle.0;
    let side = if right { 1.0 } else { -1.0 };
    // In the free sector beyond it, on the side where it is.
    let out = (middle.0 - behind.middle.0, middle.1 - behind.middle.1);
    let far = out.0.hypot(out.1).max(1.0);
    let style = Style::LABEL.role(role).knock();
    let style = if right { style } else { style.end() };
    let wide = lines.iter().map(|line| width(line, style.bold())).fold(0.0, f64::max);
    let reach = (far + 16.0).min(RING - 14.0);
    let mut at = (behind.middle.0 + out.0 / far * reach, behind.middle.1 + out.1 / far * reach);
    let edge = behind.middle.0 + side * (RING - 3.0);
    if (edge - at.0) * side < wide + 4.0 {
        at.0 = edge - side * (wide + 4.0);
    }
    draft.leader(&[(at.0, at.1 - 1.1), (at.0 - 1.5 * side, at.1 - 1.1), middle], role);
    draft.say((at.0 + 1.5 * side, at.1), &lines, style);
}
