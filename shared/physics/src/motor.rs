//! Thrust against time, the impulse in it, and the mass that burns away.

use crate::mass::{combine, MassProps};

/// A thrust curve: straight lines between points of (time in s, thrust in N).
///
/// Thrust is 0 before the first point and after the last one.
#[derive(Debug, Clone, PartialEq)]
pub struct ThrustCurve {
    points: Vec<(f64, f64)>,
    /// Impulse up to each point in N s.
    impulse: Vec<f64>,
}

/// A straight piece of a thrust curve from some moment on.
pub(crate) struct Piece {
    /// Thrust at that moment, N.
    pub thrust: f64,
    /// By how much it rises, N/s.
    pub rise: f64,
    /// The share of the propellant burnt by then.
    pub burnt: f64,
}

/// Why a list of points is no thrust curve. Indices count from 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CurveError {
    /// At least two points are needed; the number given.
    TooFewPoints(usize),
    /// A time or thrust isn't a finite number.
    NotFinite {
        /// The point's index.
        index: usize,
    },
    /// The first time lies before ignition; the time given, in s.
    BeforeIgnition(f64),
    /// A time doesn't come after the one before it.
    TimeNotRising {
        /// The later point's index.
        index: usize,
    },
    /// A thrust is negative.
    NegativeThrust {
        /// The point's index.
        index: usize,
    },
    /// There is no thrust at any time.
    NoImpulse,
}

impl ThrustCurve {
    /// A curve through `points` of (time in s, thrust in N), times rising from 0 or later.
    pub fn new(points: Vec<(f64, f64)>) -> Result<Self, CurveError> {
        check(&points)?;
        let mut impulse = Vec::with_capacity(points.len());
        let mut sum = 0.0;
        impulse.push(sum);
        for pair in points.windows(2) {
            sum += 0.5 * (pair[0].1 + pair[1].1) * (pair[1].0 - pair[0].0);
            impulse.push(sum);
        }
        if sum > 0.0 {
            Ok(Self { points, impulse })
        } else {
            Err(CurveError::NoImpulse)
        }
    }

    /// The points, (time in s, thrust in N).
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// The same curve with `factor` times the thrust at every moment; `None` unless the factor is positive and finite.
    pub fn scaled(&self, factor: f64) -> Option<Self> {
        (factor > 0.0 && factor.is_finite()).then(|| Self {
            points: self.points.iter().map(|(t, f)| (*t, factor * f)).collect(),
            impulse: self.impulse.iter().map(|sum| factor * sum).collect(),
        })
    }

    /// The same curve `seconds` later; `None` unless those are finite and not negative.
    pub fn delayed(&self, seconds: f64) -> Option<Self> {
        (seconds >= 0.0 && seconds.is_finite()).then(|| Self {
            points: self.points.iter().map(|(t, f)| (t + seconds, *f)).collect(),
            impulse: self.impulse.clone(),
        })
    }

    /// Total impulse in N s, exact for straight lines; positive.
    pub fn total_impulse(&self) -> f64 {
        self.impulse[self.impulse.len() - 1]
    }

    /// The greatest thrust and when it is first reached: (time in s, thrust in N).
    pub fn peak(&self) -> (f64, f64) {
        let mut peak = self.points[0];
        for point in &self.points {
            if point.1 > peak.1 {
                peak = *point;
            }
        }
        peak
    }

    /// When thrust first rises above 0 and when it last falls to 0, in s.
    pub fn burn(&self) -> (f64, f64) {
        self.above(0.0)
    }

    /// Burn time in s from first to last thrust.
    pub fn burn_time(&self) -> f64 {
        let (start, end) = self.burn();
        end - start
    }

    /// When thrust first and last crosses 5 % of its peak, in s: how burn time is rated.
    /// Source: NFPA 1125 (from memory).
    pub fn rated_burn(&self) -> (f64, f64) {
        self.above(0.05 * self.peak().1)
    }

    /// Average thrust in N: total impulse over burn time.
    pub fn average_thrust(&self) -> f64 {
        self.total_impulse() / self.burn_time()
    }

    /// Average thrust in N over the rated burn: the impulse within it over its length.
    pub fn rated_average_thrust(&self) -> f64 {
        let (start, end) = self.rated_burn();
        (self.impulse_to(end) - self.impulse_to(start)) / (end - start)
    }

    /// Thrust in N at `time` s.
    pub fn thrust(&self, time: f64) -> f64 {
        match self.segment(time) {
            Some(i) => {
                let ((t0, f0), (t1, f1)) = (self.points[i], self.points[i + 1]);
                f0 + (f1 - f0) * (time - t0) / (t1 - t0)
            }
            None => 0.0,
        }
    }

    /// The straight piece of the curve that begins at `time` s or holds it; `None` before the first point and from the
    /// last one on.
    pub(crate) fn piece_at(&self, time: f64) -> Option<Piece> {
        let after = self.points.partition_point(|point| point.0 <= time);
        let before = after.checked_sub(1)?;
        let ((t0, f0), (t1, f1)) = (self.points[before], *self.points.get(after)?);
        let rise = (f1 - f0) / (t1 - t0);
        let thrust = f0 + rise * (time - t0);
        let impulse = self.impulse[before] + 0.5 * (f0 + thrust) * (time - t0);
        Some(Piece { thrust, rise, burnt: impulse / self.total_impulse() })
    }

    /// Impulse in N s from ignition to `time` s, exact for straight lines.
    pub fn impulse_to(&self, time: f64) -> f64 {
        match self.segment(time) {
            Some(i) => {
                let t0 = self.points[i].0;
                self.impulse[i] + 0.5 * (self.points[i].1 + self.thrust(time)) * (time - t0)
            }
            None if time > self.points[0].0 => self.total_impulse(),
            None => 0.0,
        }
    }

    /// Share of the propellant burnt by `time` s, 0 to 1, taken as proportional to the impulse
    /// given: constant exhaust speed (common practice, no source).
    pub fn burnt_share(&self, time: f64) -> f64 {
        self.impulse_to(time) / self.total_impulse()
    }

    /// The piece of the curve that holds `time`, by the index of its first point.
    fn segment(&self, time: f64) -> Option<usize> {
        let after = self.points.partition_point(|point| point.0 <= time);
        if after == self.points.len() {
            // The last point itself still carries its thrust.
            return (time == self.points[after - 1].0).then(|| after - 2);
        }
        after.checked_sub(1)
    }

    /// First and last time at which thrust crosses `level` N.
    fn above(&self, level: f64) -> (f64, f64) {
        let crossing =
            |low: (f64, f64), high: (f64, f64)| low.0 + (high.0 - low.0) * (level - low.1) / (high.1 - low.1);
        let last = self.points.len() - 1;
        let over = |i: &usize| self.points[*i].1 > level;
        let first_over = (0..=last).find(over).unwrap_or(0);
        let last_over = (0..=last).rev().find(over).unwrap_or(last);
        let start = match first_over {
            0 => self.points[0].0,
            i => crossing(self.points[i - 1], self.points[i]),
        };
        let end = if last_over == last {
            self.points[last].0
        } else {
            crossing(self.points[last_over + 1], self.points[last_over])
        };
        (start, end)
    }
}

fn check(points: &[(f64, f64)]) -> Result<(), CurveError> {
    if points.len() < 2 {
        return Err(CurveError::TooFewPoints(points.len()));
    }
    for (index, &(time, thrust)) in points.iter().enumerate() {
        if !time.is_finite() || !thrust.is_finite() {
            return Err(CurveError::NotFinite { index });
        }
        if index == 0 && time < 0.0 {
            return Err(CurveError::BeforeIgnition(time));
        }
        if index > 0 && time <= points[index - 1].0 {
            return Err(CurveError::TimeNotRising { index });
        }
        if thrust < 0.0 {
            return Err(CurveError::NegativeThrust { index });
        }
    }
    Ok(())
}

/// A rocket whose propellant burns away evenly from its place, keeping its shape and centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurningMass {
    /// Everything but the propellant.
    pub dry: MassProps,
    /// The propellant before ignition.
    pub propellant: MassProps,
}

impl BurningMass {
    /// Mass properties once `burnt_share` (0 to 1) of the propellant is gone.
    pub fn at(&self, burnt_share: f64) -> MassProps {
        combine([self.dry, self.propellant.scaled(1.0 - burnt_share)])
    }
}

/// A motor's letter and the range of total impulse it stands for, in N s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ImpulseClass {
    /// The letter: 1/8A to O.
    pub letter: &'static str,
    /// The class holds impulses above this.
    pub over: f64,
    /// The class holds impulses up to and including this.
    pub up_to: f64,
}

impl ImpulseClass {
    /// The class of a total impulse in N s; `None` for nothing and above 40 960 N s.
    /// Source: NFPA 1125, motor letters (letters below A from memory). Each class doubles.
    pub fn of(total_impulse: f64) -> Option<Self> {
        let mut over = 0.0;
        let mut up_to = SMALLEST_CLASS;
        for letter in LETTERS {
            if total_impulse > over && total_impulse <= up_to {
                return Some(Self { letter, over, up_to });
            }
            over = up_to;
            up_to *= 2.0;
        }
        None
    }

    /// How far into the class an impulse in N s lies: above 0, and 1 for a full class.
    pub fn share(&self, total_impulse: f64) -> f64 {
        (total_impulse - self.over) / (self.up_to - self.over)
    }
}

const SMALLEST_CLASS: f64 = 0.3125;
const LETTERS: [&str; 18] =
    ["1/8A", "1/4A", "1/2A", "A", "B", "C", "D", "E", "F", "G", "H", "I", "J", "K", "L", "M", "N", "O"];
