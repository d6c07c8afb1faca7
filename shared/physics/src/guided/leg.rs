//! One stretch of the guided run, between two points of the thrust curve, and a step within it.

use super::Passage;
use crate::ode::Step;
use crate::roots::bracketed;

/// Components of the state.
pub(crate) const TRAVEL: usize = 0;
pub(crate) const SPEED: usize = 1;

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

    pub fn slope(&self, t: f64, y: &[f64; 2]) -> [f64; 2] {
        [y[SPEED], self.acceleration(t, y[SPEED])]
    }

    pub fn acceleration(&self, t: f64, v: f64) -> f64 {
        (self.thrust(t) - (self.drag * v.abs() + self.linear) * v - self.fixed) / self.mass(t) - self.along
    }
}

/// A step along the guide, and the forces in it.
pub(crate) struct Taken {
    pub step: Step<2>,
    pub leg: Leg,
}

impl Taken {
    pub fn reaches_travel(&self, travel: f64) -> bool {
        self.step.y1[0] >= travel
    }

    pub fn passage_at_travel(&self, travel: f64) -> Option<Passage> {
        self.passage(TRAVEL, travel)
    }

    /// The state where a component passes `value`.
    pub fn passage(&self, component: usize, value: f64) -> Option<Passage> {
        let (time, [travel, speed]) = self.step.crossing(|t, y| self.leg.slope(t, y), component, value)?;
        Some(Passage {
            time,
            travel,
            speed,
            acceleration: self.leg.acceleration(time, speed),
            mass: self.leg.mass(time),
            thrust: self.leg.thrust(time),
        })
    }

    /// When the rocket stops within the step: at its end, or in a dip of the speed inside it.
    pub fn stop(&self) -> Option<f64> {
        let step = &self.step;
        let slows = |t: f64, v: f64| self.leg.acceleration(t, v) < 0.0;
        let moving = step.y0[1] > 0.0;
        if step.y1[1] < 0.0 {
            return if moving { step.root(|_, y| y[1]) } else { Some(step.t0) };
        }
        if !(moving && slows(step.t0, step.y0[1]) && !slows(step.t1, step.y1[1])) {
            return None;
        }
        let lowest = step.root(|t, y| self.leg.acceleration(t, y[1]))?;
        (step.at(lowest)[1] < 0.0).then(|| bracketed(step.t0, lowest, |t| step.at(t)[1])).flatten()
    }

    /// The step up to its greatest speed: the whole of it, unless the speed peaks inside.
    pub fn rise(&self) -> Self {
        let gain = |t: f64, y: &[f64; 2]| self.leg.acceleration(t, y[SPEED]);
        let step = &self.step;
        let peaks = gain(step.t0, &step.y0) > 0.0 && gain(step.t1, &step.y1) < 0.0;
        let end = if peaks { step.root(gain) } else { None };
        self.cut_at(end.unwrap_or(step.t1))
    }

    /// The same step ended at `time`.
    pub fn cut_at(&self, time: f64) -> Self {
        let mut cut = Self { step: self.step, leg: self.leg };
        cut.step = cut.step.until(time);
        cut
    }
}
