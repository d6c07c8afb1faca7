//! Design to numbers. Each number is computed once, here; rules, hovers, tables and JSON all read it from the
//! [`Assessment`].
//!
//! * [`weigh`]: each part's mass properties, and which of them rest on a default.
//! * [`balance`]: where the parts sit, with those that are placed from the balance point.
//! * [`weighing`]: the rocket on the scale, which is the one that flies. [`bench`]: what explains that it differs from the
//!   computed one.
//! * [`misfit`]: what can't be about a part beside the others, so that nothing is computed from it.
//! * [`airflow`]: what the air sees: normal force and drag.
//! * [`flight`]: one flight's numbers, from the pad to the release.
//! * [`flutter`](mod@flutter): the speed that each set of fins bears.
//! * [`stiffness`]: the rod or rail as a beam, its lean and its frequency.
//! * [`loads`]: what the guides carry, whether they lock, what they may bear.
//! * [`clearance`](mod@clearance): fins and wide stretches beside the rod or rail. [`seat`](mod@seat): what a guide sits on.
//! * [`fit`](mod@fit): whether a guide runs on what stands on a pad.
//! * [`release`]: angle of attack, swing and turn when the last guide leaves.
//! * [`sinking`](mod@sinking): how fast it comes down under what opens. [`path`](mod@path): the flight to the ground, flown when
//!   someone asks.
//! * [`motor`](mod@motor): a motor's curve in numbers, and whether its code agrees.
//! * [`field_rules`]: what a chosen jurisdiction limits, and which limits a flight exceeds.
//! * [`spread`]: how far a flight's inputs may be off. [`likelihood`](mod@likelihood): how likely it meets its floors then, worked out;
//!   [`chances`](mod@chances): the same counted over many runs.
//! * [`unknown`]: what isn't computed and what it needs; [`needed`](mod@needed): which numbers of a flight aren't known.
//! * [`defaults`](mod@defaults): what a flight's numbers rest on that the file doesn't say.
//! * [`tolerance`]: what the file's tolerances do to a number.
//! * [`report`]: the numbers under stable names, for JSON.

pub mod airflow;
pub mod balance;
pub mod bench;
pub mod chances;
pub mod clearance;
pub mod defaults;
pub mod field_rules;
pub mod fit;
pub mod flight;
pub mod flutter;
pub mod inverse;
pub mod likelihood;
pub mod loads;
mod memory;
pub mod misfit;
pub mod motor;
pub mod needed;
pub mod path;
pub mod release;
pub mod report;
pub mod seat;
pub mod second;
pub mod sinking;
pub mod sold;
pub mod spread;
pub mod stiffness;
pub mod tolerance;
pub mod unknown;
pub mod weigh;
pub mod weighing;

pub use airflow::Airflow;
pub use clearance::Clearance;
pub use flight::{Air, FlightNumbers, GuideNumbers, Run};
pub use flutter::Flutter;
pub use likelihood::{likelihood, Likelihood};
pub use loads::{GuideLoad, Loads};
pub use memory::remember_flights;
pub use misfit::{Fault, FlightMisfit, Misfit};
pub use motor::MotorNumbers;
pub use needed::Needed;
pub use path::{path, NotFlown, Opening, Path};
pub use release::AtRelease;
pub use seat::Seat;
pub use second::SecondOpinion;
pub use sinking::Sinking;
pub use spread::Spreads;
pub use stiffness::{Lean, Stiffness};
pub use tolerance::tolerances;
pub use unknown::{Measure, Needs, Subject, Unknown};
pub use weigh::Weight;
pub use weighing::{Basis, Weighing};

use finwright_model::{Design, Extent, PartId, Stage};
use std::sync::OnceLock;

/// All numbers of a design.
#[derive(Clone, Debug, Default)]
pub struct Assessment {
    /// The reference diameter, m: the widest place of the airframe.
    pub calibre: Option<f64>,
    /// Station of the airframe's aft end, m from the tip.
    pub tail: Option<f64>,
    /// Where each part sits.
    pub extents: Vec<Option<Extent>>,
    /// What each part weighs.
    pub weights: Vec<Option<Weight>>,
    /// What the bench says, beside the design with the same motor in.
    pub weighings: Vec<Weighing>,
    /// What the air sees, where the airframe's shape is known.
    pub airflow: Option<Airflow>,
    /// What the air sees of the upper stage alone, where there are two.
    pub upper_airflow: Option<Airflow>,
    /// Each motor's numbers, where it has a sound curve.
    pub motors: Vec<Option<MotorNumbers>>,
    /// Each flight's numbers.
    pub flights: Vec<FlightNumbers>,
    /// What couldn't be computed and what it needs.
    pub unknown: Vec<Unknown>,
    /// What can't be about the parts.
    pub misfits: Vec<Misfit>,
    /// Parts placed from the balance point whose place doesn't settle.
    pub unsettled: Vec<PartId>,
    /// Whether the values that hang on the balance point settled; true where none does.
    pub settled: bool,
    /// The spreads of the flights' inputs, once somebody asks: see [`Assessment::spreads`].
    spreads: OnceLock<Vec<Option<Spreads>>>,
    /// What another method says, once somebody asks: see [`Assessment::second`].
    second: OnceLock<Option<SecondOpinion>>,
    second_of_upper: OnceLock<Option<SecondOpinion>>,
}

impl Assessment {
    /// How far each flight's inputs may be off, worked out when first asked for.
    pub fn spreads(&self, design: &Design) -> &[Option<Spreads>] {
        self.spreads.get_or_init(|| spread::spreads(design, self))
    }
}

/// Compute all numbers of a design.
pub fn assess(design: &Design) -> Assessment {
    let mut assessment = airframe(design);
    assessment.flights = (0..design.flights.len()).map(|number| flight::flight(design, &assessment, number)).collect();
    assessment
}

/// Where the rocket of the first flight balances that can be weighed, m from the tip, whether its parts fit or not: values that
/// hang on the balance point are off until they have settled, and only then can be judged.
pub fn first_balance(design: &Design) -> Option<f64> {
    let weights = weigh::weights(design, &mut Vec::new());
    let settled = balance::settle(design, &weights);
    let weighings = weighing::weighings(design, &weights, &settled.extents);
    let tail = weighing::tail(design, &settled.extents);
    let assessment = Assessment { tail, extents: settled.extents, weights, weighings, ..Assessment::default() };
    let weighed = |number: usize| flight::weighed(design, &assessment, number).loaded;
    (0..design.flights.len()).find_map(weighed).map(|loaded| loaded.x)
}

/// Everything but the flights.
pub(crate) fn airframe(design: &Design) -> Assessment {
    let mut unknown = Vec::new();
    let calibre = design.calibre();
    let mut weights = weigh::weights(design, &mut unknown);
    let (settled, misfits) = balance::settle_fitting(design, &mut weights);
    unknown.extend(misfits.iter().filter_map(|misfit| {
        let (subject, place) = (Subject::Part(misfit.part), design.parts.get(misfit.part)?.header);
        Some(Unknown { subject, measure: Measure::Mass, needs: Needs::Elsewhere, place })
    }));
    balance::report_unplaced(design, &settled, &mut unknown);
    for id in &settled.unsettled {
        let place = design.parts.get(*id).map(|part| part.header).unwrap_or_default();
        unknown.push(Unknown { subject: Subject::Part(*id), measure: Measure::Place, needs: Needs::Settling, place });
    }
    let shaped = calibre.filter(|_| design.lost.is_empty());
    // What stands in another thing's place has no air around it that could be known.
    let shaped = shaped.filter(|_| !misfits.iter().any(|misfit| misfit.fault.is_of_shape()));
    let airflow = shaped.and_then(|c| airflow::airflow(design, &settled.extents, c, balance::WHOLE, &mut unknown));
    // What the upper stage lacks is among what the whole lacks.
    let alone = design.booster.and(shaped);
    let upper_airflow =
        alone.and_then(|c| airflow::airflow(design, &settled.extents, c, &[Stage::Upper], &mut Vec::new()));
    let tail = weighing::tail(design, &settled.extents);
    let weighings = weighing::weighings(design, &weights, &settled.extents);
    Assessment {
        calibre,
        tail,
        extents: settled.extents,
        weights,
        weighings,
        airflow,
        upper_airflow,
        motors: design.motors.iter().map(motor::motor).collect(),
        flights: Vec::new(),
        unknown,
        misfits,
        unsettled: settled.unsettled,
        settled: true,
        spreads: OnceLock::new(),
        second: OnceLock::new(),
        second_of_upper: OnceLock::new(),
    }
}
