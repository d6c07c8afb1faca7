//! The most that a rocket may weigh on a pad, and what limits it.

use crate::asked::{is_of_the_rocket, Asked};
use crate::ceiling::Limit;
use crate::supposed::{amount, placement, Supposed};
use finwright_checks::rule::{Concern, Family};
use finwright_checks::{rule, Finding, Level, Rule};
use finwright_model::{Anchor, Measured, Named};
use serde::Serialize;

/// How heavy a rocket may become on a pad before something is found, balancing where it does.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Heaviest {
    /// The greatest mass on the pad, motor in, kg, to half a per cent on the passing side; [`MOST`] times its mass where
    /// nothing limits it below.
    pub mass_kg: f64,
    /// What is found just above it.
    pub limit: Option<Limit>,
}

/// Nobody loads a rocket with more than so many times its mass.
const MOST: f64 = 3.0;
/// Masses tried one after the other, as a factor, before the limit is closed in on.
const STEP: f64 = 1.05;
/// The limit is found to this factor.
const CLOSE: f64 = 1.005;

/// The most that the only flight of a design may weigh; `None` where the pad doesn't pass as it is, or the mass isn't
/// known.
pub(crate) fn heaviest(asked: &Asked, supposed: &Supposed) -> Option<Heaviest> {
    let loaded = supposed.numbers()?.loaded()?;
    let motor = supposed.design.flights.first()?.motor.clone()?;
    // What is found of the flight and its pad; that scale and parts disagree is what is supposed here.
    let found = |factor: f64| {
        let heavier = weighing(supposed, &motor, (factor * loaded.mass, loaded.x));
        let judged = asked.analysis.judge_supposed(&heavier.design, &heavier.assessment, asked.like);
        let of_the_flight = judged.findings.into_iter().filter(|f| {
            let of_the_flight = |rule: &&Rule| {
                matches!(rule.concerns, Concern::Flight | Concern::Pad) && rule.family != Family::Measured
            };
            f.level <= Level::Warning && rule(f.rule).as_ref().is_some_and(of_the_flight)
        });
        (of_the_flight.collect::<Vec<Finding>>(), judged.judgement.unknown.is_empty())
    };
    let (as_it_is, is_known) = found(1.0);
    if !is_known || as_it_is.iter().any(|finding| !is_of_the_rocket(finding)) {
        return None;
    }
    // The gravest that is new.
    let against = |factor: f64| -> Result<(), Option<Limit>> {
        let (found, is_known) = found(factor);
        let is_new = |f: &&Finding| !as_it_is.iter().any(|known| known.rule == f.rule);
        match found.iter().find(is_new) {
            Some(found) => Err(Some(Limit::of(found))),
            None if is_known => Ok(()),
            None => Err(None),
        }
    };
    let (mut good, mut bad) = (1.0, f64::INFINITY);
    let mut limit = None;
    while good < MOST && asked.analysis.wanted.still() {
        match against(good * STEP) {
            Ok(()) => good *= STEP,
            Err(found) => {
                (bad, limit) = (good * STEP, found);
                break;
            }
        }
    }
    while bad.is_finite() && bad / good > CLOSE {
        let middle = (good * bad).sqrt();
        match against(middle) {
            Ok(()) => good = middle,
            Err(found) => (bad, limit) = (middle, found),
        }
    }
    // Three digits, on the passing side.
    let mass = good * loaded.mass;
    let digit = 10_f64.powf(mass.log10().floor() - 2.0);
    Some(Heaviest { mass_kg: (mass / digit).floor() * digit, limit })
}

/// The design as if the scale said so, balancing at a station.
fn weighing(supposed: &Supposed, motor: &Named<usize>, (mass, station): (f64, f64)) -> Supposed {
    let mut design = supposed.design.clone();
    let here = motor.place;
    design.measured = vec![Measured {
        header: here,
        with: Some(motor.clone()),
        mass: Some(amount(mass, here)),
        balance: Some(placement(station, Anchor::Tip, here)),
    }];
    Supposed::new(design)
}
