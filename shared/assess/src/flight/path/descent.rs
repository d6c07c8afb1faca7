//! Coming down, as the flight's moments tell it.

use crate::flight::sinking::{Cloth, Sinking};
use finwright_model::PartId;
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::descent::{descent_speed, kinetic_energy};
use finwright_physics::flight::{FlightPath, Moment, Opened};

/// Coming down.
#[derive(Clone, Debug, PartialEq)]
pub struct Descent {
    /// Under what at the ground, and how fast.
    pub sinking: Sinking,
    /// Time from burnout to the motor's charge, s, where something waits for it.
    pub delay: Option<f64>,
    /// What opens, in the order of time; none where the ground comes first.
    pub openings: Vec<Opening>,
    /// Speed over ground at landing, m/s.
    pub landing_speed: f64,
    /// Energy at landing of the rocket as a whole, J.
    pub landing_energy: f64,
}

/// A moment at which something opens.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// The parts that open then.
    pub parts: Vec<PartId>,
    /// The moment.
    pub moment: Moment,
    /// Speed through the air, m/s.
    pub air_speed: f64,
    /// The air's pull on what opens, N: its drag alone, without the jerk.
    pub pull: f64,
    /// The drag area of all that are open from then on, m2.
    pub drag_area: f64,
    /// Steady speed under them in the air at the ground, m/s.
    pub rate: f64,
}

impl Descent {
    /// Speed through the air at the first opening, m/s; `None` where the ground comes first.
    pub fn opening_speed(&self) -> Option<f64> {
        self.openings.first().map(|opening| opening.air_speed)
    }

    /// The opening that waits for the motor's charge, where there is one and the ground doesn't come first.
    pub fn by_delay(&self) -> Option<&Opening> {
        let waits = |cloth: &&Cloth| matches!(cloth.opens, Some(Opens::AfterBurnout(_)));
        let waiting: Vec<PartId> = self.sinking.canopies.iter().filter(waits).map(|cloth| cloth.part).collect();
        self.openings.iter().find(|opening| opening.parts.iter().any(|part| waiting.contains(part)))
    }
}

/// Under what a flight came down, and what opened on the way.
pub(super) fn descent(sinking: &Sinking, canopies: &[Canopy], density: f64, moments: &FlightPath) -> Descent {
    Descent {
        delay: canopies.iter().find_map(|canopy| match canopy.opens {
            Opens::AfterBurnout(delay) => Some(delay),
            _ => None,
        }),
        openings: openings(sinking, density, moments),
        landing_speed: moments.landing.speed,
        landing_energy: kinetic_energy(sinking.mass, moments.landing.speed),
        sinking: sinking.clone(),
    }
}

fn openings(sinking: &Sinking, density: f64, moments: &FlightPath) -> Vec<Opening> {
    let mut before: Vec<PartId> = Vec::new();
    let each = moments.openings.iter().map(|opened| {
        let open = sinking.canopies.iter().zip(&opened.open).filter(|(_, open)| **open).map(|(cloth, _)| cloth.part);
        let parts: Vec<PartId> = open.filter(|part| !before.contains(part)).collect();
        before.extend(&parts);
        let rate = descent_speed(sinking.mass, density, opened.drag_area);
        let own = sinking.canopies.iter().filter(|cloth| parts.contains(&cloth.part));
        let pull = 0.5 * density * opened.air_speed.powi(2) * own.map(|cloth| cloth.drag_area).sum::<f64>();
        let Opened { moment, air_speed, drag_area, .. } = *opened;
        Opening { parts, moment, air_speed, pull, drag_area, rate }
    });
    each.collect()
}
