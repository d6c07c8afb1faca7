//! Flights flown before: whoever asks again and again about a text that changes by a letter need not fly them again.
//!
//! What is remembered is the answer to exactly the same numbers, so it changes no result.

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
    static MEMO: RefCell<Option<Vec<(Asked, Flown)>>> = const { RefCell::new(None) };
}

/// What a flight came to, and what was computed along with it.
pub(crate) type Flown = Result<(FlightPath, Moment), FlightError>;

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
    let known = MEMO.with_borrow(|memo| {
        let found =
            memo.as_ref().map(|memo| memo.iter().find(|(asked, _)| asked.is(flight)).map(|(_, flown)| flown.clone()));
        found.unwrap_or_default()
    });
    if let Some(flown) = known {
        return flown;
    }
    let flown = fly(flight);
    MEMO.with_borrow_mut(|memo| {
        let Some(memo) = memo else { return };
        if memo.len() >= MOST_FLIGHTS {
            memo.clear();
        }
        memo.push((Asked::of(flight), flown.clone()));
    });
    flown
}
