//! Trimmed flight: the path of a rocket whose swing has died away, and how far that may be trusted.
//!
//! A stable rocket swings about the stream, and the swing dies away as e^(−δt). An explicit method has to follow every
//! swing to the end, because a longer step is unstable. What remains when it's gone is slow: the axis turns as the path
//! turns, held by the angle of attack whose moment balances damping and inertia. Then the velocity alone is integrated
//! and the angle worked out from it. Derived here from the equations of [`super::Rocket::pitching`]; no published
//! source.

use super::turn::quick_sin_cos;
use super::{Falling, Pitching, Rocket, Stretch};
use crate::air::G0;
use std::cell::Cell;

/// Trimmed flight over a stretch. A step ends at the state that it last worked out, and what is asked there is asked
/// several times.
pub(crate) struct Trimmed<'r> {
    rocket: &'r Rocket<'r>,
    stretch: Stretch,
    last: Cell<Option<(Falling, Trim)>>,
}

impl<'r> Trimmed<'r> {
    pub fn over(rocket: &'r Rocket<'r>, stretch: Stretch) -> Self {
        Self { rocket, stretch, last: Cell::new(None) }
    }

    /// Motion without a swing.
    #[inline]
    pub fn motion(&self, t: f64, y: &Falling) -> Falling {
        let trim = self.rocket.trim(&self.stretch, t, y);
        self.last.set(Some((*y, trim)));
        [y[2], y[3], trim.across, trim.climb]
    }

    /// The state on the way of a rocket that flies trimmed.
    pub fn upright(&self, t: f64, y: &Falling) -> Pitching {
        let trim = self.at(t, y);
        let [drift, height, across, climb] = *y;
        [drift, height, across, climb, trim.sin.atan2(trim.cos) + trim.sine.asin(), trim.turn]
    }

    /// Whether trimmed flight may go on from here: how much too coarse it is, 0 where it's just fine enough.
    pub fn too_coarse(&self, t: f64, y: &Falling, ahead: Ahead) -> f64 {
        self.at(t, y).lag(y, ahead).map_or(f64::INFINITY, |lag| lag - ahead.limits().stay)
    }

    fn at(&self, t: f64, y: &Falling) -> Trim {
        match self.last.get() {
            Some((known, trim)) if known == *y => trim,
            _ => self.rocket.trim(&self.stretch, t, y),
        }
    }
}

/// The balance of moments on a rocket that doesn't swing, and the swing it could have about it.
#[derive(Clone, Copy)]
struct Trim {
    /// The sine of the angle of attack.
    sine: f64,
    /// The rate at which axis and path turn, rad/s.
    turn: f64,
    /// The same, were the angle of attack nothing.
    bare_turn: f64,
    /// The path's direction.
    sin: f64,
    cos: f64,
    speed: f64,
    /// How fast the path turns for a unit of `sine`, 1/s.
    gain: f64,
    /// Twice the swing's decay, 1/s, and the square of its frequency, 1/s².
    decay2: f64,
    square: f64,
    /// Acceleration in m/s², as right-hand side.
    across: f64,
    climb: f64,
}

/// What comes of an angle that is a little off.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Ahead {
    /// Something opens on the way up or about the highest point, or it's followed no further: only the way up counts.
    Climb,
    /// It goes over the top as it flies, where the least swing grows into the fall's drift.
    Fall,
}

/// What the angle's following late may cost, as a share of the height to which the rocket rises, to begin and to go on,
/// and what dropping the rest of the swing may. The tests' tables against the full equations are what they were chosen
/// by.
struct Limits {
    enter: f64,
    stay: f64,
    calm: f64,
}

impl Ahead {
    fn limits(self) -> Limits {
        match self {
            Self::Climb => Limits { enter: 2e-6, stay: 2e-6, calm: 1e-5 },
            Self::Fall => Limits { enter: 1.5e-5, stay: 2e-5, calm: 3e-5 },
        }
    }
}

/// The angle has to follow so many times faster than speed and direction change.
const FASTER: f64 = 4.0;
/// The swing may die away faster than now, where the air's load grows.
const WAIT: f64 = 0.7;
/// s.
const MOST_WAIT: f64 = 0.5;
/// A rocket that turns faster than this, in rad/s, swings yet.
const FAST_TURN: f64 = 1.0;
/// Angles of attack up to this are small, rad.
const SMALL: f64 = 0.05;

impl Rocket<'_> {
    /// The state without its swing, if that has all but died away: what it still gives to the path is counted. Else how
    /// long it may still take, s.
    pub fn settle(&self, stretch: &Stretch, t: f64, y: &Pitching, ahead: Ahead) -> Result<Falling, f64> {
        let [drift, height, across, climb, tilt, rate] = *y;
        if rate.abs() > FAST_TURN {
            return Err(0.0);
        }
        let path = [drift, height, across, climb];
        let trim = self.trim(stretch, t, &path);
        let slow = trim.slow();
        let limits = ahead.limits();
        if trim.lag(&path, ahead).is_none_or(|lag| lag > limits.enter) {
            return Err(0.0);
        }
        let (sin, cos) = quick_sin_cos(tilt);
        let alpha = sin * trim.cos - cos * trim.sin;
        let nose_on = cos * trim.cos + sin * trim.sin > 0.0;
        let (off, off_rate) = (alpha - trim.sine, rate - trim.bare_turn - trim.gain * alpha);
        let decay = trim.decay().ok_or(0.0)?;
        let amplitude2 = off * off + off_rate * off_rate / trim.square;
        // The swing turns the path by the integral of its angle, known but for the change of its frequency meanwhile,
        // and slows it down by that of its square.
        let kick = trim.gain * (off_rate + trim.decay2 * off) / trim.square;
        let unsure = trim.gain * (amplitude2 / trim.square).sqrt() * slow / decay + trim.gain * amplitude2 / decay;
        let unsure = trim.matters(unsure * trim.speed, &path) / limits.calm;
        let swings = amplitude2 / (SMALL * SMALL);
        let is_small = nose_on && swings < 1.0 && unsure < 1.0;
        if !is_small {
            // What is left dies away no faster than the square of the swing.
            return Err((unsure.max(swings).ln() / (2.0 * decay) * WAIT).min(MOST_WAIT));
        }
        let (sin, cos) = quick_sin_cos(kick);
        let wind = self.sky.wind(height);
        let (ux, uz) = (across - wind, climb);
        Ok([drift, height, wind + ux * cos + uz * sin, uz * cos - ux * sin])
    }

    /// Path and angle of attack are sought together. With b for the bare turn, g for the gain, d for the damping and c
    /// for the corrective moment, both over the inertia, the angle obeys α″ + (d + g) α′ + (c + d g + g′) α = −(d b + b′).
    /// Its slow solution is worked out with α′ from the balance without it, and without α″.
    #[inline]
    fn trim(&self, stretch: &Stretch, t: f64, y: &Falling) -> Trim {
        let [_, height, vx, vz] = *y;
        let (wind, shear, shear_slope, _) = self.sky.sheared(height);
        let stream = self.stream(height, vx - wind, vz);
        let lever = self.lever(stream.mach2);
        let now = self.loaded(stretch, t);
        let per_speed = 1.0 / stream.speed;
        let (sin, cos) = (stream.ux * per_speed, stream.uz * per_speed);
        let drag = stream.load * self.cd(stretch, &stream);
        let damping = (stream.per_speed * lever.about(now.balance) + now.jet_damping) * now.per_inertia;
        let corrective = stream.load * (lever.moment - lever.force * now.balance) * now.per_inertia;
        let (pushed, lifted) = (now.thrust, stream.load * lever.force - drag);
        let gain = (pushed + lifted) * now.per_mass * per_speed;
        let square = corrective + damping * gain;
        let per_square = 1.0 / square;

        // Gravity and the wind's growth with height turn the path against the stream.
        let sheared = shear * vz;
        let bare_turn = (G0 * sin - sheared * cos) * per_speed;
        let steady = bare_turn * corrective * per_square;
        let speeding = (now.thrust - drag) * now.per_mass - G0 * cos - sheared * sin;
        let climbing = (now.thrust - drag) * now.per_mass * cos - G0;
        let turning = (G0 * cos * steady + sheared * sin * steady
            - (shear_slope * vz * vz + shear * climbing) * cos
            - bare_turn * speeding)
            * per_speed;
        // The rates of all this: thrust over the speed falls as the speed grows, and lift and drag over it grow with it.
        let growth = speeding * per_speed;
        let gain_rate = ((lifted - pushed) * growth + stretch.rise) * now.per_mass * per_speed;
        let speeding_rate = (stretch.rise - 2.0 * drag * growth) * now.per_mass + G0 * sin * steady;
        let turning_rate =
            (G0 * (cos * turning - sin * steady * steady) - 2.0 * turning * speeding - bare_turn * speeding_rate)
                * per_speed;
        let sine_rate =
            -(damping * (turning - bare_turn * growth) + turning_rate - 2.0 * growth * turning) * per_square;
        let moment = damping * bare_turn + turning + (damping + gain) * sine_rate;
        let per_stiffness = 1.0 / (square + gain_rate);
        let body_lift = stream.load * self.planform * (self.planform_x - now.balance) * now.per_inertia * per_stiffness;
        let first = -moment * per_stiffness;
        let sine = (first / (1.0 + body_lift * first.abs())).clamp(-MOST_SINE, MOST_SINE);

        let along = 1.0 - 0.5 * sine * sine;
        let normal = stream.load * sine * (lever.force + self.planform * sine.abs());
        let forward = (now.thrust * along - drag * along * along - normal * sine) * now.per_mass;
        let side = ((now.thrust - drag * along) * sine + normal * along) * now.per_mass;
        Trim {
            sine,
            turn: bare_turn + gain * sine,
            bare_turn,
            sin,
            cos,
            speed: stream.speed,
            gain,
            decay2: damping + gain,
            square,
            across: forward * sin + side * cos,
            climb: forward * cos - side * sin - G0,
        }
    }
}

/// A step that looks further ahead than trimmed flight goes finds no greater one.
const MOST_SINE: f64 = 0.3;

impl Trim {
    /// How fast speed and direction change, 1/s.
    fn slow(&self) -> f64 {
        (self.across * self.across + self.climb * self.climb).sqrt() / self.speed
    }

    /// How fast the swing dies away, 1/s; `None` where it doesn't.
    fn decay(&self) -> Option<f64> {
        let half = 0.5 * self.decay2;
        // Written so that numbers that aren't sound never pass.
        let is_stable = half > 0.0 && self.square > 0.0;
        is_stable.then(|| half - (half * half - self.square).max(0.0).sqrt())
    }

    /// What the path loses by the angle's following late, as a share of the height; `None` where it can't be told.
    fn lag(&self, path: &Falling, ahead: Ahead) -> Option<f64> {
        let (slow, decay) = (self.slow(), self.decay()?);
        let follows = match ahead {
            // It swings that fast about an angle that changes, and a swing that isn't there needn't die away.
            Ahead::Climb => decay.max(self.square.sqrt()),
            Ahead::Fall => decay,
        };
        // The wind's growth is steepest at the ground.
        let near = path[3].abs() * FASTER / decay > path[1];
        let is_fast = follows > FASTER * slow && self.sine.abs() < SMALL && !near;
        let share = slow / follows;
        is_fast.then(|| self.matters(self.gain * self.speed * self.sine.abs() * share * share / slow, path))
    }

    /// What a speed that is wrong from now on comes to until the top, as a share of the height there.
    fn matters(&self, wrong: f64, path: &Falling) -> f64 {
        let time = self.speed / G0;
        wrong.abs() * time / (path[1].max(0.0) + 0.5 * self.speed * time)
    }
}
