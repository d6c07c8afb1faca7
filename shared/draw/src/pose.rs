//! The rocket as it waits on its pad, to scale: where things of it are on the paper.

use crate::rocket::{rocket, Rocket, Spot};
use crate::scene::Point;
use crate::subject::{guide_width, Subject};
use std::f64::consts::PI;

/// The rocket on its pad. Lengths along the rod or rail from its foot and off its middle, m; positive is downwind, to
/// the right.
pub struct Pose {
    /// The rocket, with its guides towards the rod or rail.
    pub rocket: Rocket,
    /// Its axis, off the middle of the rod or rail.
    pub axis: f64,
    /// Its lowest point, from the tip.
    pub lowest: f64,
    /// How high that rests.
    pub stop: f64,
    /// Length of the rod or rail.
    pub length: f64,
    /// Its width.
    pub width: f64,
    /// Whether it is a rod.
    pub is_rod: bool,
    /// How far it leans to the left, into the wind, rad.
    pub tilt: f64,
}

impl Pose {
    /// The rocket of a flight on its pad; `None` where one of them has no shape.
    pub fn of(subject: Subject) -> Option<Pose> {
        let pad = subject.pad()?;
        let numbers = subject.numbers?;
        let clearance = numbers.clearance.as_ref();
        let known = clearance.and_then(|c| c.guides.iter().find_map(|line| line.clock));
        let clock = known.or(clearance.and_then(|c| c.gap).map(|gap| gap.clock)).unwrap_or(PI);
        let rocket = rocket(subject.parts(), clock + PI)?;
        let width = guide_width(subject.design(), pad).unwrap_or(4e-3);
        let nearest = clearance.and_then(|c| c.guides.iter().map(|line| line.distance).reduce(f64::min));
        let is_rod = pad.has_rod();
        let side = if is_rod { 0.0 } else { width / 2.0 };
        let axis = nearest.unwrap_or(rocket.radius + width) + side;
        let lean = numbers.on_pad.as_ref().map_or(0.0, |on_pad| on_pad.lean.into_wind);
        Some(Pose {
            axis,
            lowest: numbers.lowest().unwrap_or(rocket.tail),
            stop: pad.stop_or_foot().si,
            length: pad.rail_length()?.si,
            width,
            is_rod,
            tilt: lean.clamp(-0.9, 0.9),
            rocket,
        })
    }

    /// How far the rocket reaches up along the rod or rail.
    pub fn tip(&self) -> f64 {
        self.stop + self.lowest
    }

    /// How far the rocket reaches to the right, and fins and guides to the left.
    pub fn sides(&self) -> (f64, f64) {
        (self.axis + self.rocket.reach.0, (self.rocket.reach.1 - self.axis).max(self.width / 2.0))
    }

    /// Where a spot of the rocket is: along the rod or rail, and off it.
    pub fn spot(&self, (station, above): Spot) -> (f64, f64) {
        (self.stop + self.lowest - station, self.axis + above)
    }
}

/// The paper on which a pose stands.
#[derive(Clone, Copy)]
pub struct Paper {
    /// The foot of the rod or rail.
    pub foot: Point,
    /// Paper over nature, mm a metre.
    pub scale: f64,
    /// How far it leans to the left, rad.
    pub tilt: f64,
}

impl Paper {
    /// A point along the rod or rail and off it, m.
    pub fn at(&self, (along, off): (f64, f64)) -> Point {
        let (sin, cos) = self.tilt.sin_cos();
        let (along, off) = (along * self.scale, off * self.scale);
        (self.foot.0 - sin * along + cos * off, self.foot.1 - cos * along - sin * off)
    }

    /// The same, off it by millimetres of paper.
    pub fn beside(&self, along: f64, mm: f64) -> Point {
        self.at((along, mm / self.scale))
    }
}

/// Scales that a drawing office uses: one to this many.
const SCALES: [f64; 24] = [
    1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 150.0,
    200.0, 300.0, 500.0, 1000.0,
];

/// The largest scale at which something fits, and how it's written: mm a metre, "1 : 6".
pub fn scale(fits: impl Fn(f64) -> bool) -> (f64, String) {
    let one_to = SCALES.into_iter().find(|one_to| fits(1000.0 / one_to)).unwrap_or(2000.0);
    (1000.0 / one_to, format!("1 : {one_to}"))
}
