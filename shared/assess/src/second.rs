//! A second opinion on the centre of pressure: the fins' lift, and what they put on the body, by a vortex lattice.
//!
//! The lattice of a shape takes up to some milliseconds, so it's worked out when a rule or a reader first asks, and
//! remembered for every assessment that has fins of the same shape.

use crate::airflow::{fin_set, Airflow};
use crate::shape::Parts;
use finwright_model::{PartId, PartKind};
use finwright_physics::fins::FinShape;
use finwright_physics::lattice::{lift, LatticeLift};
use finwright_physics::normal_force::{total, NormalForce};
use std::sync::{Mutex, PoisonError};

/// What the second method says. Stations from the tip in m, slopes on the calibre's circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SecondOpinion {
    /// The normal-force slope and centre of pressure of the whole.
    pub total: NormalForce,
    /// How far its centre of pressure lies behind the usual method's, in calibres; negative where the usual margin is
    /// too hopeful.
    pub shift: f64,
}

/// From this difference in calibres on the second opinion is told: the lattice itself is good to about as much.
pub const WORTH_TELLING: f64 = 0.1;

impl SecondOpinion {
    /// Whether it differs so much that it's told.
    pub fn differs(&self) -> bool {
        self.shift.abs() >= WORTH_TELLING
    }

    /// What it takes off a margin, in calibres: the lesser of two margins is judged.
    pub fn doubt(&self) -> f64 {
        if self.differs() {
            (-self.shift).max(0.0)
        } else {
            0.0
        }
    }
}

/// The second opinion on what the air sees; `None` without flat fins. Sets of fins are taken one by one, as if the
/// others weren't there.
pub(crate) fn second(parts: Parts, airflow: &Airflow, calibre: f64) -> Option<SecondOpinion> {
    let mut shares = Vec::new();
    let mut any = false;
    for (id, usual) in &airflow.parts {
        let fins = airflow.fins.iter().any(|(fins, _)| fins == id);
        any |= fins;
        shares.push(if fins { of_fins(parts, *id, airflow)? } else { *usual });
    }
    let total = total(shares);
    let shift = (total.x()? - airflow.total.x()?) / calibre;
    any.then_some(SecondOpinion { total, shift })
}

fn of_fins(parts: Parts, id: PartId, airflow: &Airflow) -> Option<NormalForce> {
    let part = parts.part(id)?;
    let PartKind::Fins(fins) = &part.kind else { return None };
    let set = fin_set(parts, id, part, fins)?;
    let plan = parts.fin(id)?.plan.clone();
    let at_origin = remembered(FinsOnBody { fin: plan, count: set.count, radius: set.body_radius })?;
    let both = total([at_origin.fins, at_origin.body]);
    let cna = both.cna / airflow.reference_area;
    Some(NormalForce { cna, moment: both.moment / airflow.reference_area + cna * set.x })
}

/// What decides a lattice.
#[derive(PartialEq)]
struct FinsOnBody {
    fin: FinShape,
    count: u32,
    radius: f64,
}

/// More shapes than this aren't kept; then they are forgotten, all at once.
const MOST_SHAPES: usize = 64;

static MEMO: Mutex<Vec<(FinsOnBody, Option<LatticeLift>)>> = Mutex::new(Vec::new());

/// The lift on an area of 1 m², the roots beginning at station 0: from the same numbers the same, so it's no other
/// result.
fn remembered(shape: FinsOnBody) -> Option<LatticeLift> {
    let memo = || MEMO.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((_, known)) = memo().iter().find(|(known, _)| *known == shape) {
        return *known;
    }
    let found = lift(&shape.fin, shape.count, shape.radius, 0.0, 0.0, 1.0).ok();
    let mut memo = memo();
    if memo.len() >= MOST_SHAPES {
        memo.clear();
    }
    memo.push((shape, found));
    found
}
