//! How far a flight's inputs may be off: by the tolerances in the file, and by what is usual where it gives none.

use crate::airframe::{airframe, Airframe};
use crate::flight::{weighed_flight, FlightNumbers};
use crate::motor::labelled;
use crate::weigh::Weight;
use finwright_model::{Amount, Design, Site};
use finwright_units::quantity::SourceId;

/// Standard deviations of a flight's inputs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spreads {
    /// Thrust, as a share of it.
    pub thrust: Sd,
    /// Mass on the pad, kg.
    pub mass: Sd,
    /// Margin, by the balance point, calibres.
    pub margin: Sd,
    /// Drag, as a share of it.
    pub drag: Sd,
    /// Friction coefficient.
    pub friction: Sd,
    /// Steady wind, m/s.
    pub wind: Sd,
}

/// Which standard deviations count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spread {
    /// Those with the tolerances that the file gives.
    AsGiven,
    /// None wider than is usual: see [`Sd::at_most_usual`].
    AtMostUsual,
}

/// A standard deviation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sd {
    /// With the tolerances that the file gives.
    pub value: f64,
    /// What is usual without any.
    pub usual: f64,
    /// Whether the file gives none that reaches it.
    pub is_default: bool,
}

impl Sd {
    fn usual(usual: f64) -> Sd {
        Sd { value: usual, usual, is_default: true }
    }

    fn given(value: f64, usual: f64) -> Sd {
        Sd { value, usual, is_default: false }
    }

    /// At most what is usual: to write down a wide tolerance must not be worse than to write none.
    pub fn at_most_usual(self) -> f64 {
        self.value.min(self.usual)
    }
}

/// Standard deviations where the file gives no tolerance (common practice, no source): shares of the value, and of the
/// reference diameter for the balance point.
const THRUST: f64 = 0.03;
/// Of a motor known by its label: its average may lie a fifth off (NFPA 1125, from memory), which counts as two.
const THRUST_BY_LABEL: f64 = 0.10;
const MASS: f64 = 0.02;
const BALANCE: f64 = 0.1;
const DRAG: f64 = 0.10;
const FRICTION: f64 = 0.25;
/// Of a wind without a gust to tell how it varies.
const WIND: f64 = 0.25;
/// A tolerance counts as two standard deviations: nineteen of twenty lie within it (common practice, no source).
pub(crate) const SDS: f64 = 2.0;

/// Standard deviations of what decides a flight's exit speed, margin and thrust to weight.
pub(crate) struct Widths {
    /// Thrust, as a share of it.
    pub thrust: f64,
    /// Mass on the pad, kg.
    pub mass: f64,
    /// Margin, calibres.
    pub margin: f64,
    /// Drag, as a share of it.
    pub drag: f64,
    /// Friction coefficient.
    pub friction: f64,
}

/// What is usual of a flight without any tolerance, where its mass and its run are known: a verdict rests on no wider one.
pub(crate) fn usual(design: &Design, numbers: &FlightNumbers) -> Option<Widths> {
    let (run, loaded) = (numbers.run.as_ref()?, numbers.loaded()?);
    Some(Widths {
        thrust: if labelled(design, numbers.flight).is_empty() { THRUST } else { THRUST_BY_LABEL },
        mass: MASS * loaded.mass,
        margin: BALANCE,
        drag: DRAG,
        friction: FRICTION * run.inputs.friction,
    })
}

impl Spreads {
    /// With the tolerances that the file gives.
    pub(crate) fn given(&self) -> Widths {
        let [thrust, mass, margin, drag, friction] =
            [self.thrust, self.mass, self.margin, self.drag, self.friction].map(|sd| sd.value);
        Widths { thrust, mass, margin, drag, friction }
    }
}

/// The spreads of every flight that has a mass, a margin and a run along its guide, in the flights' order.
///
/// What is usual stands for the scatter of materials, for glue and paint. A tolerance adds to it, and a part that was
/// weighed to a tolerance takes its own share out of it; so does a rocket that was weighed and balanced as a whole.
pub fn spreads(design: &Design, airframe: &Airframe, flights: &[FlightNumbers]) -> Vec<Option<Spreads>> {
    let written = written(design, flights);
    flights.iter().zip(written).map(|(numbers, written)| of_flight(design, airframe, numbers, written)).collect()
}

/// Of mass, kg, and margin, calibres: what the tolerances in the file make of them.
type Written = (f64, f64);

fn of_flight(design: &Design, airframe: &Airframe, numbers: &FlightNumbers, written: Written) -> Option<Spreads> {
    let flight = design.flights.get(numbers.flight)?;
    let pad = design.pad_of(flight)?;
    let site = flight.site.as_ref().and_then(|s| design.sites.get(s.value));
    let tolerance = |amount: Option<&Amount>| amount.map(|a| a.spread.total()).filter(|t| *t > 0.0);
    let (air, usual) = (numbers.air?, usual(design, numbers)?);
    numbers.margins?;
    let loose = 1.0 - known_share(design, airframe, numbers);
    let mass = sd(written.0, usual.mass, if is_weighed(design, numbers, true) { 0.0 } else { loose });
    let margin = sd(written.1, usual.margin, if is_weighed(design, numbers, false) { 0.0 } else { loose });
    let wind = if let Some(given) = tolerance(site.and_then(wind_of)) {
        Sd::given(given / SDS, WIND * air.wind)
    } else if air.gust > air.wind {
        Sd::given((air.gust - air.wind) / SDS, WIND * air.wind)
    } else {
        Sd::usual(WIND * air.wind)
    };
    let shown = flight.first_motor().and_then(|motor| design.motors.get(motor.value)?.thrust_factor.as_ref());
    Some(Spreads {
        thrust: as_shown(shown, usual.thrust),
        mass,
        margin,
        drag: as_shown(design.drag_factor.as_ref(), usual.drag),
        friction: tolerance(pad.friction.as_ref())
            .map_or(Sd::usual(usual.friction), |given| Sd::given(given / SDS, usual.friction)),
        wind,
    })
}

/// The spread of what flights have shown, as a share of it; the usual one where the file doesn't say how far it may be off.
fn as_shown(factor: Option<&Amount>, usual: f64) -> Sd {
    match factor.map(|factor| (factor.si, factor.spread.total())) {
        Some((factor, give)) if give > 0.0 => Sd::given(give / SDS / factor, usual),
        _ => Sd::usual(usual),
    }
}

/// A written tolerance with the share of the usual spread that it leaves.
fn sd(written: f64, usual: f64, loose: f64) -> Sd {
    if written > 0.0 {
        Sd::given((written / SDS).hypot(usual * loose), usual)
    } else {
        Sd::usual(usual)
    }
}

/// Whether the flight's mass, or else its balance point, was measured to a tolerance.
fn is_weighed(design: &Design, numbers: &FlightNumbers, mass: bool) -> bool {
    let measured = if mass { numbers.basis().mass } else { numbers.basis().balance };
    measured
        && design.measured.iter().any(|bench| {
            let amount = if mass { bench.mass.as_ref() } else { bench.balance.as_ref().map(|b| &b.distance) };
            amount.is_some_and(|a| a.spread.total() > 0.0)
        })
}

/// The share of the mass on the pad that is in parts weighed to a tolerance, 0 to 1.
fn known_share(design: &Design, airframe: &Airframe, numbers: &FlightNumbers) -> f64 {
    let weighed = |mass: &Option<Amount>| mass.as_ref().is_some_and(|m| m.spread.total() > 0.0);
    let of_part = |weight: &Option<Weight>| weight.as_ref().map_or(0.0, |w| w.own.mass);
    let parts: f64 = design
        .parts
        .iter()
        .zip(&airframe.weights)
        .filter(|(part, _)| weighed(&part.mass))
        .map(|(_, w)| of_part(w))
        .sum();
    let flight = design.flights.get(numbers.flight);
    let motor = flight.and_then(|f| design.motors.get(f.motor.as_ref()?.value)).filter(|motor| weighed(&motor.mass));
    let motors = motor.map_or(0.0, |motor| motor.mass.as_ref().map_or(0.0, |mass| mass.si));
    numbers.loaded().map_or(0.0, |loaded| ((parts + motors) / loaded.mass).clamp(0.0, 1.0))
}

/// What every tolerance that is written in the file moves each flight's mass and margin by, added in quadrature
/// (independent, first order: JCGM 100:2008, 5.1.2).
fn written(design: &Design, flights: &[FlightNumbers]) -> Vec<Written> {
    let mut squares = vec![(0.0, 0.0); design.flights.len()];
    let mut moved = design.clone();
    for source in sources(&mut moved) {
        let before = shift(&mut moved, source);
        for ((square, at), there) in squares.iter_mut().zip(flights).zip(masses_and_margins(&moved)) {
            let Some((at, there)) = mass_and_margin(at).zip(there) else { continue };
            square.0 += (there.0 - at.0).powi(2);
            square.1 += (there.1 - at.1).powi(2);
        }
        for (amount, si) in moved.amounts_mut().into_iter().zip(before) {
            amount.si = si;
        }
    }
    squares.into_iter().map(|(mass, margin): (f64, f64)| (mass.sqrt(), margin.sqrt())).collect()
}

/// Every tolerance but those of rail sections and of flights that were flown, which weigh nothing, and of what these show,
/// which is among the spreads itself and is taken out of the design.
fn sources(weighing: &mut Design) -> Vec<SourceId> {
    // What hangs on a rail takes its own weight from there.
    let sections = std::mem::take(&mut weighing.sections);
    weighing.flown.clear();
    weighing.drag_factor = None;
    weighing.motors.iter_mut().for_each(|motor| motor.thrust_factor = None);
    let amounts = weighing.amounts_mut();
    let mut found: Vec<SourceId> = amounts.iter().flat_map(|a| a.spread.0.iter().map(|(source, _)| *source)).collect();
    found.sort_unstable();
    found.dedup();
    weighing.sections = sections;
    found
}

/// Moves every amount by what a source does to it; what they were before.
fn shift(design: &mut Design, source: SourceId) -> Vec<f64> {
    let mut before = Vec::new();
    for amount in design.amounts_mut() {
        before.push(amount.si);
        if let Some((_, delta)) = amount.spread.0.iter().find(|(s, _)| *s == source) {
            amount.si += delta;
        }
    }
    before
}

/// Each flight's mass on the pad and margin, where they are known.
fn masses_and_margins(design: &Design) -> Vec<Option<Written>> {
    let airframe = airframe(design);
    (0..design.flights.len()).map(|number| mass_and_margin(&weighed_flight(design, &airframe, number))).collect()
}

fn mass_and_margin(numbers: &FlightNumbers) -> Option<Written> {
    Some((numbers.loaded()?.mass, numbers.margin()?))
}

fn wind_of(site: &Site) -> Option<&Amount> {
    site.wind.as_ref()
}
