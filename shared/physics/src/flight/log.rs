//! Collects a flight's marked moments step by step.

use super::moments::{FlightPath, Moment, Opened, State};
use super::rocket::{ACROSS, CLIMB, HEIGHT};
use crate::canopies::Canopies;
use crate::ode::Step;
use crate::roots::bracketed_within;

/// What a step may end in.
pub(crate) enum End<const N: usize> {
    Top(f64, [f64; N]),
    Ground(Moment),
}

/// Collects the flight's marked moments step by step.
pub(crate) struct Log<'w> {
    watch: Option<&'w mut dyn FnMut(&Moment)>,
    start: Moment,
    fastest: Moment,
    hardest: f64,
    apogee: Option<Moment>,
    pub burnout: Option<Moment>,
    pub opening_state: Option<State>,
    openings: Vec<Opened>,
}

impl<'w> Log<'w> {
    pub fn new(start: Moment, mut watch: Option<&'w mut dyn FnMut(&Moment)>) -> Self {
        if let Some(watch) = &mut watch {
            watch(&start);
        }
        Self {
            watch,
            start,
            fastest: start,
            hardest: 0.0,
            apogee: None,
            burnout: None,
            opening_state: None,
            openings: Vec::new(),
        }
    }

    /// Who watches, if anybody does.
    pub fn watch(&mut self) -> Option<&mut (dyn FnMut(&Moment) + 'w)> {
        self.watch.as_deref_mut()
    }

    /// Looks at a step under the right-hand side `f`.
    pub fn step<const N: usize>(
        &mut self,
        step: &Step<N>,
        moment: impl Fn(f64, &[f64; N]) -> Moment,
        f: impl Fn(f64, &[f64; N]) -> [f64; N],
    ) -> Option<End<N>> {
        let ground = match (step.y0[HEIGHT] >= 0.0, step.y1[HEIGHT] >= 0.0) {
            (true, false) => step.crossing(&f, HEIGHT, 0.0),
            (false, false) => Some((step.t0, step.y0)),
            (_, true) => None,
        };
        let (until, last) = ground.unwrap_or((step.t1, step.y1));
        let mut top = None;
        if self.apogee.is_none() && step.y0[CLIMB] > 0.0 && step.y1[CLIMB] <= 0.0 {
            top = step.crossing(&f, CLIMB, 0.0).filter(|(t, _)| *t <= until);
            self.apogee = top.map(|(t, y)| moment(t, &y));
        }
        self.note_speed(until, &last, &moment);
        if let Some(t) = self.peak(step, until, &last) {
            self.note_speed(t, &step.at(t), &moment);
        }
        if let Some(watch) = &mut self.watch {
            watch(&moment(until, &last));
        }
        match (ground, top) {
            (Some(_), _) => Some(End::Ground(moment(until, &last))),
            (None, Some((t, y))) => Some(End::Top(t, y)),
            (None, None) => None,
        }
    }

    /// When within a step the speed is greatest, if it may be greater than any before.
    fn peak<const N: usize>(&self, step: &Step<N>, until: f64, last: &[f64; N]) -> Option<f64> {
        let may_peak = square(&step.y0).max(square(last)) >= 0.8 * self.fastest.speed * self.fastest.speed;
        may_peak.then(|| fastest_within(step, until, 0.0)).flatten()
    }

    /// Notes how hard a step under way accelerates the rocket. Thrust is straight between two points of its curve, and
    /// steps end on those, so that the greatest acceleration lies at a step's end but for the drag's slow change.
    pub fn note_acceleration<const N: usize>(&mut self, step: &Step<N>) {
        let (start, end) = step.slopes();
        let hardest = square(start).max(square(end));
        if hardest > self.hardest * self.hardest {
            self.hardest = hardest.sqrt();
        }
    }

    /// Jumps over a stretch in which nothing but a steady fall happens, to the moment at its end.
    pub fn skip_to<const N: usize>(&mut self, t: f64, y: &[f64; N], moment: impl Fn(f64, &[f64; N]) -> Moment) {
        self.note_speed(t, y, &moment);
        if let Some(watch) = &mut self.watch {
            watch(&moment(t, y));
        }
    }

    fn note_speed<const N: usize>(&mut self, t: f64, y: &[f64; N], moment: impl Fn(f64, &[f64; N]) -> Moment) {
        if square(y) > self.fastest.speed * self.fastest.speed {
            self.fastest = moment(t, y);
        }
    }

    /// Notes that something opens, and what is open from then on.
    pub fn opens(&mut self, moment: Moment, air_speed: f64, canopies: &Canopies) {
        let (open, drag_area) = (canopies.open().to_vec(), canopies.drag_area());
        self.openings.push(Opened { moment, air_speed, open, drag_area });
    }

    pub fn path(self, landing: Moment) -> FlightPath {
        FlightPath {
            burnout: self.burnout,
            fastest: self.fastest,
            top_acceleration: self.hardest,
            // A rocket that never climbs was highest at release.
            apogee: self.apogee.unwrap_or(self.start),
            openings: self.openings,
            opening_state: self.opening_state,
            landing,
        }
    }
}

/// When within a step up to a time in it the speed is greatest, if not at an end; to a `share` of that stretch.
pub(crate) fn fastest_within<const N: usize>(step: &Step<N>, until: f64, share: f64) -> Option<f64> {
    let gain = |y: &[f64; N], slope: &[f64; N]| y[ACROSS] * slope[ACROSS] + y[CLIMB] * slope[CLIMB];
    let (start, end) = step.slopes();
    let peaks = gain(&step.y0, start) > 0.0 && (until < step.t1 || gain(&step.y1, end) < 0.0);
    let width = share * (until - step.t0);
    peaks.then(|| bracketed_within(width, step.t0, until, |t| gain(&step.at(t), &step.slope_at(t)))).flatten()
}

/// The square of a velocity, or of an acceleration in a slope.
fn square<const N: usize>(y: &[f64; N]) -> f64 {
    y[ACROSS] * y[ACROSS] + y[CLIMB] * y[CLIMB]
}
