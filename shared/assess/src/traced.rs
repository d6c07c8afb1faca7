//! What a picture draws as lines, by the same methods and from the same inputs as the numbers beside them: how the
//! speed grows along the guide, how the margin changes through the burn, and which two points of a rod or rail and a
//! fin come closest. The course of the flight is [`crate::flight::path::course`].

use crate::airframe::Airframe;
use crate::flight::FlightNumbers;
use crate::shape::Parts;
use finwright_model::{Pad, PartId, PartKind, Rail};
use std::f64::consts::PI;

/// The speed by travel along a flight's guide, as pairs of m and m/s: from rest, at `speeds`, up to the last release;
/// empty where it doesn't leave.
pub fn speeds(numbers: &FlightNumbers, speeds: impl Iterator<Item = f64>) -> Vec<(f64, f64)> {
    let Some((curve, run)) = numbers.curve.as_ref().zip(numbers.run.as_ref()) else { return Vec::new() };
    let Some(last) = run.last() else { return Vec::new() };
    let guided = run.inputs_on(curve);
    let mut known = vec![(0.0, 0.0)];
    for speed in speeds.filter(|speed| *speed > 0.0 && *speed < last.speed) {
        let travel = guided.travel_for_speed(speed).filter(|travel| *travel < run.travel);
        known.extend(travel.map(|travel| (travel, speed)));
    }
    known.extend(run.front().map(|front| (front.travel, front.speed)));
    known.push((last.travel, last.speed));
    known.sort_by(|one, other| one.0.total_cmp(&other.0));
    known
}

/// The travel in m at which a flight has a speed in m/s, on an endless guide; `None` where it never has.
pub fn travel_at(numbers: &FlightNumbers, speed: f64) -> Option<f64> {
    numbers.run.as_ref()?.inputs_on(numbers.curve.as_ref()?).travel_for_speed(speed)
}

/// The static margin in calibres by time in s from ignition, from the pad to burnout, at `steps` even times and at
/// every point of the thrust curve; empty where it isn't known.
pub fn margins(airframe: &Airframe, numbers: &FlightNumbers, steps: u32) -> Vec<(f64, f64)> {
    let known = || {
        let (calibre, weighed, curve) = (airframe.calibre?, numbers.weighed?, numbers.curve.as_ref()?);
        let pressure = airframe.airflow.as_ref()?.total.x()?;
        let end = curve.burn().1;
        let mut times: Vec<f64> = (0..=steps).map(|step| end * f64::from(step) / f64::from(steps.max(1))).collect();
        times.extend(curve.points().iter().map(|point| point.0).filter(|time| (0.0..=end).contains(time)));
        times.sort_by(f64::total_cmp);
        times.dedup();
        let burning = weighed.burning();
        let margin = |time: f64| (pressure - burning.at(curve.burnt_share(time)).x) / calibre;
        Some(times.into_iter().map(|time| (time, margin(time))).collect())
    };
    known().unwrap_or_default()
}

/// A point in the plane across the rocket, seen from behind: m to the right of its axis, and m up.
pub type Point = (f64, f64);

/// Where rod or rail and a fin come closest, seen from behind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// The point of the rod or rail.
    pub of_guide: Point,
    /// The point of the fin.
    pub of_fin: Point,
    /// How far apart they are, m; 0 where they meet.
    pub apart: f64,
    /// The set of fins.
    pub fins: PartId,
}

/// A fin seen from behind: the four corners of its section, from the body outwards.
pub fn fin_from_behind(inner: f64, outer: f64, thickness: f64, clock: f64) -> [Point; 4] {
    let half = thickness / 2.0;
    [at(inner, clock, -half), at(outer, clock, -half), at(outer, clock, half), at(inner, clock, half)]
}

/// A point at a distance in m from the axis at an angle around the body in rad, clockwise from above, and m beside that
/// line.
pub fn at(distance: f64, clock: f64, beside: f64) -> Point {
    let (sin, cos) = clock.sin_cos();
    (distance * sin + beside * cos, distance * cos - beside * sin)
}

/// The closest two points of a flight's rod or rail and its fins; `None` where one of them, or its angle, isn't
/// known, or no fin stands beside it.
pub fn nearest(parts: Parts, pad: &Pad, numbers: &FlightNumbers) -> Option<Nearest> {
    let clearance = numbers.clearance.as_ref()?;
    let line = clearance.guides.iter().find(|line| line.clock.is_some())?;
    let distance = clearance.guides.iter().map(|line| line.distance).fold(f64::INFINITY, f64::min);
    let clock = line.clock?;
    let beside = |id: &PartId| clearance.fins.iter().any(|room| room.fins == *id);
    let sides: Vec<(PartId, [Point; 4])> =
        parts.all().filter(|(id, _)| beside(id)).flat_map(|(id, _)| fins(parts, id)).collect();
    let found = match pad.rail.as_ref()? {
        Rail::Rod { diameter, .. } => {
            let (middle, radius) = (at(distance, clock, 0.0), diameter.as_ref()?.si / 2.0);
            sides.iter().map(|(id, fin)| from_rod(middle, radius, *id, fin)).collect::<Vec<_>>()
        }
        Rail::Tower { .. } => return None,
        Rail::Slotted { slot, .. } => {
            let width = parts.design.sections.get(slot.as_ref()?.value)?.width.as_ref()?.si;
            let half = width / 2.0;
            let corner = |out: f64, beside: f64| at(distance + out, clock, beside);
            let rail = [corner(0.0, -half), corner(width, -half), corner(width, half), corner(0.0, half)];
            sides.iter().map(|(id, fin)| between(&rail, *id, fin)).collect()
        }
    };
    found.into_iter().min_by(|one, other| one.apart.total_cmp(&other.apart))
}

/// Every fin of a set, seen from behind.
pub fn fins(parts: Parts, id: PartId) -> Vec<(PartId, [Point; 4])> {
    let seen = || {
        let part = parts.part(id)?;
        let PartKind::Fins(fins) = &part.kind else { return None };
        let inner = parts.radius_under(part, parts.extent(id)?.middle())?;
        let (count, thickness) = (fins.count.as_ref()?.si as u32, fins.thickness.as_ref()?.si);
        let outer = inner + parts.fin(id)?.geometry.span;
        let first = part.clock.as_ref().map_or(0.0, |clock| clock.si);
        let one = |n: u32| first + 2.0 * PI * f64::from(n) / f64::from(count.max(1));
        Some((0..count).map(|n| (id, fin_from_behind(inner, outer, thickness, one(n)))).collect())
    };
    seen().unwrap_or_default()
}

fn from_rod(middle: Point, radius: f64, fins: PartId, fin: &[Point; 4]) -> Nearest {
    let sides = edges(fin).map(|(a, b)| on_edge(middle, a, b));
    let of_fin = sides.into_iter().min_by(|a, b| far(middle, *a).total_cmp(&far(middle, *b))).unwrap_or(middle);
    let away = far(middle, of_fin);
    let share = if away > 0.0 { (radius / away).min(1.0) } else { 0.0 };
    let of_guide = (middle.0 + share * (of_fin.0 - middle.0), middle.1 + share * (of_fin.1 - middle.1));
    Nearest { of_guide, of_fin, apart: (away - radius).max(0.0), fins }
}

fn between(rail: &[Point; 4], fins: PartId, fin: &[Point; 4]) -> Nearest {
    let corners_of_rail = rail.iter().flat_map(|p| edges(fin).map(|(a, b)| (*p, on_edge(*p, a, b))));
    let corners_of_fin = fin.iter().flat_map(|p| edges(rail).map(|(a, b)| (on_edge(*p, a, b), *p)));
    let pairs = corners_of_rail.chain(corners_of_fin);
    let closest = pairs.min_by(|one, other| far(one.0, one.1).total_cmp(&far(other.0, other.1)));
    let (of_guide, of_fin) = closest.unwrap_or((rail[0], fin[0]));
    Nearest { of_guide, of_fin, apart: far(of_guide, of_fin), fins }
}

fn edges(corners: &[Point; 4]) -> [(Point, Point); 4] {
    let [a, b, c, d] = *corners;
    [(a, b), (b, c), (c, d), (d, a)]
}

fn on_edge(p: Point, a: Point, b: Point) -> Point {
    let along = (b.0 - a.0, b.1 - a.1);
    let length = along.0 * along.0 + along.1 * along.1;
    let share = if length > 0.0 { ((p.0 - a.0) * along.0 + (p.1 - a.1) * along.1) / length } else { 0.0 };
    let share = share.clamp(0.0, 1.0);
    (a.0 + share * along.0, a.1 + share * along.1)
}

fn far(a: Point, b: Point) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rod_beside_a_fin_is_nearest_to_its_side() {
        // A fin straight up, 2 mm thick; a rod of 4 mm 20 mm to the right of the axis, 30 mm up.
        let fin = fin_from_behind(0.02, 0.07, 0.002, 0.0);
        let found = from_rod((0.02, 0.03), 0.002, 0, &fin);
        assert!((found.apart - 0.017).abs() < 1e-12 && (found.of_fin.0 - 0.001).abs() < 1e-12, "{found:?}");
    }

    #[test]
    fn a_rail_comes_closest_with_a_corner() {
        let rail = [(0.03, 0.0), (0.05, 0.0), (0.05, 0.02), (0.03, 0.02)];
        let fin = fin_from_behind(0.0, 0.01, 0.0, PI / 2.0);
        let found = between(&rail, 0, &fin);
        assert!((found.apart - 0.02).abs() < 1e-12, "{found:?}");
    }
}
