//! All numbers of a design together.

use crate::abreast::abreast;
use crate::airframe::{airframe, weights_in_place, Airframe};
use crate::flight::path::path;
use crate::flight::{flight, weighed_flight, FlightNumbers};
use crate::floors::Floors;
use crate::flown::{all_flown, AllFlown};
use crate::likelihood::{likelihood, Likelihood, Likely, Worst};
use crate::memory::memory;
use crate::place::{is_floating, reference_flight};
use crate::second::{second, SecondOpinion};
use crate::spread::{spreads, usual, Spread, Spreads};
use finwright_grammar::{Shift, Span};
use finwright_model::{Design, PartId};
use std::sync::{Arc, OnceLock};

/// All numbers of a design.
#[derive(Clone, Debug, Default)]
pub struct Assessment {
    /// Everything but the flights.
    pub airframe: Arc<Airframe>,
    /// Each flight's numbers, in the design's order.
    pub flights: Vec<FlightNumbers>,
    spreads: OnceLock<Vec<Option<Spreads>>>,
    likely: OnceLock<Vec<OnceLock<Likely>>>,
    worst: OnceLock<Vec<WorstRuns>>,
    flown: OnceLock<AllFlown>,
}

/// A flight's worst runs, with the spreads as given and at most usual.
type WorstRuns = [OnceLock<Option<Worst>>; 2];

impl Assessment {
    /// How far each flight's inputs may be off, worked out when first asked for.
    pub fn spreads(&self, design: &Design) -> &[Option<Spreads>] {
        self.spreads.get_or_init(|| spreads(design, &self.airframe, &self.flights))
    }

    /// What flights did beside what was expected, worked out when first asked for.
    pub fn flown(&self, design: &Design) -> &AllFlown {
        self.flown.get_or_init(|| all_flown(design, &self.airframe, &self.flights, self.spreads(design)))
    }

    /// What flights did, told of places that moved.
    pub(crate) fn relocate_flown(&mut self, to: &impl Fn(Span) -> Span) {
        let compared = self.flown.get_mut().into_iter().flat_map(|all| &mut all.flights);
        compared.flat_map(|flown| &mut flown.compared).for_each(|one| one.place.relocate(to));
    }

    /// How likely a flight meets its floors; `None` where that can't be told. Several rules and the verdict ask for it with
    /// the same floors, so the first answer is kept.
    pub fn likelihood(&self, design: &Design, flight: usize, floors: &Floors) -> Option<Likelihood> {
        let (numbers, spreads) = (self.flights.get(flight)?, self.spreads(design).get(flight)?.as_ref());
        let kept = self.likely.get_or_init(|| vec![OnceLock::new(); self.flights.len()]);
        let first = kept.get(flight)?.get_or_init(|| Likely::of(numbers, spreads, floors));
        first.to(floors).unwrap_or_else(|| likelihood(numbers, spreads?, floors))
    }

    /// Whether a flight surely meets its floors in a share of at least `least` of such flights; `false` says nothing, and
    /// then [`Assessment::likelihood`] tells: its `all`, or its `all_at_most_usual`.
    pub fn surely_meets(&self, design: &Design, flight: usize, floors: &Floors, least: f64, spread: Spread) -> bool {
        self.worst(design, flight, spread).is_some_and(|worst| worst.surely_meets(floors, least))
    }

    /// A flight's worst runs, worked out when first asked for.
    fn worst(&self, design: &Design, flight: usize, spread: Spread) -> Option<Worst> {
        let numbers = self.flights.get(flight)?;
        let widths = || match spread {
            Spread::AtMostUsual => usual(design, numbers),
            Spread::AsGiven => self.spreads(design).get(flight).and_then(|spreads| Some(spreads.as_ref()?.given())),
        };
        let kept = self.worst.get_or_init(|| vec![WorstRuns::default(); self.flights.len()]);
        let [as_given, at_most_usual] = kept.get(flight)?;
        let kept = if spread == Spread::AsGiven { as_given } else { at_most_usual };
        *kept.get_or_init(|| Worst::of(numbers, &widths()?))
    }

    /// The second opinion on the whole rocket, worked out when first asked for; `None` without flat fins, or where the
    /// air around it isn't known. It's the airframe's, whatever flies with it.
    pub fn second(&self, design: &Design) -> Option<SecondOpinion> {
        let of = || second(self.airframe.parts(design), self.airframe.airflow.as_ref()?, self.airframe.calibre?);
        *self.airframe.second.get_or_init(of)
    }

    /// The same on the upper stage alone, where there are two.
    pub fn second_of_upper(&self, design: &Design) -> Option<SecondOpinion> {
        let of = || second(self.airframe.parts(design), self.airframe.upper_airflow.as_ref()?, self.airframe.calibre?);
        *self.airframe.second_of_upper.get_or_init(of)
    }
}

/// Compute all numbers of a design.
pub fn assess(design: &Design) -> Assessment {
    assess_flights(design, Arc::new(airframe(design)))
}

/// The same for a design with the parts, motors and measurements from which an airframe was computed: only its pads,
/// its site or what its flights take of them is another.
pub fn assess_flights(design: &Design, airframe: Arc<Airframe>) -> Assessment {
    let flights = abreast(design.flights.len(), |number| flight(design, &airframe, number));
    Assessment { airframe, flights, ..Assessment::default() }
}

/// Flies every flight, and looks at its worst runs, before anybody asks for one after the other, on a thread that
/// remembers: there that's done on several.
pub fn fly_ahead(design: &Design, assessment: &Assessment) {
    if memory().is_none() {
        return;
    }
    abreast(assessment.flights.len(), |number| {
        let flies = |numbers| path(design, &assessment.airframe, numbers).is_ok();
        let flown = assessment.flights.get(number).is_some_and(flies);
        (flown, assessment.worst(design, number, Spread::AtMostUsual).is_some())
    });
}

/// Where the rocket of the first flight balances that can be weighed, m from the tip, whether its parts fit or not:
/// values that hang on the balance point are off until they have settled, and only then can be judged.
pub fn first_balance(design: &Design) -> Option<f64> {
    let airframe = weights_in_place(design);
    let weighed = |number: usize| weighed_flight(design, &airframe, number).loaded();
    (0..design.flights.len()).find_map(weighed).map(|loaded| loaded.x)
}

/// How far the balance point as weighed lies behind the computed one, m, for a part that is placed from it and so has
/// moved by as much; `None` for other parts, and where nothing was weighed.
pub fn moved_with_balance(design: &Design, assessment: &Assessment, id: PartId) -> Option<f64> {
    design.parts.get(id).filter(|part| is_floating(part))?;
    let flight = reference_flight(design, id)?;
    let number = design.flights.iter().position(|other| std::ptr::eq(other, flight))?;
    let weighed = assessment.flights.get(number)?.weighed?;
    weighed.basis.is_weighed().then_some(weighed.loaded.x - weighed.computed.x)
}
