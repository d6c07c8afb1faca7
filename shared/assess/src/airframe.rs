//! Everything about a design but its flights: what the parts weigh, where they sit, what the air sees of them.

use crate::airflow::{airflow, Airflow};
use crate::misfit::Misfit;
use crate::motor::{motor, MotorNumbers};
use crate::mounted::tail;
use crate::place::{report_unplaced, settle, settle_fitting, Settled};
use crate::second::SecondOpinion;
use crate::shape::{shapes, Parts, Shape};
use crate::stage::WHOLE;
use crate::unknown::{Measure, Needs, Subject, Unknown};
use crate::weigh::{weights, Weight};
use crate::weighing::{weighings, Weighing};
use finwright_model::{Design, Extent, PartId, Stage};
use std::sync::OnceLock;

/// What is known of a design without asking for a flight. Lengths in m, stations from the tip.
#[derive(Clone, Debug, Default)]
pub struct Airframe {
    /// The reference diameter: the widest place of the airframe.
    pub calibre: Option<f64>,
    /// Station of the airframe's aft end.
    pub tail: Option<f64>,
    /// Each part's outer shape.
    pub shapes: Vec<Shape>,
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
    /// What couldn't be computed and what it needs.
    pub unknown: Vec<Unknown>,
    /// What can't be about the parts.
    pub misfits: Vec<Misfit>,
    /// Parts placed from the balance point whose place doesn't settle.
    pub unsettled: Vec<PartId>,
    /// Whether the values that hang on the balance point settled; true where none does.
    pub settled: bool,
    /// Another method's word on the air, of the whole rocket and of the upper stage, once somebody asks: see
    /// [`crate::Assessment::second`].
    pub(crate) second: OnceLock<Option<SecondOpinion>>,
    pub(crate) second_of_upper: OnceLock<Option<SecondOpinion>>,
}

impl Airframe {
    /// The parts with their shapes in their places.
    pub fn parts<'a>(&'a self, design: &'a Design) -> Parts<'a> {
        Parts { design, shapes: &self.shapes, extents: &self.extents }
    }
}

/// Compute everything but the flights.
pub(crate) fn airframe(design: &Design) -> Airframe {
    let mut unknown = Vec::new();
    let calibre = design.calibre();
    let shapes = shapes(design);
    let mut weights = weights(Parts { design, shapes: &shapes, extents: &[] }, &mut unknown);
    let (settled, misfits) = settle_fitting(design, &shapes, &mut weights);
    unknown.extend(misfits.iter().filter_map(|misfit| {
        let (subject, place) = (Subject::Part(misfit.part), design.parts.get(misfit.part)?.header);
        Some(Unknown { subject, measure: Measure::Mass, needs: Needs::Elsewhere, place })
    }));
    report_unplaced(design, &settled, &mut unknown);
    for id in &settled.unsettled {
        let place = design.parts.get(*id).map(|part| part.header).unwrap_or_default();
        unknown.push(Unknown { subject: Subject::Part(*id), measure: Measure::Place, needs: Needs::Settling, place });
    }
    let Settled { extents, unsettled } = settled;
    let parts = Parts { design, shapes: &shapes, extents: &extents };
    let shaped = calibre.filter(|_| design.lost.is_empty());
    // What stands in another thing's place has no air around it that could be known.
    let shaped = shaped.filter(|_| !misfits.iter().any(|misfit| misfit.fault.is_of_shape()));
    let whole_airflow = shaped.and_then(|calibre| airflow(parts, calibre, WHOLE, &mut unknown));
    // What the upper stage lacks is among what the whole lacks.
    let alone = design.booster.and(shaped);
    let upper_airflow = alone.and_then(|calibre| airflow(parts, calibre, &[Stage::Upper], &mut Vec::new()));
    Airframe {
        calibre,
        tail: tail(parts),
        weighings: weighings(parts, &weights),
        airflow: whole_airflow,
        upper_airflow,
        motors: design.motors.iter().map(motor).collect(),
        shapes,
        extents,
        weights,
        unknown,
        misfits,
        unsettled,
        settled: true,
        second: OnceLock::new(),
        second_of_upper: OnceLock::new(),
    }
}

/// The parts in their places with their weights, whether they fit or not, and nothing about the air: what the balance
/// point of values that hang on it is taken from, round by round.
pub(crate) fn weights_in_place(design: &Design) -> Airframe {
    let shapes = shapes(design);
    let weights = weights(Parts { design, shapes: &shapes, extents: &[] }, &mut Vec::new());
    let extents = settle(design, &shapes, &weights).extents;
    let weighings = weighings(Parts { design, shapes: &shapes, extents: &extents }, &weights);
    Airframe { shapes, extents, weights, weighings, ..Airframe::default() }
}
