//! The rocket on the scale is the one that flies: what the bench says, and the mass properties that follow from it.

use crate::mounted::{is_whole, tail, with_motors};
use crate::shape::Parts;
use crate::stage::motors;
use crate::weigh::Weight;
use finwright_model::{station_of, Design, Measured, Motor, Stage};
use finwright_physics::mass::{combine, MassProps};

/// A measurement of the finished rocket beside what the design computes with the same motor in. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighing {
    /// Its number in the design.
    pub measured: usize,
    /// The rocket as computed.
    pub computed: MassProps,
    /// The mass on the scale, with its tolerance; `None` where only the balance point was measured.
    pub mass: Option<Reading>,
    /// The balance point on the bench, m from the tip, with its tolerance.
    pub balance: Option<Reading>,
    /// What can't be about it.
    pub fault: Option<Fault>,
}

/// A measured value with its tolerance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The value in SI.
    pub value: f64,
    /// Its tolerance.
    pub tolerance: f64,
}

/// Why a measurement can't be of this rocket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    /// It weighs more than three times what the design does, or less than a third: it isn't used.
    OtherRocket,
    /// The balance point lies outside of the rocket: it isn't used.
    BalanceOutside,
    /// The mass that would explain both measurements would sit outside of the rocket.
    DifferenceOutside,
}

/// One mass that would explain both the scale and the balance point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// The mass that is there more than in the design, kg; negative for less.
    pub mass: f64,
    /// Where it must sit, m from the tip.
    pub station: f64,
    /// How far off that may be, from the tolerances of both measurements, m.
    pub tolerance: f64,
}

/// Whether a flight's mass and balance are those of the bench.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Basis {
    /// The mass was weighed.
    pub mass: bool,
    /// The balance point was measured.
    pub balance: bool,
    /// It was measured with another motor in; the difference is the rocket's own.
    pub with_other_motor: bool,
}

impl Basis {
    /// Whether anything was measured.
    pub fn is_weighed(self) -> bool {
        self.mass || self.balance
    }
}

/// A mass that differs by more than this factor is another rocket's.
const OTHER_ROCKET: f64 = 3.0;
/// A hundredth of a gram, which no kitchen scale tells, kg.
const NOTHING: f64 = 1e-5;

impl Weighing {
    /// The mass that the design lacks, and where it sits, from the balance of moments about the tip:
    /// x* = (M_m x_m − M x)/(M_m − M). `None` where one of the two wasn't measured, or scale and design agree to within
    /// the scale's tolerance, so that a station would be an accident of the last digit.
    pub fn difference(&self) -> Option<Difference> {
        let (mass, balance) = (self.mass?, self.balance?);
        let more = mass.value - self.computed.mass;
        if more.abs() <= mass.tolerance.max(NOTHING) {
            return None;
        }
        let station = (mass.value * balance.value - self.computed.mass * self.computed.x) / more;
        // First order, independent (JCGM 100:2008, 5.1.2): ∂x*/∂x_m = M_m/ΔM and ∂x*/∂M_m = (x_m − x*)/ΔM.
        let by_balance = mass.value * balance.tolerance / more;
        let by_mass = (balance.value - station) * mass.tolerance / more;
        Some(Difference { mass: more, station, tolerance: by_balance.hypot(by_mass) })
    }

    fn is_used(&self) -> bool {
        !matches!(self.fault, Some(Fault::OtherRocket | Fault::BalanceOutside))
    }

    /// What it adds to the rocket's mass, kg, and to its moment about the tip, kg m. A mass alone sits at the computed
    /// balance point; a balance point alone moves the computed mass.
    fn shift(&self) -> Shift {
        let mass = self.mass.map_or(self.computed.mass, |m| m.value);
        let x = self.balance.map_or(self.computed.x, |b| b.value);
        let more = mass - self.computed.mass;
        let placed = self.difference().filter(|d| d.mass > 0.0 && self.fault.is_none());
        let alone = self.balance.is_none() && more > 0.0;
        let station = placed.map(|d| d.station).or(alone.then_some(self.computed.x));
        Shift { mass: more, moment: mass * x - self.computed.mass * self.computed.x, station }
    }
}

/// What a measurement adds.
#[derive(Clone, Copy)]
struct Shift {
    mass: f64,
    moment: f64,
    /// Where an added mass sits, m from the tip; `None` where mass is taken off, or it sits nowhere in particular.
    station: Option<f64>,
}

/// Every measurement that says something and whose rocket is known, beside the design with the same motor in.
pub(crate) fn weighings(parts: Parts, weights: &[Option<Weight>]) -> Vec<Weighing> {
    if parts.design.measured.is_empty() || !is_whole(parts, weights) {
        return Vec::new();
    }
    let found = parts.design.measured.iter().enumerate();
    found.filter_map(|(number, measured)| weighing(parts, weights, (number, measured))).collect()
}

fn weighing(parts: Parts, weights: &[Option<Weight>], (number, measured): (usize, &Measured)) -> Option<Weighing> {
    let tail = tail(parts)?;
    let with = measured.with.as_ref()?.value;
    let computed = with_motors(parts, weights, &motors_with(parts.design, with))?;
    let mass = measured.mass.as_ref().map(|m| Reading { value: m.si, tolerance: m.spread.total() });
    let balance = measured.balance.as_ref().and_then(|at| {
        let value = station_of(&at.anchor, at.distance.si, None, parts.extents, Some(tail), None)?;
        Some(Reading { value, tolerance: at.distance.spread.total() })
    });
    if mass.is_none() && balance.is_none() {
        return None;
    }
    let mut found = Weighing { measured: number, computed, mass, balance, fault: None };
    let ratio = mass.map_or(1.0, |m| m.value / computed.mass);
    let outside = |d: Difference| d.station + d.tolerance < 0.0 || d.station - d.tolerance > tail;
    found.fault = if !(1.0 / OTHER_ROCKET..=OTHER_ROCKET).contains(&ratio) {
        Some(Fault::OtherRocket)
    } else if balance.is_some_and(|b| !(0.0..=tail).contains(&b.value)) {
        Some(Fault::BalanceOutside)
    } else if found.difference().is_some_and(outside) {
        Some(Fault::DifferenceOutside)
    } else {
        None
    };
    Some(found)
}

/// The mass properties with which a rocket of some motors flies, and what they rest on.
///
/// Measurements with the flight's own motor count before those with another one, whose difference is taken as the
/// rocket's own; several are averaged. A mass that is there more sits where both measurements put it. Where mass is
/// taken off, or a balance point alone was measured, the crosswise inertia goes with the mass.
pub(crate) fn as_flown(
    design: &Design,
    weighings: &[Weighing],
    motors: &[(&Motor, Stage)],
    computed: MassProps,
) -> (MassProps, Basis) {
    let used: Vec<&Weighing> = weighings.iter().filter(|w| w.is_used()).collect();
    let own = |w: &&Weighing| {
        let with = design.measured.get(w.measured).and_then(|m| design.motors.get(m.with.as_ref()?.value));
        with.is_some_and(|with| motors.iter().any(|(motor, _)| std::ptr::eq(*motor, with)))
    };
    let same: Vec<&Weighing> = used.iter().copied().filter(own).collect();
    let with_other_motor = same.is_empty();
    let counted = if with_other_motor { used } else { same };
    if counted.is_empty() {
        return (computed, Basis::default());
    }
    let basis = Basis {
        mass: counted.iter().any(|w| w.mass.is_some()),
        balance: counted.iter().any(|w| w.balance.is_some()),
        with_other_motor,
    };
    (shifted(computed, &mean(&counted)), basis)
}

/// The upper stage alone, its motor unlit, with its part of what the bench says: all of an added mass where that sits
/// ahead of `back` m from the tip, none of it behind, its share by mass of anything else.
pub(crate) fn upper_as_flown(upper: MassProps, whole: (MassProps, MassProps), back: f64) -> MassProps {
    let (computed, flown) = whole;
    let more = flown.mass - computed.mass;
    if more > 0.0 {
        let station = (flown.mass * flown.x - computed.mass * computed.x) / more;
        return if station <= back { combine([upper, MassProps::point(more, station)]) } else { upper };
    }
    upper.scaled(flown.mass / computed.mass)
}

fn mean(weighings: &[&Weighing]) -> Shift {
    let shifts: Vec<Shift> = weighings.iter().map(|w| w.shift()).collect();
    let n = shifts.len().max(1) as f64;
    let (mass, moment) =
        (shifts.iter().map(|s| s.mass).sum::<f64>() / n, shifts.iter().map(|s| s.moment).sum::<f64>() / n);
    let placed = mass > 0.0 && shifts.iter().all(|s| s.station.is_some());
    Shift { mass, moment, station: placed.then(|| moment / mass) }
}

fn shifted(computed: MassProps, by: &Shift) -> MassProps {
    if let Some(station) = by.station {
        return combine([computed, MassProps::point(by.mass, station)]);
    }
    let mass = computed.mass + by.mass;
    let x = (computed.mass * computed.x + by.moment) / mass;
    MassProps { x, ..computed.scaled(mass / computed.mass) }
}

/// The motors that were in when a rocket was measured with this one: those of the first flight that it's in, else it
/// alone.
fn motors_with(design: &Design, with: usize) -> Vec<(&Motor, Stage)> {
    let is_in = |flight: &&finwright_model::Flight| {
        [&flight.motor, &flight.booster_motor].into_iter().flatten().any(|named| named.value == with)
    };
    match design.flights.iter().find(is_in) {
        Some(flight) => motors(design, flight),
        None => design.motors.get(with).map(|motor| (motor, Stage::Upper)).into_iter().collect(),
    }
}
