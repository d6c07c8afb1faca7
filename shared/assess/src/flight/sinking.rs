//! How fast the rocket sinks under what opens; that needs no flight.

use crate::stage::delay;
use crate::unknown::{Measure, Needs, Subject, Unknown};
use finwright_model::{Design, Flight, Part, PartId, PartKind};
use finwright_physics::air::G0;
use finwright_physics::canopies::Opens;
use finwright_physics::descent::{descent_speed, kinetic_energy, round_area};

/// Coming down under parachutes and streamers, all that are open at the ground. SI units.
#[derive(Clone, Debug, PartialEq)]
pub struct Sinking {
    /// The part with the largest drag area.
    pub part: PartId,
    /// Its drag coefficient, given or usual.
    pub drag: f64,
    /// Whether that is the usual one, for want of one in the file.
    pub is_usual_drag: bool,
    /// Everything that opens, in the file's order.
    pub canopies: Vec<Cloth>,
    /// Their drag area together, m2.
    pub drag_area: f64,
    /// The mass that comes down: that of the upper stage, where there are two, its motor burnt out, kg.
    pub mass: f64,
    /// Steady speed in the air at the ground, m/s.
    pub rate: f64,
    /// Energy of the rocket as a whole at that speed, J: what rules of the trade count, without the wind.
    pub energy: f64,
}

/// A parachute or streamer that opens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cloth {
    /// Its part.
    pub part: PartId,
    /// Its drag area, m2.
    pub drag_area: f64,
    /// Its drag coefficient, given or usual.
    pub drag: f64,
    /// When it opens; `None` where it waits for a delay that isn't known.
    pub opens: Option<Opens>,
}

impl Sinking {
    /// Whether it's known of everything when it opens.
    pub fn is_timed(&self) -> bool {
        self.canopies.iter().all(|cloth| cloth.opens.is_some())
    }

    /// The drag area of everything but the largest canopy, m2.
    pub fn other_area(&self) -> f64 {
        self.canopies.iter().filter(|cloth| cloth.part != self.part).map(|cloth| cloth.drag_area).sum()
    }

    /// The drag area that the largest canopy needs for a steady speed in m/s at a density, m2; none where the others do
    /// alone.
    pub fn area_for(&self, density: f64, speed: f64) -> f64 {
        (2.0 * self.mass * G0 / (density * speed * speed) - self.other_area()).max(0.0)
    }
}

/// Drag coefficients where the file gives none, by the vocabulary: a flat round canopy's on its cloth (Knacke,
/// Parachute Recovery Systems Design Manual, from memory), a streamer's on one side (common practice, no source).
pub const CANOPY_CD: f64 = 0.75;
/// See [`CANOPY_CD`].
pub const STREAMER_CD: f64 = 0.3;

/// How fast a rocket sinks that comes down with a mass in kg in air of a density in kg/m3, each where it's known;
/// `None` where nothing opens or something isn't known.
pub(crate) fn sinking(
    design: &Design,
    flight: &Flight,
    down: Option<(f64, f64)>,
    unknown: &mut Vec<Unknown>,
) -> Option<Sinking> {
    let mut canopies: Vec<(Cloth, bool)> = Vec::new();
    let mut whole = true;
    for (id, part) in design.parts.iter().enumerate().filter(|(_, part)| opens(part)) {
        let Some((area, drag, usual)) = cloth(part).filter(|_| part.broken.is_empty()) else {
            let needs = if part.missing.is_empty() { Needs::Elsewhere } else { Needs::Fields(part.missing.clone()) };
            let (subject, measure) = (Subject::Part(id), Measure::Descent);
            unknown.push(Unknown { subject, measure, needs, place: part.header });
            whole = false;
            continue;
        };
        let (drag, is_usual) = (drag.unwrap_or(usual), drag.is_none());
        if area * drag > 0.0 {
            let opens = when(design, flight, part);
            canopies.push((Cloth { part: id, drag_area: area * drag, drag, opens }, is_usual));
        }
    }
    let larger = |a: &&(Cloth, bool), b: &&(Cloth, bool)| a.0.drag_area.total_cmp(&b.0.drag_area);
    let (largest, is_usual_drag) = *canopies.iter().max_by(larger).filter(|_| whole)?;
    let drag_area = canopies.iter().map(|(cloth, _)| cloth.drag_area).sum();
    let (mass, density) = down?;
    let rate = descent_speed(mass, density, drag_area);
    Some(Sinking {
        part: largest.part,
        drag: largest.drag,
        is_usual_drag,
        canopies: canopies.into_iter().map(|(cloth, _)| cloth).collect(),
        drag_area,
        mass,
        rate,
        energy: kinetic_energy(mass, rate),
    })
}

/// When a part opens in a flight: by the motor's delay unless it says otherwise.
fn when(design: &Design, flight: &Flight, part: &Part) -> Option<Opens> {
    let (PartKind::Parachute { opens, .. } | PartKind::Streamer { opens, .. }) = &part.kind else { return None };
    match opens.as_ref().map(|opening| &opening.when) {
        None | Some(finwright_model::Opens::AtDelay) => delay(design, flight).map(Opens::AfterBurnout),
        Some(finwright_model::Opens::AtTop) => Some(Opens::AfterApogee(0.0)),
        Some(finwright_model::Opens::AfterTop(time)) => Some(Opens::AfterApogee(time.si)),
        Some(finwright_model::Opens::AboveGround(height)) => Some(Opens::Below(height.si)),
    }
}

/// Whether a part is there to slow the rocket.
pub fn opens(part: &Part) -> bool {
    matches!(part.kind, PartKind::Parachute { .. } | PartKind::Streamer { .. })
}

/// Whether a part waits for the motor's charge.
pub fn waits_for_charge(part: &Part) -> bool {
    match &part.kind {
        PartKind::Parachute { opens, .. } | PartKind::Streamer { opens, .. } => {
            opens.as_ref().is_none_or(|opening| opening.when == finwright_model::Opens::AtDelay)
        }
        _ => false,
    }
}

/// The area of a parachute's or streamer's cloth, m2, its drag coefficient as given, and the usual one.
fn cloth(part: &Part) -> Option<(f64, Option<f64>, f64)> {
    match &part.kind {
        PartKind::Parachute { diameter: Some(diameter), drag, .. } => {
            Some((round_area(diameter.si), drag.as_ref().map(|d| d.si), CANOPY_CD))
        }
        PartKind::Streamer { length: Some(length), width: Some(width), drag, .. } => {
            Some((length.si * width.si, drag.as_ref().map(|d| d.si), STREAMER_CD))
        }
        _ => None,
    }
}
