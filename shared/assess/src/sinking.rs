//! How fast the rocket sinks under what opens; that needs no flight.

use crate::unknown::{Measure, Needs, Subject};
use crate::{FlightNumbers, Unknown};
use finwright_model::{Design, Part, PartId, PartKind};
use finwright_physics::descent::{descent_speed, kinetic_energy, round_area};

/// Coming down under a parachute or a streamer. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sinking {
    /// The part that opens: the one with the largest drag area.
    pub part: PartId,
    /// Its drag area, m2.
    pub drag_area: f64,
    /// Its drag coefficient, given or usual.
    pub drag: f64,
    /// Whether that is the usual one, for want of one in the file.
    pub is_usual_drag: bool,
    /// The mass that comes down: that of the upper stage, where there are two, its motor burnt out, kg.
    pub mass: f64,
    /// Steady speed in the air at the ground, m/s.
    pub rate: f64,
    /// Energy of the rocket as a whole at that speed, J: what rules of the trade count, without the wind.
    pub energy: f64,
}

/// Drag coefficients where the file gives none, by the vocabulary: a flat round canopy's on its cloth (Knacke, Parachute
/// Recovery Systems Design Manual, from memory), a streamer's on one side (common practice, no source).
const CANOPY_CD: f64 = 0.75;
const STREAMER_CD: f64 = 0.3;

/// How fast a flight's rocket sinks, once it's weighed; `None` where nothing opens or something isn't known, which then goes
/// to the flight's unknowns.
pub(crate) fn sinking(design: &Design, numbers: &mut FlightNumbers) -> Option<Sinking> {
    let mut largest: Option<Sinking> = None;
    let mut whole = true;
    for (id, part) in design.parts.iter().enumerate().filter(|(_, part)| opens(part)) {
        let Some((area, drag, usual)) = cloth(part).filter(|_| part.broken.is_empty()) else {
            let needs = if part.missing.is_empty() { Needs::Elsewhere } else { Needs::Fields(part.missing.clone()) };
            let (subject, measure) = (Subject::Part(id), Measure::Descent);
            numbers.unknown.push(Unknown { subject, measure, needs, place: part.header });
            whole = false;
            continue;
        };
        let (drag, is_usual_drag) = (drag.unwrap_or(usual), drag.is_none());
        let drag_area = area * drag;
        if drag_area > 0.0 && largest.is_none_or(|most| drag_area > most.drag_area) {
            largest = Some(Sinking { part: id, drag_area, drag, is_usual_drag, mass: 0.0, rate: 0.0, energy: 0.0 });
        }
    }
    let found = largest.filter(|_| whole)?;
    let mass = match &numbers.upper {
        Some(upper) => upper.burning.dry.mass,
        None => numbers.burnt?.mass,
    };
    let rate = descent_speed(mass, numbers.air?.density, found.drag_area);
    Some(Sinking { mass, rate, energy: kinetic_energy(mass, rate), ..found })
}

/// Whether a part is there to slow the rocket.
pub fn opens(part: &Part) -> bool {
    matches!(part.kind, PartKind::Parachute { .. } | PartKind::Streamer { .. })
}

/// The area of a parachute's or streamer's cloth, m2, its drag coefficient as given, and the usual one.
fn cloth(part: &Part) -> Option<(f64, Option<f64>, f64)> {
    match &part.kind {
        PartKind::Parachute { diameter: Some(diameter), drag } => {
            Some((round_area(diameter.si), drag.as_ref().map(|d| d.si), CANOPY_CD))
        }
        PartKind::Streamer { length: Some(length), width: Some(width), drag } => {
            Some((length.si * width.si, drag.as_ref().map(|d| d.si), STREAMER_CD))
        }
        _ => None,
    }
}
