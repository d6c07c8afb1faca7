//! Flights flown before.

use crate::memory::again;
use finwright_physics::aerodynamics::Aerodynamics;
use finwright_physics::air::{Atmosphere, Wind};
use finwright_physics::canopies::Canopy;
use finwright_physics::flight::{Flight, FlightError, FlightPath, Moment, Release};
use finwright_physics::motor::{BurningMass, ThrustCurve};

/// What a flight came to, and what was computed along with it.
pub(crate) type Flown = Result<(FlightPath, Moment), FlightError>;

/// The flight flown by `fly`, or as it came out before.
pub(crate) fn flown_again(flight: &Flight, fly: impl FnOnce(&Flight) -> Flown) -> Flown {
    again(flight.curve, |asked: &Asked| asked.is(flight), || Asked::of(flight), || fly(flight))
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
    hung: Option<f64>,
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
            && self.hung == flight.hung
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
            hung: flight.hung,
            curve: flight.curve.clone(),
            aerodynamics: flight.aerodynamics.clone(),
        }
    }
}
