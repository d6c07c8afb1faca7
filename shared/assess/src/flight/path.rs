//! The flight after release, to the highest point and back to the ground. It takes some hundred microseconds, so it is
//! flown once for an assessment, when a rule or a reader first asks, and not while an assessment is repeated to settle.

use super::air::Air;
use super::memory::flown_again;
use super::run::Run;
use super::sinking::{Cloth, Sinking};
use super::weighed::{UpperStage, Weighed};
use super::FlightNumbers;
use crate::airflow::without_fallen;
use crate::airframe::Airframe;
use crate::assumed::Assumed;
use crate::stage::thrust;
use finwright_model::{Design, PartId, Stage};
use finwright_physics::aerodynamics::Aerodynamics;
use finwright_physics::air::Wind;
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::descent::{descent_speed, kinetic_energy};
use finwright_physics::flight::{Flight, FlightError, FlightPath, Moment, Opened, Release};
use finwright_physics::motor::ThrustCurve;
use std::borrow::Cow;

/// A flight from its release to the ground. SI units; angles in rad, positive downwind.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// Where it starts. The guide leans into the wind: see [`Path::leans`].
    pub release: Release,
    /// Its marked moments; heights above the resting place, drift downwind of it. The opening and the landing say
    /// something about the rocket only where there is a descent.
    pub moments: FlightPath,
    /// The greatest Mach number.
    pub top_mach: f64,
    /// The greatest acceleration, along the guide or after it, m/s2.
    pub top_acceleration: f64,
    /// How far the nose has turned into the wind between release and burnout; gravity's share is in it. `None` where
    /// the burn ends on the guide.
    pub weathercock: Option<f64>,
    /// Time from burnout to the highest point, s; negative where that comes before burnout. What opens on the way up
    /// ends it early.
    pub coast: f64,
    /// The same, had nothing opened before the highest point: what a motor's delay should be, s.
    pub free_coast: f64,
    /// The highest point, had nothing opened before.
    pub free_apogee: Moment,
    /// The greatest speed of the two stages together, m/s, where there are two.
    pub boost_speed: Option<f64>,
    /// Coming down under a parachute or streamer; `None` where nothing opens, or when isn't known.
    pub descent: Option<Descent>,
    /// Where pieces come down that come down by themselves, in the order of [`FlightNumbers::apart`].
    pub apart: Vec<Landed>,
    /// What was taken as a default.
    pub assumed: Vec<Assumed>,
}

/// A piece on the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Landed {
    /// The moment; its speed is that over ground.
    pub moment: Moment,
    /// Its energy then, J.
    pub energy: f64,
}

/// Why a flight isn't followed to the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotFlown {
    /// Its mass, motor, shape or air isn't known.
    Unknown,
    /// It doesn't leave its rod or rail.
    StaysOnGuide,
    /// It no longer climbs when its booster is burnt out.
    BoosterFalls,
    /// A set of fewer than three fins.
    Fins,
    /// Faster than the method reaches: this Mach number.
    TooFast(f64),
    /// Its motion can't be followed.
    Unsound,
    /// It isn't down within an hour.
    NeverLands,
}

/// Coming down.
#[derive(Clone, Debug, PartialEq)]
pub struct Descent {
    /// Under what at the ground, and how fast.
    pub sinking: Sinking,
    /// Time from burnout to the motor's charge, s, where something waits for it.
    pub delay: Option<f64>,
    /// What opens, in the order of time; none where the ground comes first.
    pub openings: Vec<Opening>,
    /// Speed over ground at landing, m/s.
    pub landing_speed: f64,
    /// Energy at landing of the rocket as a whole, J.
    pub landing_energy: f64,
}

/// A moment at which something opens.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// The parts that open then.
    pub parts: Vec<PartId>,
    /// The moment.
    pub moment: Moment,
    /// Speed through the air, m/s.
    pub air_speed: f64,
    /// The air's pull on what opens, N: its drag alone, without the jerk.
    pub pull: f64,
    /// The drag area of all that are open from then on, m2.
    pub drag_area: f64,
    /// Steady speed under them in the air at the ground, m/s.
    pub rate: f64,
}

impl Descent {
    /// Speed through the air at the first opening, m/s; `None` where the ground comes first.
    pub fn opening_speed(&self) -> Option<f64> {
        self.openings.first().map(|opening| opening.air_speed)
    }

    /// The opening that waits for the motor's charge, where there is one and the ground doesn't come first.
    pub fn by_delay(&self) -> Option<&Opening> {
        let waits = |cloth: &&Cloth| matches!(cloth.opens, Some(Opens::AfterBurnout(_)));
        let waiting: Vec<PartId> = self.sinking.canopies.iter().filter(waits).map(|cloth| cloth.part).collect();
        self.openings.iter().find(|opening| opening.parts.iter().any(|part| waiting.contains(part)))
    }
}

/// Mach number above which the fins' compressibility factor isn't used:
/// [`finwright_physics::normal_force::FinSet::lift`].
const FIN_MACH: f64 = 0.8;
/// Mach number above which the drag build-up lacks the nose's wave drag.
pub const MOST_MACH: f64 = 0.9;

/// A flight to the ground, flown when first asked for, or why it isn't.
///
/// The rocket is rigid and moves in the plane of the wind: [`finwright_physics::flight`]. The wind grows with height by
/// the power law for open land, from the site's value at 2 m.
pub fn path<'n>(design: &Design, airframe: &Airframe, numbers: &'n FlightNumbers) -> Result<&'n Path, NotFlown> {
    numbers.path.get_or_init(|| fly(design, airframe, numbers)).as_ref().map_err(|why| *why)
}

/// The stages that a path follows.
struct Before<'a> {
    airframe: &'a Airframe,
    aerodynamics: Cow<'a, Aerodynamics>,
    air: Air,
    curve: &'a ThrustCurve,
    weighed: Weighed,
    nozzle: f64,
    run: &'a Run,
}

/// What the air sees of a rocket that has left its rod or rail.
fn left<'a>(design: &Design, whole: &'a Aerodynamics) -> Cow<'a, Aerodynamics> {
    without_fallen(design, whole).map_or(Cow::Borrowed(whole), Cow::Owned)
}

fn before<'a>(design: &Design, airframe: &'a Airframe, numbers: &'a FlightNumbers) -> Option<Before<'a>> {
    let aerodynamics = left(design, &airframe.airflow.as_ref()?.aerodynamics);
    Some(Before {
        airframe,
        aerodynamics,
        air: numbers.air?,
        curve: numbers.curve.as_ref()?,
        weighed: numbers.weighed?,
        nozzle: numbers.motor()?.back,
        run: numbers.run.as_ref()?,
    })
}

/// Shows the flight of a single stage as it begins at its release, with nothing that opens, where it's known.
pub(crate) fn before_release(
    design: &Design,
    airframe: &Airframe,
    numbers: &FlightNumbers,
    show: impl FnOnce(&Flight),
) -> Result<(), NotFlown> {
    let release = path(design, airframe, numbers)?.release;
    let before = before(design, airframe, numbers).ok_or(NotFlown::Unknown)?;
    let wind = before.air.profile();
    show(&whole(&before, &wind, release, None));
    Ok(())
}

/// A flight from the release to the ground.
struct Flown {
    moments: FlightPath,
    /// The highest point, had nothing opened before.
    free: Moment,
    /// When the last motor burns out, s from ignition.
    burn_end: f64,
    /// The greatest speed of two stages together, m/s.
    boost_speed: Option<f64>,
}

fn fly(design: &Design, airframe: &Airframe, numbers: &FlightNumbers) -> Result<Path, NotFlown> {
    let before = before(design, airframe, numbers).ok_or(NotFlown::Unknown)?;
    let (run, air) = (before.run, before.air);
    let last = run.last().ok_or(NotFlown::StaysOnGuide)?;
    let mut assumed = assumed_of_pad(design, numbers, &before);
    // Positive is downwind. A lean across the wind is out of the plane in which the flight is followed. The tip-off's
    // positive sense is downwind, as the flight's.
    let (tilt, rate) = (-run.inputs.lean.into_wind, numbers.release.map_or(0.0, |release| release.tip_off.rate));
    let height = last.travel * run.inputs.tilt.cos();
    let release = Release { time: last.time, height, speed: last.speed, tilt, rate };
    let recovery = numbers.sinking.as_ref().and_then(|sinking| Some((sinking, canopies(sinking)?)));
    let lit = match before.weighed.upper {
        Some(upper) => Some((upper, upper_curve(design, numbers).ok_or(NotFlown::Unknown)?)),
        None => None,
    };
    assumed.extend(lit.as_ref().map(|_| Assumed::LightsAtOnce));
    let under = |opens: Option<(&Sinking, &[Canopy])>| match &lit {
        None => one_stage(&before, release, opens),
        Some((upper, lit)) => two_stages(design, &before, release, opens, (*upper, lit)),
    };
    let Flown { moments, free, burn_end, boost_speed } =
        under(recovery.as_ref().map(|(sinking, canopies)| (*sinking, canopies.as_slice())))?;
    let apart = numbers.apart.iter().filter_map(|piece| Some((piece, canopies(piece)?)));
    let apart = apart
        .map(|(piece, canopies)| {
            let moment = under(Some((piece, &canopies)))?.moments.landing;
            Ok(Landed { moment, energy: kinetic_energy(piece.mass, moment.speed) })
        })
        .collect::<Result<Vec<Landed>, NotFlown>>()?;
    let top_mach = moments.fastest.speed / air.atmosphere.at(moments.fastest.height).sound_speed;
    if top_mach > MOST_MACH {
        return Err(NotFlown::TooFast(top_mach));
    }
    if top_mach > FIN_MACH {
        assumed.push(Assumed::LiftHeldAbove(FIN_MACH));
    }
    Ok(Path {
        release,
        top_mach,
        top_acceleration: moments.top_acceleration.max(run.top_acceleration),
        weathercock: moments.burnout.map(|burnout| release.tilt - burnout.tilt),
        coast: moments.apogee.time - burn_end,
        free_coast: free.time - burn_end,
        free_apogee: free,
        boost_speed,
        descent: recovery.map(|(sinking, canopies)| descent(sinking, &canopies, air.density, &moments)),
        moments,
        apart,
        assumed,
    })
}

/// The mass that hangs, where it's a piece of the rocket.
fn hung(sinking: &Sinking) -> Option<f64> {
    (!sinking.bodies.is_empty()).then_some(sinking.mass)
}

/// The course of a flight from its release to the ground, at the end of every step of its integration: what a picture
/// draws as a line. `None` where there is no [`path`](fn@path).
pub fn course(design: &Design, airframe: &Airframe, numbers: &FlightNumbers) -> Option<Vec<Moment>> {
    let flown = path(design, airframe, numbers).ok()?;
    let before = before(design, airframe, numbers)?;
    let wind = before.air.profile();
    let canopies = numbers.sinking.as_ref().and_then(canopies).unwrap_or_default();
    let opens = numbers.sinking.as_ref().map(|sinking| (sinking, canopies.as_slice()));
    let mut moments = Vec::new();
    let Some(upper) = before.weighed.upper else {
        whole(&before, &wind, flown.release, opens).fly_with(|moment| moments.push(*moment)).ok()?;
        return Some(moments);
    };
    let flight = whole(&before, &wind, flown.release, None);
    let end = flight.boost_with(|moment| moments.push(*moment)).ok()??;
    let curve = upper_curve(design, numbers)?.delayed(end.time)?;
    let aerodynamics = &*left(design, &before.airframe.upper_airflow.as_ref()?.aerodynamics);
    let (mass, nozzle) = (upper.burning, upper.motor.back);
    let hung = opens.and_then(|(sinking, _)| hung(sinking));
    let second = Flight { curve: &curve, mass, nozzle, aerodynamics, canopies: &canopies, hung, ..flight };
    second.fly_on_with(end, |moment| moments.push(*moment)).ok()?;
    Some(moments)
}

/// What is taken about the pad's lean and the wind on the way up.
fn assumed_of_pad(design: &Design, numbers: &FlightNumbers, before: &Before) -> Vec<Assumed> {
    let (lean, air) = (before.run.inputs.lean, before.air);
    let pad = design.flights.get(numbers.flight).and_then(|flight| design.pad_of(flight));
    let unsaid = lean.into_wind > 0.0 && air.wind > 0.0 && pad.is_some_and(|pad| pad.leans.is_none());
    let mut assumed = Vec::new();
    assumed.extend(unsaid.then_some(Assumed::LeansIntoWind));
    assumed.extend((lean.across != 0.0).then_some(Assumed::NoLeanAcross));
    assumed.extend((air.wind > 0.0).then_some(Assumed::WindGrows(air.read_at)));
    assumed
}

/// What opens, for the whole rocket or for a piece of it.
type Under<'a> = Option<(&'a Sinking, &'a [Canopy])>;

fn one_stage(before: &Before, release: Release, opens: Under) -> Result<Flown, NotFlown> {
    let wind = before.air.profile();
    let flight = whole(before, &wind, release, opens);
    let (moments, free) = flown_again(&flight, |flight| flight.fly_and_free()).map_err(why)?;
    Ok(Flown { moments, free, burn_end: before.curve.burn().1, boost_speed: None })
}

/// The booster falls away at its burnout and the upper motor lights at once.
fn two_stages(
    design: &Design,
    before: &Before,
    release: Release,
    opens: Under,
    (upper, lit): (UpperStage, &ThrustCurve),
) -> Result<Flown, NotFlown> {
    let upper_airflow = before.airframe.upper_airflow.as_ref().ok_or(NotFlown::Unknown)?;
    let wind = before.air.profile();
    let whole = whole(before, &wind, release, None);
    let boost = whole.boost().map_err(why)?.filter(|boost| boost.end.climb > 0.0).ok_or(NotFlown::BoosterFalls)?;
    let curve = lit.delayed(boost.end.time).ok_or(NotFlown::Unknown)?;
    let second = Flight {
        curve: &curve,
        mass: upper.burning,
        nozzle: upper.motor.back,
        aerodynamics: &left(design, &upper_airflow.aerodynamics),
        canopies: opens.map_or(&[], |(_, canopies)| canopies),
        hung: opens.and_then(|(sinking, _)| hung(sinking)),
        ..whole
    };
    let (mut moments, free) = second.fly_on_and_free(boost.end).map_err(why)?;
    if boost.fastest.speed > moments.fastest.speed {
        moments.fastest = boost.fastest;
    }
    moments.top_acceleration = moments.top_acceleration.max(boost.top_acceleration);
    Ok(Flown { moments, free, burn_end: curve.burn().1, boost_speed: Some(boost.fastest.speed) })
}

fn whole<'a>(before: &'a Before, wind: &'a Wind, release: Release, opens: Under<'a>) -> Flight<'a> {
    Flight {
        curve: before.curve,
        mass: before.weighed.burning(),
        nozzle: before.nozzle,
        aerodynamics: &before.aerodynamics,
        atmosphere: &before.air.atmosphere,
        wind,
        release,
        canopies: opens.map_or(&[], |(_, canopies)| canopies),
        hung: opens.and_then(|(sinking, _)| hung(sinking)),
    }
}

fn upper_curve(design: &Design, numbers: &FlightNumbers) -> Option<ThrustCurve> {
    let named = design.flights.get(numbers.flight)?.motor.as_ref()?;
    thrust(design, design.motors.get(named.value)?, Stage::Upper)
}

/// The canopies as the flight takes them; `None` where it isn't known when one of them opens.
fn canopies(sinking: &Sinking) -> Option<Vec<Canopy>> {
    let one = |cloth: &Cloth| Some(Canopy { drag_area: cloth.drag_area, opens: cloth.opens? });
    sinking.canopies.iter().map(one).collect()
}

fn descent(sinking: &Sinking, canopies: &[Canopy], density: f64, moments: &FlightPath) -> Descent {
    Descent {
        delay: canopies.iter().find_map(|canopy| match canopy.opens {
            Opens::AfterBurnout(delay) => Some(delay),
            _ => None,
        }),
        openings: openings(sinking, density, moments),
        landing_speed: moments.landing.speed,
        landing_energy: kinetic_energy(sinking.mass, moments.landing.speed),
        sinking: sinking.clone(),
    }
}

fn openings(sinking: &Sinking, density: f64, moments: &FlightPath) -> Vec<Opening> {
    let mut before: Vec<PartId> = Vec::new();
    let each = moments.openings.iter().map(|opened| {
        let open = sinking.canopies.iter().zip(&opened.open).filter(|(_, open)| **open).map(|(cloth, _)| cloth.part);
        let parts: Vec<PartId> = open.filter(|part| !before.contains(part)).collect();
        before.extend(&parts);
        let rate = descent_speed(sinking.mass, density, opened.drag_area);
        let own = sinking.canopies.iter().filter(|cloth| parts.contains(&cloth.part));
        let pull = 0.5 * density * opened.air_speed.powi(2) * own.map(|cloth| cloth.drag_area).sum::<f64>();
        let Opened { moment, air_speed, drag_area, .. } = *opened;
        Opening { parts, moment, air_speed, pull, drag_area, rate }
    });
    each.collect()
}

impl Path {
    /// How far the guide leans into the wind, rad.
    pub fn leans(&self) -> f64 {
        -self.release.tilt
    }

    /// The greatest acceleration over gravity's.
    pub fn times_gravity(&self) -> f64 {
        self.top_acceleration / finwright_physics::air::G0
    }

    /// Time from ignition to landing, s, where something opens on the way down.
    pub fn time_of_flight(&self) -> Option<f64> {
        self.descent.as_ref().map(|_| self.moments.landing.time)
    }

    /// Drift downwind at landing, m, where something opens on the way down.
    pub fn drift(&self) -> Option<f64> {
        self.descent.as_ref().map(|_| self.moments.landing.drift)
    }
}

fn why(error: FlightError) -> NotFlown {
    match error {
        FlightError::Fins(_) => NotFlown::Fins,
        FlightError::Unsound(_) => NotFlown::Unsound,
        FlightError::NeverLands => NotFlown::NeverLands,
    }
}
