//! Whether the pad itself stays standing: the wind's moment against what holds its feet down.

use super::air::Air;
use super::pad::OnPad;
use super::stiffness::Stiffness;
use super::weighed::Mounted;
use crate::airflow::Airflow;
use finwright_model::Pad;
use finwright_physics::air::G0;
use finwright_physics::mass::MassProps;

/// The moments over the edge across which the pad would tip, N m. Small pads of wide rockets tip before rods bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// Of a gust on rocket and rod or rail.
    pub gust: f64,
    /// Of the weights and the stakes, which hold it.
    pub holds: f64,
    /// The gust that just tips it, as the site's meter reads it, m/s; infinite where none does.
    pub tips_at: f64,
    /// How far its edge would have to lie from under the rod or rail to hold the site's gust well, m; `None` where no
    /// edge would.
    pub stance_for: Option<f64>,
}

/// How many times a gust's moment the pad should hold (common practice, no source).
pub const WELL_HELD: f64 = 1.5;

/// A pad that says what it weighs and how it stands; `None` where it doesn't, or its rod or rail isn't known as a beam.
///
/// The wind pushes the rocket at the middle of its side view and the rod or rail at half its height, each as high as it
/// stands above the ground; a pad that leans downwind, or bends there, brings the rocket's weight nearer to the edge, which
/// is counted for a lean whichever way the pad stands, since the wind turns. The stakes of the far side hold at twice the
/// distance of the edge. The drag of the pad's own legs is left out.
pub(crate) fn standing(
    (airflow, air): (&Airflow, &Air),
    pad: &Pad,
    (on_pad, mounted, loaded): (&OnPad, Mounted, MassProps),
    stiffness: Option<&Stiffness>,
) -> Option<Standing> {
    let (mass, stance) = (pad.mass.as_ref()?.si, pad.stance.as_ref()?.si);
    let (staked, foot) = (pad.staked_or_free().si, pad.foot_or_ground().si);
    let lowest = mounted.lowest?;
    let height = |station: f64| foot + on_pad.stop.si + lowest - station;
    // Every moment of the wind grows with its square.
    let of_rod = stiffness.map_or(0.0, |stiffness| stiffness.blown(air, 1.0));
    let side = airflow.side_force(air.density, 1.0);
    let per_square = side * height(airflow.side_centroid) + of_rod * (foot + 0.5 * on_pad.rail_length);
    let gust = per_square * air.gust * air.gust;
    let nearer = height(loaded.x) * on_pad.tilt.si.sin();
    let weights = |stance: f64| mass * G0 * stance + loaded.mass * G0 * (stance - nearer) + 2.0 * staked * stance;
    let holds = weights(stance);
    let tips_at = air.as_read((holds.max(0.0) / per_square).sqrt());
    let per_stance = weights(1.0) - weights(0.0);
    let stance_for = (WELL_HELD * gust - weights(0.0)) / per_stance;
    Some(Standing { gust, holds, tips_at, stance_for: (per_stance > 0.0).then_some(stance_for) })
}

impl Standing {
    /// How many times a gust's moment it holds.
    pub fn times(&self) -> f64 {
        self.holds / self.gust
    }
}
