//! The flight from the guide to the ground, in the vertical plane of the wind.

use crate::aerodynamics::Aerodynamics;
use crate::air::{Atmosphere, Wind};
use crate::airborne::{Burn, Falling, Pitching, Rocket};
use crate::canopies::{Canopies, Canopy};
use crate::flight_log::{End, Log};
use crate::motor::{BurningMass, ThrustCurve};
use crate::normal_force::FinLiftError;
use crate::ode::{Solver, Step, StepFailed, Tolerance};
use crate::settled::Settled;

/// A free flight: a rigid rocket in three degrees of freedom (drift, height, tilt), then a canopy.
///
/// Normal force follows sin α, the drag the axis. Roll, side wind across the plane, thrust off the
/// axis and the earth's turn are left out.
#[derive(Debug, Clone, Copy)]
pub struct Flight<'a> {
    /// Thrust against time from ignition.
    pub curve: &'a ThrustCurve,
    /// Mass properties with and without propellant.
    pub mass: BurningMass,
    /// Station of the nozzle's end in m.
    pub nozzle: f64,
    /// Normal force, damping and drag.
    pub aerodynamics: &'a Aerodynamics,
    /// Air over the site.
    pub atmosphere: &'a Atmosphere,
    /// Wind, blowing towards positive drift.
    pub wind: &'a Wind,
    /// The moment of release.
    pub release: Release,
    /// What opens, and when; without any it comes down as it flew.
    pub canopies: &'a [Canopy],
}

/// The state when the last guide leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Release {
    /// Time in s from ignition.
    pub time: f64,
    /// Height in m above the resting place.
    pub height: f64,
    /// Speed in m/s along the guide.
    pub speed: f64,
    /// Tilt of the guide from the vertical in rad; positive leans downwind.
    pub tilt: f64,
    /// Rate of turn in rad/s, positive downwind: see [`crate::loads::OnLastGuide`].
    pub rate: f64,
}

/// All that the motion goes on from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Time in s.
    pub time: f64,
    /// Drift in m from the pad, positive downwind.
    pub drift: f64,
    /// Height in m above the resting place.
    pub height: f64,
    /// Speed downwind in m/s.
    pub across: f64,
    /// Vertical speed in m/s, positive up.
    pub climb: f64,
    /// Tilt of the axis from the vertical in rad, positive downwind.
    pub tilt: f64,
    /// Rate of turn in rad/s, positive downwind.
    pub rate: f64,
}

impl From<Release> for State {
    fn from(release: Release) -> Self {
        let (sin, cos) = release.tilt.sin_cos();
        Self {
            time: release.time,
            drift: release.height * release.tilt.tan(),
            height: release.height,
            across: release.speed * sin,
            climb: release.speed * cos,
            tilt: release.tilt,
            rate: release.rate,
        }
    }
}

/// A flight up to its motor's burnout, where a booster falls away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boost {
    /// The state at burnout.
    pub end: State,
    /// The greatest speed until then.
    pub fastest: Moment,
    /// The greatest acceleration until then, in m/s²: see [`FlightPath::top_acceleration`].
    pub top_acceleration: f64,
}

/// One moment of the flight.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moment {
    /// Time in s from ignition.
    pub time: f64,
    /// Height in m above the resting place.
    pub height: f64,
    /// Drift in m from the pad, positive downwind.
    pub drift: f64,
    /// Speed over ground in m/s.
    pub speed: f64,
    /// Vertical speed in m/s, positive up.
    pub climb: f64,
    /// Tilt of the axis from the vertical in rad, positive downwind; 0 under a canopy.
    pub tilt: f64,
}

/// An opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The moment.
    pub moment: Moment,
    /// Speed through the air in m/s, which the cloth feels.
    pub air_speed: f64,
    /// Which of the flight's canopies are open from then on.
    pub open: Vec<bool>,
    /// Their drag area together, m².
    pub drag_area: f64,
}

/// What the flight came to.
#[derive(Debug, Clone, PartialEq)]
pub struct FlightPath {
    /// When the motor's burn ends; `None` if it was over before release.
    pub burnout: Option<Moment>,
    /// The greatest speed.
    pub fastest: Moment,
    /// The greatest acceleration over ground in m/s² from release to the opening, at the ends of the steps, which lie on
    /// every point of the thrust curve. The jerk of the opening isn't in it.
    pub top_acceleration: f64,
    /// The highest point.
    pub apogee: Moment,
    /// The openings in their order; none where nothing opens or the ground came first.
    pub openings: Vec<Opened>,
    /// The whole state at the first, from which [`Flight::climb_on`] tells what the flight would have been without it.
    pub opening_state: Option<State>,
    /// Back at the height of the resting place.
    pub landing: Moment,
}

/// How far a flight is followed.
#[derive(Clone, Copy, PartialEq)]
enum Until {
    Ground,
    Top,
    Burnout,
}

/// Why there is no flight to show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FlightError {
    /// The fins have no lift by this theory.
    Fins(FinLiftError),
    /// At this time in s the motion left the numbers' range or became too fast to follow: a value
    /// given isn't sound, or an inertia is next to nothing.
    Unsound(f64),
    /// Still up after an hour.
    NeverLands,
}

impl Flight<'_> {
    /// Flies it.
    pub fn fly(&self) -> Result<FlightPath, FlightError> {
        self.fly_with(|_| {})
    }

    /// Flies it and shows every step's end to `watch`, from release to landing.
    pub fn fly_with(&self, watch: impl FnMut(&Moment)) -> Result<FlightPath, FlightError> {
        self.follow(self.release.into(), self.release.speed, Until::Ground, watch).map(|(path, _)| path)
    }

    /// Flies on from any state instead of the release, as an upper stage does from where its booster falls away; the
    /// curve's times count on the state's clock: see [`ThrustCurve::delayed`].
    pub fn fly_on(&self, from: State) -> Result<FlightPath, FlightError> {
        self.follow(from, from.across.hypot(from.climb), Until::Ground, |_| {}).map(|(path, _)| path)
    }

    /// The highest point that it climbs to from a state, such as its release, with nothing that opens on the way.
    pub fn climb_on(&self, from: State) -> Result<Moment, FlightError> {
        let bare = Flight { canopies: &[], ..*self };
        bare.follow(from, from.across.hypot(from.climb), Until::Top, |_| {}).map(|(path, _)| path.apogee)
    }

    /// Flies up to the motor's burnout; `None` where the ground or a canopy comes before.
    pub fn boost(&self) -> Result<Option<Boost>, FlightError> {
        let (path, end) = self.follow(self.release.into(), self.release.speed, Until::Burnout, |_| {})?;
        Ok(end.map(|end| Boost { end, fastest: path.fastest, top_acceleration: path.top_acceleration }))
    }

    /// Flies from a state to the ground, to the highest point, or only to the burnout, whose state comes with it. The speed there is told apart,
    /// so that a release's isn't rounded by way of its components.
    fn follow(
        &self,
        from: State,
        speed: f64,
        until: Until,
        watch: impl FnMut(&Moment),
    ) -> Result<(FlightPath, Option<State>), FlightError> {
        let rocket = Rocket::new(self.aerodynamics, self.mass, self.nozzle, self.atmosphere, self.wind)
            .map_err(FlightError::Fins)?;
        let y: Pitching = [from.drift, from.height, from.across, from.climb, from.tilt, from.rate];
        let mut log = Log::new(Moment { speed, ..upright(from.time, &y) }, watch);
        let burn_end = self.curve.burn().1;
        let mut canopies = Canopies::packed(self.canopies, burn_end, from.time);

        let mut burn = self.burn_from(from.time);
        let mut solver: Option<Solver<6>> = None;
        let points = self.curve.points();
        let first = points.partition_point(|point| point.0 <= from.time);
        for i in first..=points.len() {
            let f = |t: f64, y: &Pitching| rocket.pitching(&burn, t, y);
            let mut at = match solver {
                Some(old) => old,
                None => Solver::new(f, from.time, y, FIRST_STEP, PITCHING),
            };
            at.restart(f);
            let knot = points.get(i).map_or(f64::INFINITY, |point| point.0);
            let mut steps = 0;
            loop {
                if canopies.open_due(at.t, at.y[HEIGHT]) {
                    return Ok((self.come_down(&rocket, &burn, (at.t, at.y), canopies, log)?, None));
                }
                let end = knot.min(canopies.next_time());
                if at.t >= end {
                    break;
                }
                let before = at;
                let mut step = at
                    .step_to(f, end.min(at.t + LONGEST_FREE_STEP))
                    .map_err(|failed| FlightError::Unsound(failed.0))?;
                if let Some(reached) = reached(&canopies, &step, f) {
                    at = before;
                    step = at.step_to(f, reached).map_err(|failed| FlightError::Unsound(failed.0))?;
                }
                log.note_acceleration(&step);
                match log.step(&step, upright, f) {
                    Some(End::Ground(landing)) => return Ok((log.path(landing), None)),
                    Some(End::Top(t, y)) if until == Until::Top => {
                        return Ok((log.path(upright(t, &y)), None));
                    }
                    Some(End::Top(t, y)) => {
                        canopies.pass_top(t);
                        if canopies.open_due(t, y[HEIGHT]) {
                            return Ok((self.come_down(&rocket, &burn, (t, y), canopies, log)?, None));
                        }
                        // What opens before this step ends does so on its curve.
                        let soon = canopies.next_time();
                        if soon <= at.t {
                            canopies.open_due(soon, f64::INFINITY);
                            let opens = (soon, step.at(soon));
                            return Ok((self.come_down(&rocket, &burn, opens, canopies, log)?, None));
                        }
                    }
                    None => {}
                }
                steps += 1;
                if steps > MOST_STEPS {
                    return Err(FlightError::Unsound(at.t));
                }
                if at.t > LONGEST_FLIGHT {
                    return Err(FlightError::NeverLands);
                }
            }
            if at.t == burn_end {
                let end = upright(at.t, &at.y);
                log.burnout = Some(end);
                if until == Until::Burnout {
                    let [drift, height, across, climb, tilt, rate] = at.y;
                    let state = State { time: at.t, drift, height, across, climb, tilt, rate };
                    return Ok((log.path(end), Some(state)));
                }
            }
            burn = self.burn_from(at.t);
            solver = Some(at);
        }
        Err(FlightError::NeverLands)
    }

    /// Under what is open to the ground, with what opens on the way.
    fn come_down<W: FnMut(&Moment)>(
        &self,
        rocket: &Rocket,
        burn: &Burn,
        (time, y): (f64, Pitching),
        mut canopies: Canopies,
        mut log: Log<W>,
    ) -> Result<FlightPath, FlightError> {
        let mass = rocket.mass_before(burn);
        let [drift, height, across, climb, tilt, rate] = y;
        log.opening_state = Some(State { time, drift, height, across, climb, tilt, rate });
        log.opens(upright(time, &y), rocket.air_speed(height, across, climb), &canopies);
        let mut drag_area = canopies.drag_area();
        let mut at: Solver<4> = Solver::new(
            |_: f64, y: &Falling| rocket.falling(mass, drag_area, y),
            time,
            [drift, height, across, climb],
            FIRST_STEP,
            FALLING,
        );
        let mut skipped = false;
        let mut steps = 0;
        while at.t < LONGEST_FLIGHT {
            if canopies.open_due(at.t, at.y[HEIGHT]) {
                drag_area = canopies.drag_area();
                let [_, height, across, climb] = at.y;
                log.opens(hanging(at.t, &at.y), rocket.air_speed(height, across, climb), &canopies);
                at = Solver::new(
                    |_: f64, y: &Falling| rocket.falling(mass, drag_area, y),
                    at.t,
                    at.y,
                    FIRST_STEP,
                    FALLING,
                );
                skipped = false;
            }
            let f = |_: f64, y: &Falling| rocket.falling(mass, drag_area, y);
            steps += 1;
            if steps > MOST_STEPS {
                return Err(FlightError::Unsound(at.t));
            }
            let unsound = |failed: StepFailed| FlightError::Unsound(failed.0);
            let before = at;
            let mut step = at.step_to(f, (at.t + LONGEST_STEP).min(canopies.next_time())).map_err(unsound)?;
            if let Some(reached) = reached(&canopies, &step, f) {
                at = before;
                step = at.step_to(f, reached).map_err(unsound)?;
            }
            match log.step(&step, hanging, f) {
                Some(End::Ground(landing)) => return Ok(log.path(landing)),
                Some(End::Top(t, y)) => {
                    canopies.pass_top(t);
                    // What opens before this step ends is taken up at its curve again.
                    let soon =
                        if canopies.next_height().is_some_and(|h| y[HEIGHT] <= h) { t } else { canopies.next_time() };
                    if soon < at.t {
                        (at.t, at.y) = (soon, if soon == t { y } else { step.at(soon) });
                        at.restart(f);
                    }
                }
                None => {}
            }
            let falls_alone = !skipped && canopies.next_time() == f64::INFINITY;
            let settled = Settled { mass, drag_area, atmosphere: self.atmosphere, wind: self.wind };
            let down_to = canopies.next_height().unwrap_or(0.0);
            if let Some(lower) = falls_alone.then(|| settled.skip(at.t, &at.y, down_to)).flatten() {
                log.skip_to(hanging(lower.time, &lower.state));
                at.t = lower.time;
                at.y = lower.state;
                at.restart(f);
                skipped = true;
            }
        }
        Err(FlightError::NeverLands)
    }

    /// The burn between the points of the curve around `time`.
    fn burn_from(&self, time: f64) -> Burn {
        let points = self.curve.points();
        let after = points.partition_point(|point| point.0 <= time);
        let per_impulse = 1.0 / self.curve.total_impulse();
        let burning = after > 0 && after < points.len();
        let rise = if burning {
            let ((t0, f0), (t1, f1)) = (points[after - 1], points[after]);
            (f1 - f0) / (t1 - t0)
        } else {
            0.0
        };
        Burn {
            start: time,
            thrust: if burning { self.curve.thrust(time) } else { 0.0 },
            rise,
            burnt: self.curve.burnt_share(time),
            per_impulse,
            burning,
        }
    }
}

/// When a step on the way down comes to the height at which the next canopy opens, if it does before its end.
fn reached<const N: usize>(canopies: &Canopies, step: &Step<N>, f: impl Fn(f64, &[f64; N]) -> [f64; N]) -> Option<f64> {
    let height = canopies.next_height()?;
    let passes = step.y0[HEIGHT] > height && step.y1[HEIGHT] < height;
    let (t, _) = passes.then(|| step.crossing(f, HEIGHT, height)).flatten()?;
    (t > step.t0 && t < step.t1).then_some(t)
}

/// The height's component in both states.
const HEIGHT: usize = 1;

/// m, m/s and rad/s to 1e-4, rad to 1e-5.
const PITCHING: Tolerance<6> = Tolerance { relative: 1e-6, absolute: [1e-4, 1e-4, 1e-4, 1e-4, 1e-5, 1e-4] };
const FALLING: Tolerance<4> = Tolerance { relative: 1e-6, absolute: [1e-4; 4] };
const FIRST_STEP: f64 = 1e-2;
const LONGEST_STEP: f64 = 5.0;
/// Friction jumps where roughness takes over, which a long step in still air may not notice.
const LONGEST_FREE_STEP: f64 = 0.1;
const LONGEST_FLIGHT: f64 = 3600.0;
/// Between two points of the curve, and under the canopy; a sound flight takes some hundreds.
const MOST_STEPS: u32 = 20_000;

fn upright(time: f64, y: &Pitching) -> Moment {
    Moment { tilt: y[4], ..hanging(time, &[y[0], y[1], y[2], y[3]]) }
}

fn hanging(time: f64, y: &Falling) -> Moment {
    Moment { time, height: y[1], drift: y[0], speed: (y[2] * y[2] + y[3] * y[3]).sqrt(), climb: y[3], tilt: 0.0 }
}
