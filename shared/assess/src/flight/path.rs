//! The flight after release, to the highest point and back to the ground. It takes some hundred microseconds, so it is
//! flown once for an assessment, when a rule or a reader first asks, and not while an assessment is repeated to settle.

use crate::memory::flown_again;
use crate::sinking::Cloth;
use crate::weigh::thrust;
use crate::{Assessment, FlightNumbers, Sinking};
use finwright_model::{Design, PartId, Stage};
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::descent::{descent_speed, kinetic_energy};
use finwright_physics::flight::{Flight, FlightError, FlightPath, Moment, Opened, Release};

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
    /// Time from burnout to the highest point, s; negative where that comes before burnout. What opens on the way up ends
    /// it early.
    pub coast: f64,
    /// The same, had nothing opened before the highest point: what a motor's delay should be, s.
    pub free_coast: f64,
    /// The highest point, had nothing opened before.
    pub free_apogee: Moment,
    /// The greatest speed of the two stages together, m/s, where there are two.
    pub boost_speed: Option<f64>,
    /// Coming down under a parachute or streamer; `None` where nothing opens, or when isn't known.
    pub descent: Option<Descent>,
    /// What was taken as a default, in words.
    pub defaults: Vec<String>,
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

/// Mach number above which the fins' compressibility factor isn't used: [`finwright_physics::normal_force::FinSet::lift`].
const FIN_MACH: f64 = 0.8;
/// Mach number above which the drag build-up lacks the nose's wave drag.
pub const MOST_MACH: f64 = 0.9;

/// A flight to the ground, flown when first asked for, or why it isn't.
///
/// The rocket is rigid and moves in the plane of the wind: [`finwright_physics::flight`]. The wind grows with height by
/// the power law for open land, from the site's value at 2 m.
pub fn path<'n>(design: &Design, assessment: &Assessment, numbers: &'n FlightNumbers) -> Result<&'n Path, NotFlown> {
    numbers.path.get_or_init(|| fly(design, assessment, numbers)).as_ref().map_err(|why| *why)
}

fn fly(design: &Design, assessment: &Assessment, numbers: &FlightNumbers) -> Result<Path, NotFlown> {
    let known = (|| {
        let airflow = assessment.airflow.as_ref()?;
        Some((airflow, numbers.burning()?, numbers.curve.as_ref()?, numbers.air?, numbers.motor?))
    })();
    let (airflow, mass, curve, air, motor) = known.ok_or(NotFlown::Unknown)?;
    let run = numbers.run.as_ref().ok_or(NotFlown::Unknown)?;
    let last = run.last().ok_or(NotFlown::StaysOnGuide)?;
    let mut defaults = Vec::new();
    // Positive is downwind. A lean across the wind is out of the plane in which the flight is followed.
    let lean = run.inputs.lean;
    let tilt = -lean.into_wind;
    let pad = design.flights.get(numbers.flight).and_then(|flight| design.pad_of(flight));
    if tilt < 0.0 && air.wind > 0.0 && pad.is_some_and(|pad| pad.leans.is_none()) {
        defaults.push("the pad leans into the wind".to_string());
    }
    if lean.across != 0.0 {
        defaults.push("the flight is followed as if the pad didn't lean across the wind".to_string());
    }
    if air.wind > 0.0 {
        let read = finwright_units::show::length(air.read_at);
        defaults.push(format!("the wind is read {read} up and grows with height as over open land"));
    }
    // The tip-off's positive sense is downwind, as the flight's.
    let rate = numbers.release.map_or(0.0, |r| r.tip_off.rate);
    let release =
        Release { time: last.time, height: last.travel * run.inputs.tilt.cos(), speed: last.speed, tilt, rate };
    let recovery = numbers.sinking.as_ref().and_then(|sinking| Some((sinking, canopies(sinking)?)));
    let wind = air.profile();
    let opens = recovery.as_ref().map_or(&[][..], |(_, canopies)| canopies);
    let whole = Flight {
        curve,
        mass,
        nozzle: motor.back,
        aerodynamics: &airflow.aerodynamics,
        atmosphere: &air.atmosphere,
        wind: &wind,
        release,
        canopies: if numbers.upper.is_none() { opens } else { &[] },
    };
    let (moments, free, burn_end, boost_speed) = match (&numbers.upper, &assessment.upper_airflow) {
        (None, _) => {
            let fly = |whole: &Flight| {
                let flown = whole.fly()?;
                let free = undisturbed(&flown, whole);
                Ok((flown, free))
            };
            let (flown, free) = flown_again(&whole, fly).map_err(why)?;
            (flown, free, curve.burn().1, None)
        }
        (Some(upper), Some(upper_airflow)) => {
            // The booster falls away at its burnout and the upper motor lights at once.
            let boost = whole.boost().map_err(why)?;
            let Some(boost) = boost.filter(|boost| boost.end.climb > 0.0) else {
                return Err(NotFlown::BoosterFalls);
            };
            let named = design.flights.get(numbers.flight).and_then(|f| f.motor.as_ref());
            let lit = named.and_then(|m| design.motors.get(m.value)).and_then(|m| thrust(design, m, Stage::Upper));
            let Some(curve) = lit.and_then(|curve| curve.delayed(boost.end.time)) else {
                return Err(NotFlown::Unknown);
            };
            let second = Flight {
                curve: &curve,
                mass: upper.burning,
                nozzle: upper.motor.back,
                aerodynamics: &upper_airflow.aerodynamics,
                canopies: opens,
                ..whole
            };
            let mut flown = second.fly_on(boost.end).map_err(why)?;
            let free = undisturbed(&flown, &second);
            if boost.fastest.speed > flown.fastest.speed {
                flown.fastest = boost.fastest;
            }
            flown.top_acceleration = flown.top_acceleration.max(boost.top_acceleration);
            defaults.push("the upper motor lights at the booster's burnout".to_string());
            (flown, free, curve.burn().1, Some(boost.fastest.speed))
        }
        (Some(_), None) => return Err(NotFlown::Unknown),
    };
    let top_mach = moments.fastest.speed / air.atmosphere.at(moments.fastest.height).sound_speed;
    if top_mach > MOST_MACH {
        return Err(NotFlown::TooFast(top_mach));
    }
    if top_mach > FIN_MACH {
        defaults.push(format!("above Mach {FIN_MACH} the fins' lift is held at its value there"));
    }
    let on_guide = run.inputs_on(curve).greatest_acceleration().unwrap_or(0.0);
    let descent = recovery.map(|(sinking, canopies)| Descent {
        delay: canopies.iter().find_map(|canopy| match canopy.opens {
            Opens::AfterBurnout(delay) => Some(delay),
            _ => None,
        }),
        openings: openings(sinking, air.density, &moments),
        landing_speed: moments.landing.speed,
        landing_energy: kinetic_energy(sinking.mass, moments.landing.speed),
        sinking: sinking.clone(),
    });
    Ok(Path {
        release,
        top_mach,
        top_acceleration: moments.top_acceleration.max(on_guide),
        weathercock: moments.burnout.map(|m| release.tilt - m.tilt),
        coast: moments.apogee.time - burn_end,
        free_coast: free.time - burn_end,
        free_apogee: free,
        boost_speed,
        moments,
        descent,
        defaults,
    })
}

/// Where a flight would be highest had nothing opened on the way up: flown on from where something did.
fn undisturbed(flown: &FlightPath, flight: &Flight) -> Moment {
    let opened_climbing = flown.opening_state.filter(|state| state.climb > 0.0);
    let free = opened_climbing.and_then(|state| flight.climb_on(state).ok());
    free.unwrap_or(flown.apogee)
}

/// The canopies as the flight takes them; `None` where it isn't known when one of them opens.
fn canopies(sinking: &Sinking) -> Option<Vec<Canopy>> {
    let one = |cloth: &Cloth| Some(Canopy { drag_area: cloth.drag_area, opens: cloth.opens? });
    sinking.canopies.iter().map(one).collect()
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

/// The delay of the motor that burns last, s.
pub(crate) fn delay(design: &Design, numbers: &FlightNumbers) -> Option<f64> {
    let motor = design.flights.get(numbers.flight)?.motor.as_ref()?.value;
    Some(design.motors.get(motor)?.delay.as_ref()?.si)
}

fn why(error: FlightError) -> NotFlown {
    match error {
        FlightError::Fins(_) => NotFlown::Fins,
        FlightError::Unsound(_) => NotFlown::Unsound,
        FlightError::NeverLands => NotFlown::NeverLands,
    }
}
