//! Collects a flight's marked moments step by step.

use crate::canopies::Canopies;
use crate::flight::{FlightPath, Moment, Opened, State};
use crate::ode::Step;
use crate::roots::bracketed;

/// Components of both states.
const HEIGHT: usize = 1;
const CLIMB: usize = 3;

/// What a step may end in.
pub(crate) enum End<const N: usize> {
    Top(f64, [f64; N]),
    Ground(Moment),
}

/// Collects the flight's marked moments step by step.
pub(crate) struct Log<W> {
    watch: W,
    start: Moment,
    fastest: Moment,
    hardest: f64,
    apogee: Option<Moment>,
    pub burnout: Option<Moment>,
    pub opening_state: Option<State>,
    openings: Vec<Opened>,
}

impl<W: FnMut(&Moment)> Log<W> {
    pub fn new(start: Moment, mut watch: W) -> Self {
        watch(&start);
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
        let last = moment(until, &last);
        self.note_speed(&last);
        if last.speed >= 0.99 * self.fastest.speed {
            let gain = |t: f64| {
                let y = step.at(t);
                let slope = f(t, &y);
                y[2] * slope[2] + y[3] * slope[3]
            };
            if gain(step.t0) > 0.0 && gain(until) < 0.0 {
                if let Some(t) = bracketed(step.t0, until, gain) {
                    self.note_speed(&moment(t, &step.at(t)));
                }
            }
        }
        (self.watch)(&last);
        match (ground, top) {
            (Some(_), _) => Some(End::Ground(last)),
            (None, Some((t, y))) => Some(End::Top(t, y)),
            (None, None) => None,
        }
    }

    /// Notes how hard a step under way accelerates the rocket. Thrust is straight between two points of its curve, and
    /// steps end on those, so that the greatest acceleration lies at a step's end but for the drag's slow change.
    pub fn note_acceleration(&mut self, step: &Step<6>) {
        let (start, end) = step.slopes();
        for slope in [start, end] {
            self.hardest = self.hardest.max(slope[2].hypot(slope[CLIMB]));
        }
    }

    /// Jumps over a stretch in which nothing but a steady fall happens, to the moment at its end.
    pub fn skip_to(&mut self, moment: Moment) {
        self.note_speed(&moment);
        (self.watch)(&moment);
    }

    fn note_speed(&mut self, moment: &Moment) {
        if moment.speed > self.fastest.speed {
            self.fastest = *moment;
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
