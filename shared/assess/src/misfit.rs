//! What can't be about a part beside the others: a wall thicker than there is room for, fins through each other.
//! Nothing is computed from such a part, so that no number rests on what nobody can build.
//!
//! Sizes are compared at the near ends of their tolerances: what may be so within them isn't told.

mod fins;
mod flown;
mod places;
mod sizes;

pub use flown::FlightMisfit;
pub(crate) use flown::{guides, motor, pressure};

use crate::shape::Parts;
use crate::weigh::Weight;
use finwright_grammar::Place;
use finwright_model::{Amount, Extent, PartId};

/// Something that can't be about a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Misfit {
    /// The part.
    pub part: PartId,
    /// What it is.
    pub fault: Fault,
    /// Where it's said.
    pub place: Place,
}

/// What can't be. Lengths in m.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A wall as thick as the radius that it's in, or thicker.
    ThickWall {
        /// The wall.
        wall: f64,
        /// The radius.
        radius: f64,
    },
    /// A mass farther off the axis than the body reaches.
    OffAxis {
        /// How far it lies off the axis.
        off: f64,
        /// How far it may.
        most: f64,
        /// The stretch of the body that it's in.
        on: PartId,
    },
    /// A disc wider than what it sits in.
    TooWide {
        /// Its diameter.
        wide: f64,
        /// The diameter that there is room for.
        room: f64,
        /// What it sits in.
        home: PartId,
    },
    /// A tab longer than the root.
    TabTooLong {
        /// The tab.
        tab: f64,
        /// The root.
        root: f64,
    },
    /// A tab that reaches deeper than there is room.
    TabTooDeep {
        /// How deep.
        tab: f64,
        /// The room.
        room: f64,
        /// The mount or the body that ends it.
        against: PartId,
    },
    /// A fillet higher than its fin.
    FilletOverSpan {
        /// Its radius.
        fillet: f64,
        /// The fin's span.
        span: f64,
    },
    /// A fillet that meets the next fin's.
    FilletsMeet {
        /// Its radius.
        fillet: f64,
        /// The radius from which on they meet.
        most: f64,
    },
    /// Fins that stand in the same place as those of another set.
    Crossing {
        /// The other set.
        other: PartId,
        /// The stretch that they share.
        shared: f64,
    },
    /// More fins or tubes than there is room for around the body.
    Crowded {
        /// How many.
        count: f64,
        /// How many there is room for.
        most: f64,
    },
    /// A cluster's mounts through each other.
    MountsMeet {
        /// The circle on which their middles lie, its diameter.
        circle: f64,
        /// The circle on which they touch.
        least: f64,
    },
    /// A part's own balance point outside of it.
    BalanceOutside {
        /// From the part's front.
        at: f64,
        /// The part with what is in it, from its front.
        room: Extent,
    },
    /// A guide that the rocket ends ahead of, or begins behind.
    OffRocket {
        /// The gap between them.
        gap: f64,
        /// Whether it lies behind the tail.
        behind: bool,
    },
    /// Something packed where another part is solid.
    InSolid {
        /// The solid part.
        solid: PartId,
    },
    /// A nose that isn't the first of the airframe.
    NoseBehind {
        /// The stretch ahead of it.
        ahead: PartId,
    },
}

impl Fault {
    /// Whether the outside isn't known for it.
    pub(crate) fn is_of_shape(&self) -> bool {
        matches!(self, Fault::Crossing { .. } | Fault::Crowded { .. } | Fault::NoseBehind { .. })
    }

    /// Whether the part can't be where it's said to be.
    fn is_of_place(&self) -> bool {
        matches!(self, Fault::OffRocket { .. })
    }
}

/// Everything that can't be about the parts at these places.
pub(crate) fn misfits(parts: Parts) -> Vec<Misfit> {
    let mut found = sizes::sizes(parts);
    found.extend(fins::fins(parts));
    found.extend(places::places(parts));
    found
}

/// Take the weights of such parts for unknown.
pub(crate) fn forget_weights(weights: &mut [Option<Weight>], misfits: &[Misfit]) {
    for misfit in misfits {
        if let Some(weight) = weights.get_mut(misfit.part) {
            *weight = None;
        }
    }
}

/// Take the places of those that can't be there for unknown.
pub(crate) fn forget_places(extents: &mut [Option<Extent>], misfits: &[Misfit]) {
    for misfit in misfits.iter().filter(|misfit| misfit.fault.is_of_place()) {
        if let Some(extent) = extents.get_mut(misfit.part) {
            *extent = None;
        }
    }
}

/// The least that an amount may be within its tolerance.
fn least(amount: &Amount) -> f64 {
    amount.si - amount.spread.total()
}

/// The most that it may be.
fn most(amount: &Amount) -> f64 {
    amount.si + amount.spread.total()
}

/// What two lengths may differ by and still be meant to be equal, m.
const SAME: f64 = 0.05e-3;
