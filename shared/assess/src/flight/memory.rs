//! What was computed before: whoever asks again and again about a text that changes by a letter need not fly the same
//! flights again.
//!
//! What is remembered is the answer to exactly the same numbers, so it changes no result.

use super::run::{Run, RunInputs};
use crate::chances::Floors;
use crate::likelihood::Likelihood;
use crate::spread::Spreads;
use finwright_physics::aerodynamics::Aerodynamics;
use finwright_physics::air::{Atmosphere, Wind};
use finwright_physics::canopies::Canopy;
use finwright_physics::flight::{Flight, FlightError, FlightPath, Moment, Release};
use finwright_physics::motor::{BurningMass, ThrustCurve};
use std::cell::RefCell;

/// From now on remember flights on this thread. It's worth its memory where the same design is assessed again and
/// again.
pub fn remember_flights() {
    MEMO.with_borrow_mut(|memo| {
        memo.get_or_insert_default();
    });
}

/// More flights than this aren't kept; then they are forgotten, all at once.
const MOST_FLIGHTS: usize = 256;

thread_local! {
    static MEMO: RefCell<Option<Memory>> = const { RefCell::new(None) };
}

#[derive(Default)]
struct Memory {
    flights: Vec<(Asked, Flown)>,
    likely: Vec<(Doubted, Option<Likelihood>)>,
}

/// What a flight came to, and what was computed along with it.
pub(crate) type Flown = Result<(FlightPath, Moment), FlightError>;

/// Everything that decides how likely a flight meets its floors.
#[derive(PartialEq)]
struct Doubted {
    inputs: RunInputs,
    front_travel: f64,
    travel: f64,
    margin: f64,
    spreads: Spreads,
    floors: Floors,
    curve: ThrustCurve,
}

/// Everything that decides a flight.
#[derive(PartialEq)]
struct Asked {
    release: Release,
    mass: BurningMass,
    nozzle: f64,
    wind: Wind,
    atmosphere: Atmosphere,
    canopies: Vec<Canopy>,
    curve: ThrustCurve,
    aerodynamics: Aerodynamics,
}

impl Asked {
    fn is(&self, flight: &Flight) -> bool {
        self.release == flight.release
            && self.mass == flight.mass
            && self.nozzle == flight.nozzle
            && self.wind == *flight.wind
            && self.atmosphere == *flight.atmosphere
            && self.canopies == flight.canopies
            && self.curve == *flight.curve
            && self.aerodynamics == *flight.aerodynamics
    }

    fn of(flight: &Flight) -> Asked {
        Asked {
            release: flight.release,
            mass: flight.mass,
            nozzle: flight.nozzle,
            wind: *flight.wind,
            atmosphere: *flight.atmosphere,
            canopies: flight.canopies.to_vec(),
            curve: flight.curve.clone(),
            aerodynamics: flight.aerodynamics.clone(),
        }
    }
}

/// The flight flown by `fly`, or as it came out before.
pub(crate) fn flown_again(flight: &Flight, fly: impl FnOnce(&Flight) -> Flown) -> Flown {
    again(|memory| &mut memory.flights, |asked| asked.is(flight), || Asked::of(flight), || fly(flight))
}

/// The likelihood worked out by `work`, or as it came out before.
pub(crate) fn likely_again(
    (run, curve, margin): (&Run, &ThrustCurve, f64),
    (spreads, floors): (&Spreads, &Floors),
    work: impl FnOnce() -> Option<Likelihood>,
) -> Option<Likelihood> {
    let Run { inputs, front_travel, travel, .. } = *run;
    let asked =
        || Doubted { inputs, front_travel, travel, margin, spreads: *spreads, floors: *floors, curve: curve.clone() };
    let is = |known: &Doubted| {
        known.inputs == inputs
            && (known.front_travel, known.travel, known.margin) == (front_travel, travel, margin)
            && known.spreads == *spreads
            && known.floors == *floors
            && known.curve == *curve
    };
    again(|memory| &mut memory.likely, is, asked, work)
}

fn again<K, V: Clone>(
    of: impl Fn(&mut Memory) -> &mut Vec<(K, V)>,
    is: impl Fn(&K) -> bool,
    asked: impl FnOnce() -> K,
    work: impl FnOnce() -> V,
) -> V {
    let known = MEMO.with_borrow_mut(|memory| {
        let known = of(memory.as_mut()?).iter().find(|(asked, _)| is(asked))?;
        Some(known.1.clone())
    });
    if let Some(known) = known {
        return known;
    }
    let found = work();
    MEMO.with_borrow_mut(|memory| {
        let Some(known) = memory.as_mut().map(of) else { return };
        if known.len() >= MOST_FLIGHTS {
            known.clear();
        }
        known.push((asked(), found.clone()));
    });
    found
}
