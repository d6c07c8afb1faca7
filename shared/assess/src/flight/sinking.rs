//! How fast the rocket sinks under what opens; that needs no flight.

use crate::shape::Parts;
use crate::stage::{delay, mount};
use crate::unknown::{Measure, Needs, Subject, Unknown};
use crate::weigh::Weight;
use finwright_model::{Design, Flight, Part, PartId, PartKind, Stage};
use finwright_physics::air::G0;
use finwright_physics::canopies::Opens;
use finwright_physics::descent::{descent_speed, kinetic_energy, round_area};

/// How a rocket comes down: in one piece, or apart.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Down {
    /// The piece with the motor, which is the whole rocket where nothing comes down by itself; `None` where nothing opens
    /// for it, or something isn't known.
    pub main: Option<Sinking>,
    /// Pieces that come down under their own parachute or streamer.
    pub apart: Vec<Sinking>,
    /// What nothing carries, where something carries the rest.
    pub bare: Option<Bare>,
}

/// A piece that falls with nothing to slow it.
#[derive(Clone, Debug, PartialEq)]
pub struct Bare {
    /// Its stretches of the body.
    pub bodies: Vec<PartId>,
    /// Its mass, kg.
    pub mass: f64,
    /// Whether the motor is in it.
    pub has_motor: bool,
}

/// Coming down under parachutes and streamers, all that are open at the ground. SI units.
#[derive(Clone, Debug, PartialEq)]
pub struct Sinking {
    /// The stretches of the body that hang under them; none where it's the whole rocket.
    pub bodies: Vec<PartId>,
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
    /// The mass that comes down: that of the upper stage, where there are two, its motor burnt out, or the piece's, kg.
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

/// How a rocket comes down with a mass in kg in air of a density in kg/m3, each where it's known.
pub(crate) fn down(
    parts: Parts,
    weights: &[Option<Weight>],
    flight: &Flight,
    known: Option<(f64, f64)>,
    unknown: &mut Vec<Unknown>,
) -> Down {
    let design = parts.design;
    let Some(cloths) = cloths(design, flight, unknown) else { return Down::default() };
    let Some((mass, density)) = known else { return Down::default() };
    let pieces = pieces(design, &cloths);
    // The piece with the motor weighs what the others leave of the whole, so that it's weighed where the whole is.
    let own = |piece: &Piece| piece.bodies.iter().map(|body| mass_within(design, weights, *body)).sum::<Option<f64>>();
    let others: Option<f64> = pieces.iter().filter(|piece| !piece.has_motor).map(own).sum();
    let Some(others) = others else { return Down::default() };
    let mut found = Down::default();
    for piece in &pieces {
        let Some(mass) = (if piece.has_motor { Some(mass - others) } else { own(piece) }).filter(|mass| *mass > 0.0)
        else {
            continue;
        };
        let bodies = if pieces.len() > 1 { piece.bodies.clone() } else { Vec::new() };
        match sinking(&piece.cloths, bodies, mass, density) {
            Some(sinking) if piece.has_motor => found.main = Some(sinking),
            Some(sinking) => found.apart.push(sinking),
            None if pieces.len() > 1 => {
                found.bare = Some(Bare { bodies: piece.bodies.clone(), mass, has_motor: piece.has_motor });
            }
            None => {}
        }
    }
    found
}

/// Everything that opens, with whether its drag coefficient is the usual one; `None` where something of it isn't known.
fn cloths(design: &Design, flight: &Flight, unknown: &mut Vec<Unknown>) -> Option<Vec<(Cloth, bool)>> {
    let mut cloths: Vec<(Cloth, bool)> = Vec::new();
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
            cloths.push((Cloth { part: id, drag_area: area * drag, drag, opens }, is_usual));
        }
    }
    whole.then_some(cloths)
}

/// What comes down by itself.
struct Piece {
    bodies: Vec<PartId>,
    cloths: Vec<(Cloth, bool)>,
    has_motor: bool,
}

/// The pieces: one for every list of body parts that something carries, and what nothing else carries.
fn pieces(design: &Design, cloths: &[(Cloth, bool)]) -> Vec<Piece> {
    let with_motor = mount(design, Stage::Upper).and_then(|(id, _)| body_of(design, id));
    let mut pieces: Vec<Piece> = Vec::new();
    for (cloth, is_usual) in cloths {
        let carries = design.parts.get(cloth.part).map_or(&[][..], Part::carries);
        let mut carried: Vec<PartId> = carries.iter().map(|named| named.value).collect();
        carried.sort_unstable();
        carried.dedup();
        match pieces.iter_mut().find(|piece| piece.bodies == carried) {
            Some(piece) => piece.cloths.push((*cloth, *is_usual)),
            None => pieces.push(Piece { bodies: carried, cloths: vec![(*cloth, *is_usual)], has_motor: false }),
        }
    }
    let rest = in_no_list(design, cloths.iter().filter_map(|(cloth, _)| design.parts.get(cloth.part)));
    match pieces.iter_mut().find(|piece| piece.bodies.is_empty()) {
        Some(piece) => piece.bodies = rest,
        None if !rest.is_empty() => pieces.push(Piece { bodies: rest, cloths: Vec::new(), has_motor: false }),
        None => {}
    }
    pieces.retain(|piece| !piece.bodies.is_empty());
    let holds = |piece: &Piece| with_motor.is_none_or(|body| piece.bodies.contains(&body));
    let main = pieces.iter().position(holds).unwrap_or(0);
    if let Some(piece) = pieces.get_mut(main) {
        piece.has_motor = true;
    }
    pieces
}

/// The parachutes and streamers under which nothing hangs, since others carry every piece of the body.
pub fn carries_nothing(design: &Design) -> Vec<&Part> {
    let cloths = design.parts.iter().filter(|part| opens(part) && part.stage == Stage::Upper);
    let (free, listing): (Vec<&Part>, Vec<&Part>) = cloths.partition(|part| part.carries().is_empty());
    // A list that can't be understood may leave something.
    let is_known = listing.iter().chain(&free).all(|part| !part.broken.contains(&"carries"));
    if !is_known || listing.is_empty() || !in_no_list(design, listing.iter().copied()).is_empty() {
        return Vec::new();
    }
    free
}

/// The stretches of the body that come down with the upper stage and that none of some parachutes and streamers lists.
fn in_no_list<'d>(design: &Design, cloths: impl Iterator<Item = &'d Part>) -> Vec<PartId> {
    let listed: Vec<PartId> = cloths.flat_map(Part::carries).map(|named| named.value).collect();
    let bodies = design.parts.iter().enumerate();
    let bodies = bodies.filter(|(_, part)| part.is_body() && part.stage == Stage::Upper).map(|(id, _)| id);
    bodies.filter(|body| !listed.contains(body)).collect()
}

/// The stretch of the body that a part is, or sits in or on.
fn body_of(design: &Design, id: PartId) -> Option<PartId> {
    let mut at = id;
    // A part's parent comes before it, so this ends.
    loop {
        let part = design.parts.get(at)?;
        match part.parent.filter(|_| !part.is_body()) {
            Some(parent) => at = parent,
            None => return part.is_body().then_some(at),
        }
    }
}

/// What a stretch of the body weighs with all that is in it or on it, without a motor, kg.
fn mass_within(design: &Design, weights: &[Option<Weight>], body: PartId) -> Option<f64> {
    let inside = (0..design.parts.len()).filter(|id| body_of(design, *id) == Some(body));
    inside.map(|id| Some(weights.get(id)?.as_ref()?.own.mass)).sum()
}

/// A mass in kg under what opens for it; `None` where nothing does.
fn sinking(canopies: &[(Cloth, bool)], bodies: Vec<PartId>, mass: f64, density: f64) -> Option<Sinking> {
    let larger = |a: &&(Cloth, bool), b: &&(Cloth, bool)| a.0.drag_area.total_cmp(&b.0.drag_area);
    let (largest, is_usual_drag) = *canopies.iter().max_by(larger)?;
    let drag_area = canopies.iter().map(|(cloth, _)| cloth.drag_area).sum();
    let rate = descent_speed(mass, density, drag_area);
    Some(Sinking {
        bodies,
        part: largest.part,
        drag: largest.drag,
        is_usual_drag,
        canopies: canopies.iter().map(|(cloth, _)| *cloth).collect(),
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
