//! What flights did beside what was expected of them: how far they differ, which single cause would explain that, and
//! what all of them together say of drag and thrust.
//!
//! * [`record`]: the lift-off and the highest point in an altimeter's record.
//! * [`vary`]: a flight as it would be with another drag, thrust, mass or wind.
//! * [`cause`]: the single cause. [`learn`]: all flights together.

pub mod cause;
pub mod learn;
pub mod record;
pub mod vary;

use crate::airframe::Airframe;
use crate::flight::FlightNumbers;
use crate::spread::{Spreads, SDS};
use cause::{causes, Explained};
use finwright_grammar::Place;
use finwright_model::{Amount, Design, Flown};
use learn::{learn, Learned};
use record::{record, Record};
use vary::{expected, Expected, Varied};

/// What a flight did beside what was expected. SI units.
#[derive(Clone, Debug, PartialEq)]
pub struct AsFlown {
    /// The block, by its number in the design.
    pub flown: usize,
    /// Its flight, by its number in the design.
    pub flight: usize,
    /// What was measured, each with what was expected.
    pub compared: Vec<Compared>,
    /// What an altimeter's record shows, where there is one that shows a flight.
    pub record: Option<Record>,
    /// Single causes, the likeliest first; none where nothing differs, or causes can't be told apart from one another.
    pub causes: Vec<Explained>,
}

/// A measured value with what was expected.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// What it is.
    pub quantity: Quantity,
    /// As measured.
    pub measured: f64,
    /// The measurement's standard deviation.
    pub sd: f64,
    /// Whether that is the usual one, for want of a tolerance.
    pub is_usual_sd: bool,
    /// As expected.
    pub expected: f64,
    /// The expectation's standard deviation, by the spread of thrust, drag, mass and wind.
    pub expected_sd: f64,
    /// Where it's said.
    pub place: Place,
}

/// What can be measured of a flight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// Speed when the last guide leaves, m/s.
    ExitSpeed,
    /// The greatest height above the pad, m.
    Height,
    /// Time from the first motion to there, s.
    TimeToTop,
}

impl Quantity {
    /// Its stable name, which ends in its unit.
    pub fn name(self) -> &'static str {
        match self {
            Quantity::ExitSpeed => "exit_speed_m_s",
            Quantity::Height => "height_m",
            Quantity::TimeToTop => "time_to_top_s",
        }
    }
}

impl Compared {
    /// How many standard deviations of both together the measured value lies above the expected one.
    pub fn off(&self) -> f64 {
        (self.measured - self.expected) / self.sd.hypot(self.expected_sd)
    }

    /// Whether that is more than chance would often make it.
    pub fn differs(&self) -> bool {
        self.off().abs() > DIFFERS
    }
}

impl AsFlown {
    /// Whether something of it differs.
    pub fn differs(&self) -> bool {
        self.compared.iter().any(Compared::differs)
    }
}

/// Beyond so many standard deviations one in twenty lies by chance.
const DIFFERS: f64 = 2.0;

/// Everything that was flown, beside what was expected.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AllFlown {
    /// Each flight that was flown and can be compared.
    pub flights: Vec<AsFlown>,
    /// What they say together; `None` without any.
    pub learned: Option<Learned>,
}

/// Standard deviations of measurements without a tolerance (common practice, no source): of a speed from a video, as a
/// share; of an altimeter's height, as a share and in m at least; of a stopped time, s.
const SPEED_SHARE: f64 = 0.04;
const HEIGHT_SHARE: f64 = 0.015;
const HEIGHT_LEAST: f64 = 1.0;
const TIME: f64 = 0.1;

/// Compares everything that was flown with what was expected.
pub(crate) fn all_flown(
    design: &Design,
    airframe: &Airframe,
    flights: &[FlightNumbers],
    spreads: &[Option<Spreads>],
) -> AllFlown {
    let mut found = AllFlown::default();
    let mut cases = Vec::new();
    for (number, flown) in design.flown.iter().enumerate() {
        let Some(flight) = flown.flight.as_ref().map(|named| named.value).filter(|_| flown.broken.is_empty()) else {
            continue;
        };
        let spread = spreads.get(flight).and_then(|spread| spread.as_ref());
        let (Some(numbers), Some(spreads)) = (flights.get(flight), spread) else { continue };
        let Some(case) = case(design, airframe, (number, flown), numbers, spreads) else { continue };
        found.flights.push(compare(&case));
        cases.push(case);
    }
    found.learned = learn(&cases);
    found
}

/// A flight that was flown, ready to be asked what it would have been with other values.
pub(crate) struct Case<'a> {
    pub design: &'a Design,
    pub airframe: &'a Airframe,
    pub number: usize,
    pub flight: usize,
    /// The values that the file says now.
    pub now: Varied,
    /// Standard deviations of what the file says now.
    pub sds: Varied,
    /// The same where no flight had been flown.
    pub usual: Varied,
    /// The motor that burns on the pad, by its number in the design.
    pub motor: usize,
    pub measured: Vec<Compared>,
    pub record: Option<Record>,
    /// Whether there are two stages, whose thrusts can't be told apart.
    pub is_staged: bool,
}

fn case<'a>(
    design: &'a Design,
    airframe: &'a Airframe,
    (number, flown): (usize, &Flown),
    numbers: &FlightNumbers,
    spreads: &Spreads,
) -> Option<Case<'a>> {
    let flight = design.flights.get(numbers.flight)?;
    let motor = flight.first_motor()?.value;
    let loaded = numbers.loaded()?;
    let air = numbers.air?;
    let given_sd = |amount: &Amount, usual: f64| match amount.spread.total() {
        given if given > 0.0 => given / SDS,
        _ => usual,
    };
    let (mass, mass_sd) = match &flown.mass {
        Some(mass) => (mass.si - loaded.mass, given_sd(mass, MASS_SHARE * mass.si)),
        None => (0.0, spreads.mass.value),
    };
    let read = air.as_read(air.wind);
    let (wind, wind_sd) = match &flown.wind {
        Some(wind) => (wind.si, given_sd(wind, spreads.wind.usual.max(LEAST_WIND))),
        None => (read, spreads.wind.value.max(LEAST_WIND)),
    };
    let now = Varied {
        drag: design.drag_factor_or_one(),
        thrust: design.motors.get(motor)?.thrust_factor_or_one(),
        mass,
        wind,
    };
    let sds = Varied {
        drag: spreads.drag.value * now.drag,
        thrust: spreads.thrust.value * now.thrust,
        mass: mass_sd,
        wind: wind_sd,
    };
    let usual = Varied { drag: spreads.drag.usual, thrust: spreads.thrust.usual, ..sds };
    let mut case = Case {
        design,
        airframe,
        number,
        flight: numbers.flight,
        now,
        sds,
        usual,
        motor,
        measured: Vec::new(),
        record: flown.log.as_ref().and_then(|log| record(&log.points)),
        is_staged: design.booster.is_some(),
    };
    let expected = case.expected(&now)?;
    case.measured = measured(flown, case.record.as_ref(), &expected);
    let slopes: Vec<Expected> = Varied::ALL.iter().map(|cause| case.slope(&now, *cause)).collect::<Option<_>>()?;
    for compared in &mut case.measured {
        let moved = Varied::ALL.iter().zip(&slopes).map(|(cause, slope)| slope.of(compared.quantity) * sds.of(*cause));
        compared.expected_sd = moved.map(|moved| moved * moved).sum::<f64>().sqrt();
    }
    (!case.measured.is_empty()).then_some(case)
}

/// Of a rocket on a club's scale (common practice, no source).
const MASS_SHARE: f64 = 0.01;
/// What nobody can tell from calm, m/s.
const LEAST_WIND: f64 = 0.5;

impl Case<'_> {
    /// What the flight would be with these values.
    pub(crate) fn expected(&self, varied: &Varied) -> Option<Expected> {
        expected(self.design, self.airframe, self.flight, varied)
    }

    /// How it changes with a cause, by a central difference.
    pub(crate) fn slope(&self, at: &Varied, cause: vary::Cause) -> Option<Expected> {
        let step = cause.step(self.now_mass());
        let (down, up) = (at.with(cause, at.of(cause) - step), at.with(cause, at.of(cause) + step));
        // Less than no wind isn't another wind.
        let down = if cause == vary::Cause::Wind { down.with(cause, down.wind.max(0.0)) } else { down };
        let width = up.of(cause) - down.of(cause);
        let (low, high) = (self.expected(&down)?, self.expected(&up)?);
        Some(high.minus(&low).times(1.0 / width))
    }

    fn now_mass(&self) -> f64 {
        self.airframe.weights.iter().flatten().map(|weight| weight.own.mass).sum()
    }
}

/// What was measured, each beside what was expected: what is said before what a record shows.
fn measured(flown: &Flown, record: Option<&Record>, expected: &Expected) -> Vec<Compared> {
    let mut found = Vec::new();
    let log = flown.log.as_ref().map_or(flown.header, |log| log.place);
    let mut add = |quantity: Quantity, said: Option<&Amount>, seen: Option<(f64, f64)>, usual: fn(f64) -> f64| {
        let (measured, sd, is_usual_sd, place) = match (said, seen) {
            (Some(said), _) => match said.spread.total() {
                given if given > 0.0 => (said.si, given / SDS, false, said.place),
                _ => (said.si, usual(said.si), true, said.place),
            },
            (None, Some((seen, sd))) => (seen, sd.max(usual(seen)), true, log),
            (None, None) => return,
        };
        let expected = expected.of(quantity);
        found.push(Compared { quantity, measured, sd, is_usual_sd, expected, expected_sd: 0.0, place });
    };
    add(Quantity::ExitSpeed, flown.exit_speed.as_ref(), None, |speed| SPEED_SHARE * speed);
    let height = record.map(|record| (record.height, record.height_sd));
    add(Quantity::Height, flown.height.as_ref(), height, |height| (HEIGHT_SHARE * height).max(HEIGHT_LEAST));
    let time = record.map(|record| (record.time_to_top, record.time_sd));
    add(Quantity::TimeToTop, flown.time_to_top.as_ref(), time, |_| TIME);
    found
}

fn compare(case: &Case) -> AsFlown {
    let mut found = AsFlown {
        flown: case.number,
        flight: case.flight,
        compared: case.measured.clone(),
        record: case.record,
        causes: Vec::new(),
    };
    if found.differs() && !case.is_staged {
        found.causes = causes(case);
    }
    found
}
