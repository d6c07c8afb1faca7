//! What is read of the blocks before their names are followed.

use crate::design::{Amount, Flight, Flown, Material, Measured, Motor, Named, Pad, Section, Site};
use crate::parts::RawPart;
use finwright_grammar::{Place, Relation};

/// Definitions whose references still are names.
#[derive(Default)]
pub(crate) struct Raw {
    pub parts: Vec<RawPart>,
    pub materials: Vec<Material>,
    pub sections: Vec<(Section, Option<Named<String>>)>,
    pub motors: Vec<Motor>,
    pub pads: Vec<(Pad, Option<Named<String>>)>,
    pub sites: Vec<Site>,
    pub flights: Vec<RawFlight>,
    pub measured: Vec<RawMeasured>,
    pub flown: Vec<(Flown, Option<Named<String>>)>,
}

pub(crate) struct RawFlight {
    pub flight: Flight,
    pub motor: Option<Named<String>>,
    pub booster_motor: Option<Named<String>>,
    pub pad: Option<Named<String>>,
    pub guided_by: Option<Vec<Named<String>>>,
    pub site: Option<Named<String>>,
}

pub(crate) struct RawMeasured {
    pub measured: Measured,
    pub with: Option<Named<String>>,
    pub balance: Option<(Amount, Option<Relation>, Place)>,
}
