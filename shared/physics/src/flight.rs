//! The flight from the guide to the ground, in the vertical plane of the wind.

use crate::aerodynamics::Aerodynamics;
use crate::air::{Atmosphere, Wind};
use crate::airborne::{Burn, Falling, Pitching, Rocket};
use crate::flight_log::{End, Log};
use crate::motor::{BurningMass, ThrustCurve};
use crate::normal_force::FinLiftError;
use crate::ode::{Solver, Tolerance};
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
    /// What opens, and when; `None` comes down as it flew.
    pub recovery: Option<Recovery>,
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

/// A parachute or streamer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Recovery {
    /// Drag area Cd·S in m², positive.
    pub drag_area: f64,
    /// When it opens.
    pub opens: Opens,
}

/// When a recovery device opens; opening itself takes no time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Opens {
    /// At the highest point.
    AtApogee,
    /// This many seconds after the motor's burn ends.
    AfterBurnout(f64),
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

/// What the flight came to.
#[derive(Debug, Clone, Copy, PartialEq)]
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
    /// When the recovery device opens; `None` where there is none or the ground came first.
    pub opening: Option<Moment>,
    /// The whole state then, from which [`Flight::climb_on`] tells what the flight would have been without it.
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
        let bare = Flight { recovery: None, ..*self };
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
        let opening = match self.recovery.map(|recovery| recovery.opens) {
            Some(Opens::AfterBurnout(delay)) => (burn_end + delay).max(from.time),
            Some(Opens::AtApogee) | None => f64::INFINITY,
        };
        let stop_at_apogee = matches!(self.recovery, Some(Recovery { opens: Opens::AtApogee, .. }));

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
            let end = knot.min(opening);
            let mut steps = 0;
            while at.t < end {
                let step = at
                    .step_to(f, end.min(at.t + LONGEST_FREE_STEP))
                    .map_err(|failed| FlightError::Unsound(failed.0))?;
                log.note_acceleration(&step);
                let ended = log.step(&step, upright, f);
                match ended {
                    Some(End::Ground(landing)) => return Ok((log.path(None, landing), None)),
                    Some(End::Top(t, y)) if until == Until::Top => {
                        return Ok((log.path(None, upright(t, &y)), None));
                    }
                    Some(End::Top(t, y)) if stop_at_apogee => {
                        return Ok((self.come_down(&rocket, &burn, t, y, log)?, None));
                    }
                    Some(End::Top(..)) | None => {}
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
                    return Ok((log.path(None, end), Some(state)));
                }
            }
            if at.t >= opening {
                return Ok((self.come_down(&rocket, &burn, at.t, at.y, log)?, None));
            }
            burn = self.burn_from(at.t);
            solver = Some(at);
        }
        Err(FlightError::NeverLands)
    }

    /// Under the canopy to the ground.
    fn come_down<W: FnMut(&Moment)>(
        &self,
        rocket: &Rocket,
        burn: &Burn,
        time: f64,
        y: Pitching,
        mut log: Log<W>,
    ) -> Result<FlightPath, FlightError> {
        let drag_area = self.recovery.map_or(0.0, |recovery| recovery.drag_area);
        let mass = rocket.mass_before(burn);
        let f = |_: f64, y: &Falling| rocket.falling(mass, drag_area, y);
        let opening = Some(upright(time, &y));
        let [drift, height, across, climb, tilt, rate] = y;
        log.opening_state = Some(State { time, drift, height, across, climb, tilt, rate });
        let y = [y[0], y[1], y[2], y[3]];
        let mut at = Solver::new(f, time, y, FIRST_STEP, FALLING);
        let mut settled = Some(Settled { mass, drag_area, atmosphere: self.atmosphere, wind: self.wind });
        let mut steps = 0;
        while at.t < LONGEST_FLIGHT {
            steps += 1;
            if steps > MOST_STEPS {
                return Err(FlightError::Unsound(at.t));
            }
            let step = at.step_to(f, at.t + LONGEST_STEP).map_err(|failed| FlightError::Unsound(failed.0))?;
            let ended = log.step(&step, hanging, f);
            if let Some(End::Ground(landing)) = ended {
                return Ok(log.path(opening, landing));
            }
            if let Some(lower) = settled.as_ref().and_then(|settled| settled.skip(at.t, &at.y)) {
                log.skip_to(hanging(lower.time, &lower.state));
                at.t = lower.time;
                at.y = lower.state;
                at.restart(f);
                settled = None;
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
