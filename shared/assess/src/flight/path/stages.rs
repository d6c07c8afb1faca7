//! The flight of one stage, or of two one after the other, from the release on.

use super::{path, NotFlown};
use crate::airflow::without_fallen;
use crate::airframe::Airframe;
use crate::flight::air::Air;
use crate::flight::memory::flown_again;
use crate::flight::run::Run;
use crate::flight::sinking::{Cloth, Sinking};
use crate::flight::weighed::{UpperStage, Weighed};
use crate::flight::FlightNumbers;
use crate::stage::thrust;
use finwright_model::{Design, Stage};
use finwright_physics::aerodynamics::Aerodynamics;
use finwright_physics::air::Wind;
use finwright_physics::canopies::Canopy;
use finwright_physics::flight::{Flight, FlightError, FlightPath, Moment, Release};
use finwright_physics::motor::ThrustCurve;
use std::borrow::Cow;

/// The stages that a path follows.
pub(super) struct Before<'a> {
    pub airframe: &'a Airframe,
    pub aerodynamics: Cow<'a, Aerodynamics>,
    pub air: Air,
    pub curve: &'a ThrustCurve,
    pub weighed: Weighed,
    pub nozzle: f64,
    pub run: &'a Run,
}

/// What the air sees of a rocket that has left its rod or rail.
fn left<'a>(design: &Design, whole: &'a Aerodynamics) -> Cow<'a, Aerodynamics> {
    without_fallen(design, whole).map_or(Cow::Borrowed(whole), Cow::Owned)
}

/// They, where all of it is known.
pub(super) fn before<'a>(design: &Design, airframe: &'a Airframe, numbers: &'a FlightNumbers) -> Option<Before<'a>> {
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
pub(super) struct Flown {
    /// Its marked moments.
    pub moments: FlightPath,
    /// The highest point, had nothing opened before.
    pub free: Moment,
    /// When the last motor burns out, s from ignition.
    pub burn_end: f64,
    /// The greatest speed of two stages together, m/s.
    pub boost_speed: Option<f64>,
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
    second(&flight, upper, &curve, aerodynamics, opens).fly_on_with(end, |moment| moments.push(*moment)).ok()?;
    Some(moments)
}

/// What opens, for the whole rocket or for a piece of it.
pub(super) type Under<'a> = Option<(&'a Sinking, &'a [Canopy])>;

/// A rocket of a single stage.
pub(super) fn one_stage(before: &Before, release: Release, opens: Under) -> Result<Flown, NotFlown> {
    let wind = before.air.profile();
    let flight = whole(before, &wind, release, opens);
    let (moments, free) = flown_again(&flight, |flight| flight.fly_and_free()).map_err(why)?;
    Ok(Flown { moments, free, burn_end: before.curve.burn().1, boost_speed: None })
}

/// The booster falls away at its burnout and the upper motor lights at once.
pub(super) fn two_stages(
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
    let aerodynamics = &*left(design, &upper_airflow.aerodynamics);
    let second = second(&whole, upper, &curve, aerodynamics, opens);
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

/// The upper stage's flight on from where the booster of the `whole` falls away.
fn second<'a>(
    whole: &Flight<'a>,
    upper: UpperStage,
    curve: &'a ThrustCurve,
    aerodynamics: &'a Aerodynamics,
    opens: Under<'a>,
) -> Flight<'a> {
    Flight {
        curve,
        mass: upper.burning,
        nozzle: upper.motor.back,
        aerodynamics,
        canopies: opens.map_or(&[], |(_, canopies)| canopies),
        hung: opens.and_then(|(sinking, _)| hung(sinking)),
        ..*whole
    }
}

/// The upper stage's thrust.
pub(super) fn upper_curve(design: &Design, numbers: &FlightNumbers) -> Option<ThrustCurve> {
    let named = design.flights.get(numbers.flight)?.motor.as_ref()?;
    thrust(design, design.motors.get(named.value)?, Stage::Upper)
}

/// The canopies as the flight takes them; `None` where it isn't known when one of them opens.
pub(super) fn canopies(sinking: &Sinking) -> Option<Vec<Canopy>> {
    let one = |cloth: &Cloth| Some(Canopy { drag_area: cloth.drag_area, opens: cloth.opens? });
    sinking.canopies.iter().map(one).collect()
}

fn why(error: FlightError) -> NotFlown {
    match error {
        FlightError::Fins(_) => NotFlown::Fins,
        FlightError::Unsound(_) => NotFlown::Unsound,
        FlightError::NeverLands => NotFlown::NeverLands,
    }
}
