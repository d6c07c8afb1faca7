//! What was computed before: whoever asks again and again about a text that changes by a letter need not fly the same
//! flights again.
//!
//! What is remembered is the answer to exactly the same numbers, so it changes no result.

use finwright_physics::aerodynamics::Aerodynamics;
use finwright_physics::air::{Atmosphere, Wind};
use finwright_physics::canopies::Canopy;
use finwright_physics::flight::{Flight, FlightError, FlightPath, Moment, Release};
use finwright_physics::motor::{BurningMass, ThrustCurve};
use std::cell::{Cell, RefCell};
use std::thread::LocalKey;

/// From now on remember flights on this thread, and how likely they meet their floors. It's worth its memory where the
/// same design is assessed again and again.
pub fn remember_flights() {
    REMEMBERS.set(true);
}

/// More flights than this aren't kept, nor more points of their thrust curves; then they are forgotten, all at once.
const MOST_FLIGHTS: usize = 256;
/// A megabyte of points.
const MOST_POINTS: usize = 1 << 16;

thread_local! {
    static REMEMBERS: Cell<bool> = const { Cell::new(false) };
    static FLIGHTS: RefCell<Kept<Asked, Flown>> = const { RefCell::new(Kept::new()) };
}

/// Answers by what was asked, and how many points of curves are kept with them.
pub(crate) struct Kept<K, V> {
    known: Vec<(K, V)>,
    points: usize,
}

impl<K, V> Kept<K, V> {
    pub(crate) const fn new() -> Self {
        Kept { known: Vec::new(), points: 0 }
    }
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
    let asked = (|asked: &Asked| asked.is(flight), || Asked::of(flight));
    again(&FLIGHTS, flight.curve, asked, || fly(flight))
}

/// What comes out of `work`, which hangs on a curve among others, or what came out before of exactly the same.
pub(crate) fn again<K, V: Clone>(
    kept: &'static LocalKey<RefCell<Kept<K, V>>>,
    curve: &ThrustCurve,
    (is, asked): (impl Fn(&K) -> bool, impl FnOnce() -> K),
    work: impl FnOnce() -> V,
) -> V {
    if !REMEMBERS.get() {
        return work();
    }
    let known = kept.with_borrow(|kept| kept.known.iter().find(|(asked, _)| is(asked)).map(|(_, found)| found.clone()));
    if let Some(known) = known {
        return known;
    }
    let found = work();
    kept.with_borrow_mut(|kept| {
        let points = curve.points().len();
        if kept.known.len() >= MOST_FLIGHTS || kept.points + points > MOST_POINTS {
            *kept = Kept::new();
        }
        kept.points += points;
        kept.known.push((asked(), found.clone()));
    });
    found
}
