//! Follows a rocket from its release to the ground, to the highest point or to its burnout.

use super::fall::come_down;
use super::log::{fastest_within, End, Log};
use super::moments::{FlightPath, Moment, State};
use super::rocket::trim::{Ahead, Trimmed};
use super::rocket::{Falling, Pitching, Rocket, Stretch, CLIMB, HEIGHT};
use super::run::{
    finest, path, reached, state, unsound, upright, Care, Run, Until, FALLING, LONGEST_FLIGHT, MOST_STEPS,
};
use super::sky::Sky;
use super::{Flight, FlightError};
use crate::air::G0;
use crate::canopies::{Canopies, ABOUT_TOP};
use crate::drag::Held;
use crate::ode::{Solver, Step, Tolerance};
use std::cell::Cell;

/// The state between two steps.
enum Motion {
    Swinging(Solver<6>),
    Trimmed(Solver<4>),
}

/// What ends a number of steps.
enum Ended<const N: usize> {
    /// The next point of the curve.
    Point,
    /// A surface that turned rough or smooth.
    Rubs,
    /// The swing has died away, or trimmed flight has become too coarse.
    Otherwise,
    Opens(f64, [f64; N]),
    Top(f64, [f64; N]),
    Ground(Moment),
}

/// Where the steps up to a point of the curve lead, if not to that point.
enum Over {
    Stops(Moment),
    Opens(f64, Pitching),
}

/// Flies from a state to the ground, to the highest point, or only to the burnout, whose state comes with it. The speed
/// there is told apart, so that a release's isn't rounded by way of its components.
pub(crate) fn follow(
    flight: &Flight,
    from: State,
    speed: f64,
    until: Until,
    care: Care,
    watch: Option<&mut dyn FnMut(&Moment)>,
) -> Result<(FlightPath, Option<State>), FlightError> {
    let rocket = rocket(flight, &from, care)?;
    follow_in(&rocket, flight, (from, speed), until, care, watch)
}

/// Flies to the ground, and on from where something opened on the way up, had it not: the highest point then.
pub(crate) fn follow_and_free(flight: &Flight, from: State, speed: f64) -> Result<(FlightPath, Moment), FlightError> {
    let rocket = rocket(flight, &from, Care::Usual)?;
    let (path, _) = follow_in(&rocket, flight, (from, speed), Until::Ground, Care::Usual, None)?;
    let opened_climbing = path.opening_state.filter(|state| state.climb > 0.0);
    let bare = Flight { canopies: &[], ..*flight };
    let freely = |state: State| {
        let speed = state.across.hypot(state.climb);
        follow_in(&rocket, &bare, (state, speed), Until::Top, Care::Usual, None).map(|(path, _)| path.apogee).ok()
    };
    let free = opened_climbing.and_then(freely).unwrap_or(path.apogee);
    Ok((path, free))
}

/// The rocket as it flies from a state, in its air.
pub(super) fn rocket<'f>(flight: &Flight<'f>, from: &State, care: Care) -> Result<Rocket<'f>, FlightError> {
    let sky = match care {
        Care::Usual => Sky::fitted(flight.atmosphere, flight.wind, highest(flight, from)),
        Care::Full => Sky::exact(flight.atmosphere, flight.wind),
    };
    Rocket::new(flight.aerodynamics, flight.mass, flight.nozzle, sky).map_err(FlightError::Fins)
}

fn follow_in(
    rocket: &Rocket,
    flight: &Flight,
    (from, speed): (State, f64),
    until: Until,
    care: Care,
    watch: Option<&mut dyn FnMut(&Moment)>,
) -> Result<(FlightPath, Option<State>), FlightError> {
    let y: Pitching = [from.drift, from.height, from.across, from.climb, from.tilt, from.rate];
    let burn_end = flight.curve.burn().1;
    let mut run = Run {
        rocket,
        stretch: Stretch::from(flight.curve, from.time, None),
        canopies: Canopies::packed(flight.canopies, burn_end, from.time),
        log: Log::new(Moment { speed, ..upright(from.time, &y) }, watch),
        care,
        until,
        hung: flight.hung,
        turns: 0,
        look: 0.0,
    };
    run.stretch.held = run.held(&y);
    let mut motion = Motion::Swinging(run.swinging(from.time, y, FIRST_STEP));
    let points = flight.curve.points();
    for i in points.partition_point(|point| point.0 <= from.time)..=points.len() {
        let knot = points.get(i).map_or(f64::INFINITY, |point| point.0);
        match run.reach(&mut motion, knot)? {
            None => {}
            Some(Over::Stops(last)) => return Ok((run.log.path(last), None)),
            Some(Over::Opens(t, y)) => return Ok((come_down(run, t, y)?, None)),
        }
        let t = motion.time();
        if t == burn_end {
            let y = run.pitching(&motion);
            let end = upright(t, &y);
            run.log.burnout = Some(end);
            if until == Until::Burnout {
                return Ok((run.log.path(end), Some(state(t, &y))));
            }
        }
        run.stretch = Stretch::from(flight.curve, t, run.stretch.held);
        // Between the first and the last point the thrust doesn't jump, and the slope in hand still holds.
        if i == 0 || i + 1 >= points.len() {
            run.restart(&mut motion);
        }
    }
    Err(FlightError::NeverLands)
}

impl Motion {
    fn time(&self) -> f64 {
        match self {
            Self::Swinging(at) => at.t,
            Self::Trimmed(at) => at.t,
        }
    }
}

impl Run<'_, '_> {
    /// Steps up to a point of the curve, in whichever motion suits.
    fn reach(&mut self, motion: &mut Motion, knot: f64) -> Result<Option<Over>, FlightError> {
        let rocket = self.rocket;
        for _ in 0..MOST_STEPS {
            let stretch = self.stretch;
            let whole = |t: f64, y: &Falling| Trimmed::over(rocket, stretch).upright(t, y);
            *motion = match motion {
                Motion::Swinging(at) => match self.swing_on(at, knot)? {
                    Ended::Point => return Ok(None),
                    Ended::Ground(landing) => return Ok(Some(Over::Stops(landing))),
                    Ended::Opens(t, y) => return Ok(Some(Over::Opens(t, y))),
                    Ended::Top(t, y) => return Ok(Some(Over::Stops(upright(t, &y)))),
                    Ended::Rubs | Ended::Otherwise => match self.settled(at) {
                        Some(y) => Motion::Trimmed(self.trimmed(at.t, y, 2.0 * at.length())),
                        None => Motion::Swinging(self.swinging(at.t, at.y, at.length())),
                    },
                },
                Motion::Trimmed(at) => match self.trim_on(at, knot)? {
                    Ended::Point => return Ok(None),
                    Ended::Ground(landing) => return Ok(Some(Over::Stops(landing))),
                    Ended::Opens(t, y) => return Ok(Some(Over::Opens(t, whole(t, &y)))),
                    Ended::Top(t, y) => return Ok(Some(Over::Stops(upright(t, &whole(t, &y))))),
                    Ended::Rubs => Motion::Trimmed(self.trimmed(at.t, at.y, at.length())),
                    Ended::Otherwise => {
                        // It goes slower up to the top, and the angle follows the later.
                        self.look = at.t + at.y[CLIMB].max(0.0) / G0;
                        Motion::Swinging(self.swinging(at.t, whole(at.t, &at.y), SWING_STEP))
                    }
                },
            };
        }
        Err(FlightError::Unsound(motion.time()))
    }

    fn swing_on(&mut self, at: &mut Solver<6>, knot: f64) -> Result<Ended<6>, FlightError> {
        let (rocket, stretch) = (self.rocket, self.stretch);
        let usual = self.care == Care::Usual;
        // To look costs as much as an evaluation, and a swing takes many steps to die away.
        let look = Cell::new(self.look);
        let over = self.over();
        let settles = |t: f64, y: &Pitching| {
            if !usual || t < look.get() {
                return -1.0;
            }
            match rocket.settle(&stretch, t, y, ahead(over, t, y[CLIMB])) {
                Ok(_) => 1.0,
                Err(wait) => {
                    look.set(t + wait.max(LOOK));
                    -1.0
                }
            }
        };
        let ended = self.go(at, knot, |t, y| rocket.pitching(&stretch, t, y), upright, settles);
        self.look = look.get();
        ended
    }

    fn trim_on(&mut self, at: &mut Solver<4>, knot: f64) -> Result<Ended<4>, FlightError> {
        let trimmed = Trimmed::over(self.rocket, self.stretch);
        let moment = |t: f64, y: &Falling| upright(t, &trimmed.upright(t, y));
        let over = self.over();
        let coarse = |t: f64, y: &Falling| trimmed.too_coarse(t, y, ahead(over, t, y[CLIMB]));
        self.go(at, knot, |t, y| trimmed.motion(t, y), moment, coarse)
    }

    /// When the way as a bare rocket is over at the latest; at once where that is about the highest point.
    fn over(&self) -> f64 {
        if self.until == Until::Top {
            f64::NEG_INFINITY
        } else {
            self.canopies.opens_by()
        }
    }

    /// Steps until something ends them. Where `otherwise` is positive another motion suits; trimmed flight is followed
    /// up to there and no further.
    fn go<const N: usize>(
        &mut self,
        at: &mut Solver<N>,
        knot: f64,
        f: impl Fn(f64, &[f64; N]) -> [f64; N],
        moment: impl Fn(f64, &[f64; N]) -> Moment,
        otherwise: impl Fn(f64, &[f64; N]) -> f64,
    ) -> Result<Ended<N>, FlightError> {
        let longest = if self.stretch.held.is_none() && self.rocket.rubs() { LONGEST_BLIND } else { LONGEST_STEP };
        let mut step = Step::NONE;
        let step = &mut step;
        for _ in 0..MOST_STEPS {
            if self.canopies.open_due(at.t, at.y[HEIGHT]) {
                return Ok(Ended::Opens(at.t, at.y));
            }
            let end = knot.min(self.canopies.next_time());
            if at.t >= end {
                return Ok(Ended::Point);
            }
            at.step_into(&f, end.min(at.t + longest), step).map_err(unsound)?;
            let (mut changed, rubs_at) = self.turned(step);
            let mut ends = otherwise(at.t, &at.y) > 0.0;
            let coarse = (ends && N == 4).then(|| step.root(&otherwise)).flatten();
            let opens = reached(&self.canopies, step, &f);
            let cuts = [opens, rubs_at, coarse].into_iter().flatten();
            let cut = cuts.filter(|cut| *cut > step.t0 && *cut < step.t1).reduce(f64::min);
            if let Some(cut) = cut {
                if opens == Some(cut) {
                    at.back(step);
                    at.step_into(&f, cut, step).map_err(unsound)?;
                } else {
                    at.cut(step, cut);
                }
                changed = if rubs_at == Some(at.t) { changed } else { 0 };
                ends = coarse == Some(at.t);
            }
            self.log.note_acceleration(step);
            match self.log.step(step, &moment, &f) {
                Some(End::Ground(landing)) => return Ok(Ended::Ground(landing)),
                Some(End::Top(t, y)) if self.until == Until::Top => return Ok(Ended::Top(t, y)),
                Some(End::Top(t, y)) => {
                    self.canopies.pass_top(t);
                    if self.canopies.open_due(t, y[HEIGHT]) {
                        return Ok(Ended::Opens(t, y));
                    }
                    // What opens before this step ends does so on its curve.
                    let soon = self.canopies.next_time();
                    if soon <= at.t {
                        self.canopies.open_due(soon, f64::INFINITY);
                        return Ok(Ended::Opens(soon, step.at(soon)));
                    }
                }
                None => {}
            }
            if at.t > LONGEST_FLIGHT {
                return Err(FlightError::NeverLands);
            }
            if changed != 0 {
                self.turn(changed);
                return Ok(Ended::Rubs);
            }
            if ends {
                return Ok(Ended::Otherwise);
            }
        }
        Err(FlightError::Unsound(at.t))
    }

    /// Which surfaces turned rough or smooth in a step, one bit each, and when the first of them did.
    fn turned<const N: usize>(&self, step: &Step<N>) -> (u64, Option<f64>) {
        let Some(held) = self.stretch.held else { return (0, None) };
        let turned = |y: &[f64; N]| held ^ self.rocket.rough(path(y)).unwrap_or(held);
        let (mut until, mut changed) = (step.t1, turned(&step.y1));
        if changed == 0 {
            // It may have been fast enough for less than a step.
            if let Some(fastest) = fastest_within(step, step.t1, PEAK) {
                (until, changed) = (fastest, turned(&step.at(fastest)));
            }
        }
        let mut first = None;
        let mut rest = changed;
        while rest != 0 {
            let bit = rest & rest.wrapping_neg();
            rest ^= bit;
            if let Some(t) = step.root_within(TURN, until, |_, y| self.rocket.beyond(bit, path(y))) {
                if first.is_none_or(|(_, earlier)| t < earlier) {
                    first = Some((bit, t));
                }
            }
        }
        first.map_or((changed, None), |(bit, t)| (bit, Some(t)))
    }

    /// From here on these surfaces are the other way. Where that goes to and fro each evaluation decides for itself.
    fn turn(&mut self, changed: u64) {
        self.turns += 1;
        let held = self.stretch.held.filter(|_| self.turns <= MOST_TURNS);
        self.stretch.held = held.map(|held| held ^ changed);
    }

    fn held(&self, y: &Pitching) -> Held {
        if self.care == Care::Usual {
            self.rocket.rough(path(y))
        } else {
            None
        }
    }

    /// The state without its swing, where that has died away.
    fn settled(&self, at: &Solver<6>) -> Option<Falling> {
        let usual = self.care == Care::Usual;
        let ahead = ahead(self.over(), at.t, at.y[CLIMB]);
        usual.then(|| self.rocket.settle(&self.stretch, at.t, &at.y, ahead).ok()).flatten()
    }

    fn swinging(&self, t: f64, y: Pitching, step: f64) -> Solver<6> {
        let tolerance = if self.care == Care::Usual { PITCHING } else { finest() };
        Solver::new(|t, y| self.rocket.pitching(&self.stretch, t, y), t, y, step, tolerance)
    }

    fn trimmed(&self, t: f64, y: Falling, step: f64) -> Solver<4> {
        Solver::new(|t, y| Trimmed::over(self.rocket, self.stretch).motion(t, y), t, y, step, FALLING)
    }

    fn restart(&self, motion: &mut Motion) {
        match motion {
            Motion::Swinging(at) => at.restart(|t, y| self.rocket.pitching(&self.stretch, t, y)),
            Motion::Trimmed(at) => at.restart(|t, y| Trimmed::over(self.rocket, self.stretch).motion(t, y)),
        }
    }

    fn pitching(&self, motion: &Motion) -> Pitching {
        match motion {
            Motion::Swinging(at) => at.y,
            Motion::Trimmed(at) => Trimmed::over(self.rocket, self.stretch).upright(at.t, &at.y),
        }
    }
}

/// What is ahead of a rocket whose bare flight is over by a time: it's up in no more than its climb takes without drag.
fn ahead(over: f64, t: f64, climb: f64) -> Ahead {
    if climb > 0.0 && over <= t + climb / G0 + ABOUT_TOP {
        Ahead::Climb
    } else {
        Ahead::Fall
    }
}

/// A height in m that the rocket stays below: as high as it would fly without air and weight while its motor burns.
fn highest(flight: &Flight, from: &State) -> f64 {
    let speed = from.across.hypot(from.climb) + flight.curve.total_impulse() / flight.mass.dry.mass;
    let burning = (flight.curve.burn().1 - from.time).max(0.0);
    from.height + speed * burning + 0.5 * speed * speed / G0
}

/// m to 1e-4, m/s to 3e-5, rad to 5e-6, rad/s to 4e-4.
const PITCHING: Tolerance<6> = Tolerance { relative: 1e-6, absolute: [1e-4, 1e-4, 3e-5, 3e-5, 5e-6, 4e-4] };
const FIRST_STEP: f64 = 2e-2;
/// Where the swing is slow.
const SWING_STEP: f64 = 1e-1;
const LONGEST_STEP: f64 = 2.0;
/// How long it isn't looked again whether the swing has died away, s.
const LOOK: f64 = 0.05;
/// Friction jumps where roughness takes over, which a long step in still air may not notice unless it's looked for.
const LONGEST_BLIND: f64 = 0.1;
/// How near a turn is sought, as a share of the step: the friction's jump is a few hundredths of a deceleration.
const TURN: f64 = 1e-4;
/// The same of the greatest speed that is only to be known for whether there's a turn.
const PEAK: f64 = 1e-2;
/// More turns of surfaces from rough to smooth and back than this are no passage but a standstill at the change.
const MOST_TURNS: u32 = 40;
