//! What the bench says against the design: what sits where a mass is missing, and which part to weigh first.

use crate::airframe::Airframe;
use crate::weigh::Weight;
use finwright_model::{Design, Extent, PartId};
use finwright_physics::mass::MassProps;

/// What is at a station: the stretch of the airframe, and the part in or on it that is there or next to it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spot {
    /// The nose, tube or taper; `None` beyond the rocket.
    pub body: Option<PartId>,
    /// The part at that station or nearest to it, and whether the station lies in its stretch.
    pub near: Option<(PartId, bool)>,
}

/// What is at a station, m from the tip. A part further away than a calibre isn't near.
pub fn spot(design: &Design, airframe: &Airframe, station: f64) -> Spot {
    let known = |(id, extent): (PartId, &Option<Extent>)| Some((id, (*extent)?));
    let placed: Vec<(PartId, Extent)> = airframe.extents.iter().enumerate().filter_map(known).collect();
    let is_body = |id: PartId| design.parts.get(id).is_some_and(|part| part.is_body());
    let is_guide = |id: PartId| design.parts.get(id).is_some_and(|part| part.is_guide());
    let off = |extent: Extent| (extent.front - station).max(station - extent.back).max(0.0);
    let body = placed.iter().find(|(id, extent)| is_body(*id) && off(*extent) == 0.0).map(|(id, _)| *id);
    // Guides weigh next to nothing and are everywhere; the shortest stretch tells most.
    let inner = placed.iter().filter(|(id, _)| !is_body(*id) && !is_guide(*id));
    let near = inner
        .map(|(id, extent)| (*id, off(*extent), extent.length()))
        .filter(|(_, off, _)| airframe.calibre.is_some_and(|calibre| *off <= calibre))
        .min_by(|a, b| a.1.total_cmp(&b.1).then(a.2.total_cmp(&b.2)))
        .map(|(id, off, _)| (id, off == 0.0));
    Spot { body, near: near.filter(|_| body.is_some()) }
}

/// A part whose mass nobody has weighed, and the change of it that would explain the balance point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suspect {
    /// The part.
    pub part: PartId,
    /// Its mass in the design, kg.
    pub mass: f64,
    /// How much heavier it would have to be, kg; negative for lighter.
    pub change: f64,
}

/// The part that most likely explains a balance point at `measured` m from the tip: among those that aren't weighed,
/// the one whose mass times its lever is largest, so that the smallest share of it has to change. From the balance of
/// moments about the measured point: m (x_p − x_m) = M (x_m − x).
pub fn suspect(airframe: &Airframe, design: MassProps, measured: f64) -> Option<Suspect> {
    let weighed = |(id, weight): (PartId, &Option<Weight>)| -> Option<(PartId, f64, f64)> {
        let weight = weight.as_ref().filter(|weight| !weight.given)?;
        let extent = airframe.extents.get(id).copied().flatten()?;
        Some((id, weight.own.mass, extent.front + weight.own.x - measured))
    };
    let unweighed = airframe.weights.iter().enumerate().filter_map(weighed);
    let moment = |(_, mass, lever): &(PartId, f64, f64)| (mass * lever).abs();
    let (part, mass, lever) = unweighed.max_by(|a, b| moment(a).total_cmp(&moment(b)))?;
    let change = design.mass * (measured - design.x) / lever;
    // A part can't lose more than it has.
    (change.is_finite() && change > -mass).then_some(Suspect { part, mass, change })
}
