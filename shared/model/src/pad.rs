//! A pad's numbers, and what is taken where the file says none: one place for each default, which the vocabulary words.

use crate::design::{Amount, Pad, Rail};

/// A number that the file gives, or one that is taken because it gives none. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// The number.
    pub si: f64,
    /// Whether it's taken because the file says nothing.
    pub is_default: bool,
}

impl Taken {
    /// The number that the file gives, or else the default.
    pub fn or(given: Option<&Amount>, default: f64) -> Taken {
        Taken { si: given.map_or(default, |amount| amount.si), is_default: given.is_none() }
    }
}

/// Friction coefficient of lugs on a rod, where the pad doesn't say (common practice, no source).
pub const ROD_FRICTION: f64 = 0.3;
/// Friction coefficient of buttons and shoes in a rail, where the pad doesn't say (common practice, no source).
pub const RAIL_FRICTION: f64 = 0.25;

/// How wide a tower's rail is, seen from above, whose pad doesn't say, m (common practice, no source).
pub const TOWER_RAIL: f64 = 6.0e-3;

impl Pad {
    /// Whether a rod stands on it.
    pub fn has_rod(&self) -> bool {
        matches!(self.rail, Some(Rail::Rod { .. }))
    }

    /// Whether a tower stands on it, which holds the rocket by its body and needs no guides.
    pub fn has_tower(&self) -> bool {
        matches!(self.rail, Some(Rail::Tower { .. }))
    }

    /// What to call what stands on it: "rod", "rail" or "tower".
    pub fn rail_word(&self) -> &'static str {
        match self.rail {
            Some(Rail::Rod { .. }) => "rod",
            Some(Rail::Tower { .. }) => "tower",
            Some(Rail::Slotted { .. }) | None => "rail",
        }
    }

    /// The length of its rod or rail, with its place, m.
    pub fn rail_length(&self) -> Option<&Amount> {
        match self.rail.as_ref()? {
            Rail::Rod { length, .. } | Rail::Slotted { length, .. } | Rail::Tower { length, .. } => length.as_ref(),
        }
    }

    /// How high above the foot of the rod or rail the rocket rests, m: at the foot, unless said.
    pub fn stop_or_foot(&self) -> Taken {
        Taken::or(self.stop.as_ref(), 0.0)
    }

    /// How high the foot of the rod or rail stands over the ground, m: on it, unless said.
    pub fn foot_or_ground(&self) -> Taken {
        Taken::or(self.foot.as_ref(), 0.0)
    }

    /// What the stakes of one side bear, N: nothing, unless said.
    pub fn staked_or_free(&self) -> Taken {
        Taken::or(self.staked.as_ref(), 0.0)
    }

    /// How far the foot turns under 1 N m, rad: not at all, unless said.
    pub fn yields_or_stiff(&self) -> Taken {
        Taken::or(self.yields.as_ref(), 0.0)
    }

    /// How far it leans from the vertical, rad: upright, unless said.
    pub fn tilt_or_upright(&self) -> Taken {
        Taken::or(self.tilt.as_ref(), 0.0)
    }

    /// The friction coefficient between guides and rod or rail.
    pub fn friction_or_usual(&self) -> Taken {
        Taken::or(self.friction.as_ref(), if self.has_rod() { ROD_FRICTION } else { RAIL_FRICTION })
    }
}
