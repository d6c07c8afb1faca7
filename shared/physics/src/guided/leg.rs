//! One stretch of the guided run, between two points of the thrust curve, and a step within it.

use super::Passage;
use crate::roots::bracketed;

/// The forces between two points of the thrust curve.
#[derive(Clone, Copy)]
pub(crate) struct Leg {
    pub start: f64,
    pub thrust: f64,
    pub rise: f64,
    pub mass: f64,
    pub per_impulse: f64,
    pub along: f64,
    pub fixed: f64,
    pub linear: f64,
    pub drag: f64,
}

impl Leg {
    pub fn thrust(&self, t: f64) -> f64 {
        self.thrust + self.rise * (t - self.start)
    }

    pub fn mass(&self, t: f64) -> f64 {
        let tau = t - self.start;
        self.mass - self.per_impulse * tau * (self.thrust + 0.5 * self.rise * tau)
    }

    fn acceleration(&self, t: f64, v: f64) -> f64 {
        (self.thrust(t) - (self.drag * v + self.linear) * v - self.fixed) / self.mass(t) - self.along
    }
}

/// Where the rocket is on its guide.
#[derive(Clone, Copy)]
pub(crate) struct Along {
    /// Time in s from ignition.
    pub time: f64,
    /// Travel in m.
    pub travel: f64,
    /// Speed in m/s.
    pub speed: f64,
}

/// A step along the guide: its speed as a power series of the share u of its time that has gone by, 0 to 1.
///
/// Thrust is straight and mass a parabola between two points of the curve, and drag goes with the square of the speed, so
/// that each term of the series follows from those before it. Source: the Taylor method, Hairer, Nørsett & Wanner,
/// Solving Ordinary Differential Equations I, I.8 (from memory).
pub(crate) struct Taken {
    pub leg: Leg,
    pub start: Along,
    pub end: Along,
    /// How long the series is good for, s; [`Taken::cut`] leaves it as it was.
    h: f64,
    speed: [f64; TERMS],
    terms: usize,
}

impl Taken {
    /// As far as the series goes, and no further than `end` s; `None` where that is nowhere.
    pub fn from(leg: &Leg, start: Along, end: f64) -> Option<Self> {
        let mut taken = Self { leg: *leg, start, end: start, h: end - start.time, speed: [0.0; TERMS], terms: TERMS };
        let mut whole = true;
        for _ in 0..MOST_CUTS {
            // Two points of the curve may be closer than that; a step that had to be cut may not.
            let moves = whole || taken.h > 4.0 * f64::EPSILON * start.time;
            if !moves {
                return None;
            }
            if taken.expand() {
                taken.end = taken.at(if whole { end } else { start.time + taken.h });
                return Some(taken);
            }
            whole = false;
        }
        None
    }

    /// Works out terms until they count no more. `false` where they don't fall off fast enough for that: the step is
    /// shorter then, to be tried again.
    fn expand(&mut self) -> bool {
        let (h, leg) = (self.h, &self.leg);
        let thrust = [leg.thrust(self.start.time) - leg.fixed, h * leg.rise];
        let burns = h * leg.per_impulse;
        let mass = [leg.mass(self.start.time), -burns * leg.thrust(self.start.time), -0.5 * burns * h * leg.rise];
        let per_mass = 1.0 / mass[0];
        let speed = &mut self.speed;
        speed[0] = self.start.speed;
        let mut size = speed[0].abs();
        // What pushes over the mass, term by term, the last two of them.
        let mut pushes = [0.0; 2];
        for n in 0..TERMS - 1 {
            // Each product comes twice but the one in the middle.
            let known = &speed[..=n];
            let pairs = known.iter().zip(known.iter().rev()).take(n.div_ceil(2));
            let middle = if n % 2 == 0 { known[n / 2] } else { 0.0 };
            let square = 2.0 * pairs.map(|(a, b)| a * b).sum::<f64>() + middle * middle;
            let pushed = if n < thrust.len() { thrust[n] } else { 0.0 };
            let force = pushed - leg.linear * speed[n] - leg.drag * square;
            let push = (force - mass[1] * pushes[0] - mass[2] * pushes[1]) * per_mass;
            pushes = [push, pushes[0]];
            let weight = if n == 0 { leg.along } else { 0.0 };
            speed[n + 1] = h * (push - weight) * PER[n];
            size += speed[n + 1].abs();
            if n >= LEAST_TERMS && greatest(&speed[n - 1..=n + 1]) <= LEFT_OUT * size {
                self.terms = n + 2;
                return true;
            }
        }
        // Written so that numbers that have left their range are cut most.
        let shorter = (LEFT_OUT * size / greatest(&speed[TERMS - 3..])).powf(1.0 / TERMS as f64);
        self.h *= if shorter >= MOST_CUT { 0.9 * shorter } else { MOST_CUT };
        false
    }

    /// Time, travel and speed at a time within the step.
    pub fn at(&self, time: f64) -> Along {
        let u = self.share(time);
        let (mut speed, mut way) = (0.0, 0.0);
        for n in (0..self.terms.min(TERMS)).rev() {
            speed = speed * u + self.speed[n];
            way = way * u + self.speed[n] * PER[n];
        }
        Along { time, travel: self.start.travel + self.h * u * way, speed }
    }

    fn share(&self, time: f64) -> f64 {
        (time - self.start.time) / self.h
    }

    fn acceleration(&self, at: &Along) -> f64 {
        self.leg.acceleration(at.time, at.speed)
    }

    /// Acceleration's rate of change at a time, in m/s² over the length of the step.
    fn jerk(&self, time: f64) -> f64 {
        let u = self.share(time);
        let terms = self.speed[..self.terms].iter().enumerate().skip(2).rev();
        terms.fold(0.0, |sum, (n, term)| sum * u + (n * (n - 1)) as f64 * term) / self.h
    }

    /// The greatest acceleration of the step in m/s².
    pub fn greatest_acceleration(&self) -> f64 {
        let (start, end) = (self.start.time, self.end.time);
        let peaks = self.speed[2] > 0.0 && self.jerk(end) < 0.0;
        let peak = peaks.then(|| bracketed(start, end, |t| self.jerk(t))).flatten();
        let within = peak.map_or(f64::NEG_INFINITY, |t| self.acceleration(&self.at(t)));
        self.acceleration(&self.start).max(self.acceleration(&self.end)).max(within)
    }

    /// The moment at which the travel comes to so many m, if it does in the step.
    pub fn passes_travel(&self, travel: f64) -> Option<Passage> {
        (self.end.travel >= travel).then(|| self.passage(|at| at.travel - travel)).flatten()
    }

    /// The moment at which the speed comes to so many m/s; for a step in which it rises.
    pub fn passes_speed(&self, speed: f64) -> Option<Passage> {
        (self.end.speed >= speed).then(|| self.passage(|at| at.speed - speed)).flatten()
    }

    fn passage(&self, off: impl Fn(&Along) -> f64) -> Option<Passage> {
        let time = self.root(self.end.time, off)?;
        let Along { travel, speed, .. } = self.at(time);
        Some(Passage {
            time,
            travel,
            speed,
            acceleration: self.leg.acceleration(time, speed),
            mass: self.leg.mass(time),
            thrust: self.leg.thrust(time),
        })
    }

    /// The time up to `until` at which `of` changes its sign.
    fn root(&self, until: f64, of: impl Fn(&Along) -> f64) -> Option<f64> {
        bracketed(self.start.time, until, |time| of(&self.at(time)))
    }

    /// When the rocket stops within the step: at its end, or in a dip of the speed inside it.
    pub fn stop(&self) -> Option<f64> {
        let gains = |at: &Along| self.acceleration(at);
        let quickens = self.speed[1] > 0.0;
        if self.end.speed < 0.0 {
            // From rest it rises first, if it moves at all.
            let top = match (self.start.speed > 0.0, quickens) {
                (true, _) => self.start.time,
                (false, true) => self.root(self.end.time, gains)?,
                (false, false) => return Some(self.start.time),
            };
            return bracketed(top, self.end.time, |time| self.at(time).speed);
        }
        if quickens || self.start.speed <= 0.0 || gains(&self.end) <= 0.0 {
            return None;
        }
        let lowest = self.root(self.end.time, gains)?;
        (self.at(lowest).speed < 0.0).then(|| self.root(lowest, |at| at.speed)).flatten()
    }

    /// Ends the step at its greatest speed, where that is inside of it.
    pub fn rise(&mut self) {
        let peaks = self.speed[1] > 0.0 && self.acceleration(&self.end) < 0.0;
        if let Some(peak) = peaks.then(|| self.root(self.end.time, |at| self.acceleration(at))).flatten() {
            self.cut(peak);
        }
    }

    /// Ends the step at a time within it.
    pub fn cut(&mut self, time: f64) {
        self.end = self.at(time);
    }
}

fn greatest(terms: &[f64]) -> f64 {
    terms.iter().fold(0.0, |greatest, term| greatest.max(term.abs()))
}

/// What a series has at the most. Where those of a step don't suffice it's made shorter.
const TERMS: usize = 20;
/// Two of three terms in turn may be nothing: a thrust that grows from what holds the rocket, t, gives a speed of t², a
/// drag of t⁴, and the next term is that of t⁵. So three in turn have to be small, and those up to there looked at.
const LEAST_TERMS: usize = 4;
/// Terms from this share of the sum of all on aren't counted.
const LEFT_OUT: f64 = 1e-12;
/// A step is cut to no less than this share of it at once.
const MOST_CUT: f64 = 1e-3;
const MOST_CUTS: u32 = 100;

/// One over the number of each term, from 1 on.
const PER: [f64; TERMS] = {
    let mut per = [0.0; TERMS];
    let mut n = 0;
    while n < TERMS {
        per[n] = 1.0 / (n + 1) as f64;
        n += 1;
    }
    per
};
