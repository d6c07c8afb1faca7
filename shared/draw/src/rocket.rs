//! The rocket as one sees it from the side: outlines along it and off its axis, m.

use finwright_assess::hardware::{guide_offset, section_of_width};
use finwright_assess::shape::Parts;
use finwright_model::{Extent, Part, PartId, PartKind};
use finwright_physics::fins::FinShape;
use std::f64::consts::PI;

/// A point of the rocket: its station from the tip, and how far it is above the axis, m.
pub type Spot = (f64, f64);

/// The rocket from the side.
pub struct Rocket {
    /// Each stretch of the airframe with its outline.
    pub bodies: Vec<(PartId, Vec<Spot>)>,
    /// Stretches of it whose place is known, but not how wide they are.
    pub gaps: Vec<(PartId, Extent)>,
    /// What is seen of each fin.
    pub fins: Vec<Fin>,
    /// Where stretches meet, with the radius there.
    pub joints: Vec<(f64, f64)>,
    /// Tubes, shoulders and couplers inside, by their corners.
    pub inside: Vec<(PartId, Extent, f64)>,
    /// Each guide with its outline.
    pub guides: Vec<Guide>,
    /// The tip of the nose is at 0; where the airframe ends.
    pub tail: f64,
    /// The greatest radius of the body.
    pub radius: f64,
    /// How far fins or guides reach above the axis, and below it.
    pub reach: (f64, f64),
}

/// A fin, or what else steers, as it's seen.
pub struct Fin {
    /// Its part.
    pub part: PartId,
    /// Its outline.
    pub outline: Vec<Spot>,
    /// Whether it stands on the near side.
    pub near: bool,
}

/// A guide as it's seen.
pub struct Guide {
    /// Its part.
    pub part: PartId,
    /// Where it sits.
    pub extent: Extent,
    /// Its outline.
    pub outline: Vec<Spot>,
    /// Whether it stands on the far side.
    pub hidden: bool,
}

/// The rocket seen from the side, with the angle `up` rad around the body at the top, so that a quarter further on is
/// near. `None` where no stretch of the airframe has a shape and a place.
pub fn rocket(parts: Parts, up: f64) -> Option<Rocket> {
    let mut bodies = Vec::new();
    let (mut tail, mut radius) = (0.0_f64, 0.0_f64);
    let mut ends: Vec<(f64, f64)> = Vec::new();
    let mut gaps = Vec::new();
    for (id, part, extent) in parts.placed() {
        let Some(body) = parts.body(id) else {
            if part.is_body() {
                tail = tail.max(extent.back);
                gaps.push((id, extent));
            }
            continue;
        };
        let outline = outline_of(|x| body.section.radius(x), extent);
        radius = outline.iter().map(|spot| spot.1).fold(radius, f64::max);
        tail = tail.max(extent.back);
        ends.push((extent.front, body.section.fore_radius()));
        bodies.push((id, outline));
    }
    if bodies.is_empty() || radius <= 0.0 || !tail.is_finite() {
        return None;
    }
    let joints = ends.into_iter().filter(|(at, r)| *at > 1e-6 && *r > 0.0).collect();
    let fins: Vec<Fin> = parts.placed().flat_map(|(id, part, extent)| fins(parts, id, part, extent, up)).collect();
    let guides: Vec<Guide> = parts.placed().filter_map(|(id, part, e)| guide(parts, id, part, e, up)).collect();
    let all = || fins.iter().flat_map(|fin| &fin.outline).chain(guides.iter().flat_map(|guide| &guide.outline));
    let reach = (all().map(|spot| spot.1).fold(radius, f64::max), -all().map(|spot| spot.1).fold(-radius, f64::min));
    let inside = parts.placed().filter_map(|(id, part, extent)| Some((id, extent, inner(part)?))).collect();
    Some(Rocket { bodies, gaps, fins, joints, inside, guides, tail, radius, reach })
}

impl Rocket {
    /// How far it reaches ahead of its aft end, m: to its tip, unless a fin reaches further.
    pub fn ahead(&self) -> f64 {
        self.tail - self.stations().fold(0.0, f64::min)
    }

    /// The stations that its outlines, fins and guides reach.
    pub fn stations(&self) -> impl Iterator<Item = f64> + '_ {
        let fins = self.fins.iter().flat_map(|fin| &fin.outline);
        let guides = self.guides.iter().flat_map(|guide| &guide.outline);
        let bodies = self.bodies.iter().flat_map(|(_, spots)| spots);
        fins.chain(guides).chain(bodies).map(|spot| spot.0).chain(self.joints.iter().map(|joint| joint.0))
    }
}

/// How many stretches an outline is drawn with.
const STEPS: usize = 28;

fn outline_of(radius: impl Fn(f64) -> f64, extent: Extent) -> Vec<Spot> {
    let length = extent.length();
    // Closer together towards the tip, where a nose is blunt.
    let share = |i: usize| (i as f64 / STEPS as f64).powi(2);
    let even = (radius(0.0) - radius(length)).abs() < 1e-9 && (radius(length / 2.0) - radius(0.0)).abs() < 1e-9;
    let steps: Vec<f64> = if even { vec![0.0, 1.0] } else { (0..=STEPS).map(share).collect() };
    let top: Vec<Spot> = steps.iter().map(|s| (extent.front + s * length, radius(s * length))).collect();
    let bottom = top.iter().rev().map(|(x, r)| (*x, -r));
    top.iter().copied().chain(bottom).collect()
}

fn inner(part: &Part) -> Option<f64> {
    match &part.kind {
        PartKind::Mount { outer, .. } | PartKind::Shoulder { outer, .. } | PartKind::Coupler { outer, .. } => {
            Some(outer.as_ref()?.si / 2.0)
        }
        _ => None,
    }
}

fn fins(parts: Parts, id: PartId, part: &Part, extent: Extent, up: f64) -> Vec<Fin> {
    let found = || {
        let clock = part.clock.as_ref().map_or(0.0, |clock| clock.si);
        let around = |count: f64| (0..count as u32).map(move |n| clock - up + 2.0 * PI * f64::from(n) / count);
        match &part.kind {
            PartKind::Fins(fins) => {
                let (fin, inner) = (parts.fin(id)?, parts.radius_under(part, extent.middle())?);
                let half = fins.thickness.as_ref().map_or(0.0, |t| t.si / 2.0);
                let plan = plan(&fin.plan);
                let one = |angle: f64| {
                    let (sin, cos) = angle.sin_cos();
                    // Seen along its plane, its thickness is what is left of it.
                    let seen = |(x, y): &Spot| (extent.front + x, (inner + y) * cos);
                    let outline = match cos.abs() < 0.08 {
                        true => edge_on(&plan, extent.front, half),
                        false => plan.iter().map(seen).collect(),
                    };
                    Fin { part: id, outline, near: sin > 1e-6 }
                };
                Some(around(fins.count.as_ref()?.si).map(one).collect::<Vec<_>>())
            }
            PartKind::TubeFins { count, outer, .. } => {
                let (inner, tube) = (parts.radius_under(part, extent.middle())?, outer.as_ref()?.si / 2.0);
                let one = |angle: f64| {
                    let middle = (inner + tube) * angle.cos();
                    Fin { part: id, outline: block(extent, middle - tube, middle + tube), near: angle.sin() > 1e-6 }
                };
                Some(around(count.as_ref()?.si).map(one).collect())
            }
            PartKind::RingFin { outer, .. } => {
                let ring = outer.as_ref()?.si / 2.0;
                Some(vec![Fin { part: id, outline: block(extent, -ring, ring), near: false }])
            }
            _ => None,
        }
    };
    found().unwrap_or_default()
}

fn edge_on(plan: &[Spot], front: f64, half: f64) -> Vec<Spot> {
    let along = || plan.iter().map(|spot| spot.0);
    let (from, to) = (along().fold(f64::INFINITY, f64::min), along().fold(f64::NEG_INFINITY, f64::max));
    block(Extent { front: front + from, back: front + to }, -half, half)
}

fn block(extent: Extent, low: f64, high: f64) -> Vec<Spot> {
    vec![(extent.front, low), (extent.back, low), (extent.back, high), (extent.front, high)]
}

/// A fin's outline from its root's front, outwards.
pub fn plan(shape: &FinShape) -> Vec<Spot> {
    match shape {
        FinShape::Trapezoid { root, tip, span, sweep } => {
            vec![(0.0, 0.0), (*sweep, *span), (sweep + tip, *span), (*root, 0.0)]
        }
        FinShape::Ellipse { root, span } => (0..=24)
            .map(|i| {
                let (sin, cos) = (PI * f64::from(i) / 24.0).sin_cos();
                (root / 2.0 * (1.0 - cos), span * sin)
            })
            .collect(),
        FinShape::Outline(points) => points.clone(),
    }
}

/// How deep a button's head or a rail guide's shoe reaches into its rail, as a share of the mouth (common practice, no
/// source): the picture shows that it's held, not a size.
const HEAD: f64 = 0.9;

fn guide(parts: Parts, id: PartId, part: &Part, extent: Extent, up: f64) -> Option<Guide> {
    let surface = parts.radius_under(part, extent.middle())?;
    let standoff = part.standoff().map_or(0.0, |standoff| standoff.si);
    let angle = part.clock.as_ref().map_or(0.0, |clock| clock.si) - up;
    let (sin, cos) = (angle.sin(), angle.cos());
    let seen = |spots: Vec<Spot>| spots.into_iter().map(|(x, r)| (x, r * cos)).collect();
    let outline = match &part.kind {
        PartKind::Lug { bore, wall, .. } => {
            let half = bore.as_ref()?.si / 2.0 + wall.as_ref().map_or(0.0, |wall| wall.si);
            // A tube is as wide from every side.
            let middle = (surface + guide_offset(parts.design, part)) * cos;
            block(extent, middle - half, middle + half)
        }
        PartKind::Button { profile, .. } => {
            let mouth =
                section_of_width(parts.design, profile).and_then(|(_, s)| s.mouth.as_ref()).map_or(5e-3, |m| m.si);
            let (neck, head, at) = (0.42 * mouth, 0.85 * mouth, extent.middle());
            let (face, end) = (surface + standoff.max(0.2e-3), surface + standoff + HEAD * mouth);
            let (face, middle) = (face, (face + end) / 2.0);
            seen(vec![
                (at - neck, surface),
                (at - neck, middle.max(face)),
                (at - head, middle.max(face)),
                (at - head, end),
                (at + head, end),
                (at + head, middle.max(face)),
                (at + neck, middle.max(face)),
                (at + neck, surface),
            ])
        }
        PartKind::RailGuide { profile, .. } => {
            let mouth =
                section_of_width(parts.design, profile).and_then(|(_, s)| s.mouth.as_ref()).map_or(5e-3, |m| m.si);
            seen(block(extent, surface, surface + standoff + HEAD * mouth))
        }
        _ => return None,
    };
    Some(Guide { part: id, extent, outline, hidden: sin < -0.3 })
}
