//! The flight after release, to the highest point and back to the ground. It takes some hundred microseconds, so it is
//! flown once for an assessment, when a rule or a reader first asks, and not while an assessment is repeated to settle.

mod descent;
mod stages;

use super::FlightNumbers;
use crate::airframe::Airframe;
use crate::assumed::Assumed;
use descent::descent;
use finwright_model::Design;
use finwright_physics::descent::kinetic_energy;
use finwright_physics::flight::{FlightPath, Moment, Release};
use stages::{before, canopies, one_stage, two_stages, upper_curve, Before, Flown, Under};

pub use descent::{Descent, Opening};
pub(crate) use stages::before_release;
pub use stages::course;

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
    let under = |opens: Under| match &lit {
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
