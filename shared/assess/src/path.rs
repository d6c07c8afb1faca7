//! The flight after release, to the highest point and back to the ground. It takes some hundred microseconds, so it is
//! flown once for an assessment, when a rule or a reader first asks, and not while an assessment is repeated to settle.

use crate::memory::flown_again;
use crate::weigh::thrust;
use crate::{Assessment, FlightNumbers, Unknown};
use finwright_model::{Design, PartId, PartKind, Stage};
use finwright_physics::air::Wind;
use finwright_physics::descent::{descent_speed, kinetic_energy, round_area};
use finwright_physics::flight::{Flight, FlightError, FlightPath, Opens, Recovery, Release};

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
    /// Time from burnout to the highest point, s; negative where that comes before burnout.
    pub coast: f64,
    /// The same, had nothing opened before the highest point: what a motor's delay should be, s.
    pub free_coast: f64,
    /// The greatest speed of the two stages together, m/s, where there are two.
    pub boost_speed: Option<f64>,
    /// Coming down under a parachute or streamer.
    pub descent: Option<Descent>,
    /// What was taken as a default, in words.
    pub defaults: Vec<String>,
    /// What couldn't be computed and what it needs.
    pub unknown: Vec<Unknown>,
}

/// Coming down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Descent {
    /// The part that opens: the one with the largest drag area.
    pub part: PartId,
    /// Its drag area, m2.
    pub drag_area: f64,
    /// Its drag coefficient, given or usual.
    pub drag: f64,
    /// The mass that comes down: that of the upper stage, where there are two, its motor burnt out, kg.
    pub mass: f64,
    /// Time from burnout to its opening, s.
    pub delay: f64,
    /// Speed over ground when it opens, m/s; `None` where the ground comes first.
    pub opening_speed: Option<f64>,
    /// Steady speed of the descent in the air at the ground, m/s.
    pub rate: f64,
    /// Energy of the rocket as a whole at that speed, J: what rules of the trade count, without the wind.
    pub sinking_energy: f64,
    /// Speed over ground at landing, m/s.
    pub landing_speed: f64,
    /// Energy at landing of the rocket as a whole, J.
    pub landing_energy: f64,
}

/// Mach number above which the fins' compressibility factor isn't used: [`finwright_physics::normal_force::FinSet::lift`].
const FIN_MACH: f64 = 0.8;
/// Mach number above which the drag build-up lacks the nose's wave drag.
const MOST_MACH: f64 = 0.9;

/// A flight to the ground, flown when first asked for; an `Unknown` where something that it needs isn't known, or where the method doesn't reach.
///
/// The rocket is rigid and moves in the plane of the wind: [`finwright_physics::flight`]. The wind grows with height by
/// the power law for open land, from the site's value at 2 m.
pub fn path<'n>(design: &Design, assessment: &Assessment, numbers: &'n FlightNumbers) -> Result<&'n Path, &'n Unknown> {
    numbers.path.get_or_init(|| fly(design, assessment, numbers)).as_ref()
}

fn fly(design: &Design, assessment: &Assessment, numbers: &FlightNumbers) -> Result<Path, Unknown> {
    let lacks = |needs: &str| Unknown {
        what: format!("the flight of {} after release", numbers.name(design)),
        needs: needs.to_string(),
        place: design.flights.get(numbers.flight).map(|f| f.header).unwrap_or_default(),
    };
    let known = (|| {
        let airflow = assessment.airflow.as_ref()?;
        Some((airflow, numbers.burning()?, numbers.curve.as_ref()?, numbers.air?, numbers.motor?))
    })();
    let Some((airflow, mass, curve, air, motor)) = known else {
        return Err(lacks("its mass, motor and shape to be known"));
    };
    let Some((run, last)) = numbers.run.as_ref().and_then(|run| Some((run, run.last()?))) else {
        return Err(lacks("a run that leaves its rod or rail"));
    };
    let mut defaults = Vec::new();
    let mut unknown = Vec::new();
    let tilt = -run.inputs.tilt;
    if tilt < 0.0 && air.wind > 0.0 {
        defaults.push("the pad leans into the wind".to_string());
    }
    if air.wind > 0.0 {
        defaults.push("the wind is read 2 m up and grows with height as over open land".to_string());
    }
    // The tip-off's positive sense is downwind, as the flight's.
    let rate = numbers.release.map_or(0.0, |r| r.tip_off.rate);
    let release = Release { time: last.time, height: last.travel * tilt.cos(), speed: last.speed, tilt, rate };
    let canopy = canopy(design, &mut defaults);
    let delay = design
        .flights
        .get(numbers.flight)
        .and_then(|f| f.motor.as_ref())
        .and_then(|m| design.motors.get(m.value))
        .and_then(|m| m.delay.as_ref())
        .map(|d| d.si);
    let mut descent_lacks = |needs: &str| {
        unknown.push(Unknown { what: "the descent".to_string(), ..lacks(needs) });
    };
    let recovery = match (canopy, delay) {
        (Some(canopy), Some(delay)) => Some((canopy, delay)),
        (None, _) => {
            descent_lacks("a `parachute` or a `streamer` with its measures");
            None
        }
        (_, None) => {
            descent_lacks("the motor's `delay`");
            None
        }
    };
    let wind = Wind::over_open_land(air.wind, air.gust);
    let recovery_of =
        recovery.map(|(canopy, delay)| Recovery { drag_area: canopy.drag_area, opens: Opens::AfterBurnout(delay) });
    let whole = Flight {
        curve,
        mass,
        nozzle: motor.back,
        aerodynamics: &airflow.aerodynamics,
        atmosphere: &air.atmosphere,
        wind: &wind,
        release,
        recovery: recovery_of.filter(|_| numbers.upper.is_none()),
    };
    let (moments, free, mass, burn_end, boost_speed) = match (&numbers.upper, &assessment.upper_airflow) {
        (None, _) => {
            let fly = |whole: &Flight| {
                let flown = whole.fly()?;
                Ok((flown, undisturbed(&flown, whole)))
            };
            let (flown, free) = flown_again(&whole, fly).map_err(|error| lacks(why(error)))?;
            (flown, free, mass, curve.burn().1, None)
        }
        (Some(upper), Some(upper_airflow)) => {
            // The booster falls away at its burnout and the upper motor lights at once.
            let boost = whole.boost().map_err(|error| lacks(why(error)))?;
            let Some(boost) = boost.filter(|boost| boost.end.climb > 0.0) else {
                return Err(lacks("a booster that still climbs at its burnout"));
            };
            let named = design.flights.get(numbers.flight).and_then(|f| f.motor.as_ref());
            let lit = named.and_then(|m| design.motors.get(m.value)).and_then(|m| thrust(design, m, Stage::Upper));
            let Some(curve) = lit.and_then(|curve| curve.delayed(boost.end.time)) else {
                return Err(lacks("the upper motor's thrust curve"));
            };
            let second = Flight {
                curve: &curve,
                mass: upper.burning,
                nozzle: upper.motor.back,
                aerodynamics: &upper_airflow.aerodynamics,
                recovery: recovery_of,
                ..whole
            };
            let mut flown = second.fly_on(boost.end).map_err(|error| lacks(why(error)))?;
            let free = undisturbed(&flown, &second);
            if boost.fastest.speed > flown.fastest.speed {
                flown.fastest = boost.fastest;
            }
            flown.top_acceleration = flown.top_acceleration.max(boost.top_acceleration);
            defaults.push("the upper motor lights at the booster's burnout".to_string());
            (flown, free, upper.burning, curve.burn().1, Some(boost.fastest.speed))
        }
        (Some(_), None) => return Err(lacks("the upper stage's shape")),
    };
    let top_mach = moments.fastest.speed / air.atmosphere.at(moments.fastest.height).sound_speed;
    if top_mach > MOST_MACH {
        let beyond = format!("a method for about Mach {top_mach:.1}: this one ends at Mach {MOST_MACH}");
        return Err(lacks(&beyond));
    }
    if top_mach > FIN_MACH {
        defaults.push(format!("above Mach {FIN_MACH} the fins' lift is held at its value there"));
    }
    let on_guide = run.inputs_on(curve).greatest_acceleration().unwrap_or(0.0);
    let burnt_mass = mass.dry.mass;
    let descent = recovery.map(|(Canopy { part, drag_area, drag }, delay)| {
        let rate = descent_speed(burnt_mass, air.density, drag_area);
        Descent {
            part,
            drag_area,
            drag,
            mass: burnt_mass,
            delay,
            opening_speed: moments.opening.map(|m| m.speed),
            rate,
            sinking_energy: kinetic_energy(burnt_mass, rate),
            landing_speed: moments.landing.speed,
            landing_energy: kinetic_energy(burnt_mass, moments.landing.speed),
        }
    });
    Ok(Path {
        release,
        top_mach,
        top_acceleration: moments.top_acceleration.max(on_guide),
        weathercock: moments.burnout.map(|m| release.tilt - m.tilt),
        coast: moments.apogee.time - burn_end,
        free_coast: free - burn_end,
        boost_speed,
        moments,
        descent,
        defaults,
        unknown,
    })
}

/// When a flight would be at its highest point had nothing opened on the way up, s: flown on from where something did.
fn undisturbed(flown: &FlightPath, flight: &Flight) -> f64 {
    let opened_climbing = flown.opening_state.filter(|state| state.climb > 0.0);
    let free = opened_climbing.and_then(|state| flight.climb_on(state).ok());
    free.unwrap_or(flown.apogee).time
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
        self.descent.map(|_| self.moments.landing.time)
    }

    /// Drift downwind at landing, m, where something opens on the way down.
    pub fn drift(&self) -> Option<f64> {
        self.descent.map(|_| self.moments.landing.drift)
    }
}

/// Drag coefficients where the file gives none, by the vocabulary: a flat round canopy's on its cloth (Knacke, Parachute
/// Recovery Systems Design Manual, from memory), a streamer's on one side (common practice, no source).
const CANOPY_CD: f64 = 0.75;
const STREAMER_CD: f64 = 0.3;

/// What opens.
#[derive(Clone, Copy)]
struct Canopy {
    part: PartId,
    drag_area: f64,
    drag: f64,
}

/// The part with the largest drag area.
fn canopy(design: &Design, defaults: &mut Vec<String>) -> Option<Canopy> {
    let mut largest: Option<(Canopy, Option<String>)> = None;
    for (part, about) in design.parts.iter().enumerate() {
        let (area, drag, usual) = match &about.kind {
            PartKind::Parachute { diameter: Some(diameter), drag } => (round_area(diameter.si), drag, CANOPY_CD),
            PartKind::Streamer { length: Some(length), width: Some(width), drag } => {
                (length.si * width.si, drag, STREAMER_CD)
            }
            _ => continue,
        };
        if !about.broken.is_empty() {
            continue;
        }
        let default = drag.is_none().then(|| format!("{} has drag {usual}", about.label()));
        let drag = drag.as_ref().map_or(usual, |d| d.si);
        let drag_area = area * drag;
        if drag_area > 0.0 && largest.as_ref().is_none_or(|(most, _)| drag_area > most.drag_area) {
            largest = Some((Canopy { part, drag_area, drag }, default));
        }
    }
    let (canopy, default) = largest?;
    defaults.extend(default);
    Some(canopy)
}

fn why(error: FlightError) -> &'static str {
    match error {
        FlightError::Fins(_) => "three or more fins in every set",
        FlightError::Unsound(_) => "numbers whose motion can be followed",
        FlightError::NeverLands => "to come down within an hour",
    }
}
