//! The rocket on its pad: the pad's numbers, and where the guides in use hold it.

use super::seat::{seat, Seat};
use super::weighed::Mounted;
use crate::misfit::{self, FlightMisfit};
use crate::shape::Parts;
use crate::unknown::{Measure, Needs, Subject, Unknown};
use finwright_model::fit::{sizes, Sizes};
use finwright_model::{Design, Extent, Flight, Pad, PartId, PartKind, Rail, Taken};
use finwright_physics::guided::travel;
use finwright_physics::reactions::Lean;

/// A rocket on its pad, at rest. Lengths in m, angles in rad.
#[derive(Clone, Debug, PartialEq)]
pub struct OnPad {
    /// Length of the rod or rail.
    pub rail_length: f64,
    /// How high above the foot of the rod or rail the rocket rests.
    pub stop: Taken,
    /// How far the pad leans from the vertical.
    pub tilt: Taken,
    /// Which way that is.
    pub lean: Lean,
    /// Friction coefficient of the guides.
    pub friction: Taken,
    /// The guides in use, the frontmost first; none where one's place isn't known.
    pub guides: Vec<GuideNumbers>,
    /// How a tower holds it, where it stands in one and its shape is known.
    pub in_tower: Option<InTower>,
}

/// A rocket between the rails of a tower, which hold its widest stretch. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InTower {
    /// The stretch of the body that fills the tower, m from the tip.
    pub held: Extent,
    /// Its diameter.
    pub diameter: f64,
    /// What the rails leave free beside it.
    pub play: f64,
    /// The station of the tower's end while the rocket rests.
    pub end: f64,
    /// The travel after which the stretch has left.
    pub leaves_after: f64,
}

/// A guide in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GuideNumbers {
    /// Its part.
    pub part: PartId,
    /// Where it sits, m from the tip.
    pub extent: Extent,
    /// The travel after which its aft edge leaves the rod or rail, m; negative where it starts above the end.
    pub leaves_after: f64,
    /// What it sits on.
    pub seat: Option<Seat>,
}

impl OnPad {
    /// The frontmost and the rearmost guide, the same one where it is alone.
    pub fn ends(&self) -> Option<(&GuideNumbers, &GuideNumbers)> {
        Some((self.guides.first()?, self.guides.last()?))
    }

    /// The travel from rest until attitude is no longer held and until the last guide's aft edge leaves, m. A lone guide
    /// holds until its front edge comes to the end; a tower until less of the body is in it than that is wide.
    pub fn travels(&self) -> Option<(f64, f64)> {
        if let Some(tower) = self.in_tower {
            return Some(((tower.leaves_after - tower.diameter).max(0.0), tower.leaves_after));
        }
        let (front, last) = self.ends()?;
        let alone = self.guides.len() == 1;
        let front_travel = if alone { front.leaves_after - front.extent.length() } else { front.leaves_after };
        Some((front_travel.max(0.0), last.leaves_after))
    }

    /// The station about which the rocket turns while it's held at one place only, m from the tip.
    pub fn pivot(&self) -> Option<f64> {
        match self.in_tower {
            Some(tower) => Some(tower.held.back),
            None => self.guides.last().map(|guide| guide.extent.middle()),
        }
    }

    /// The stations at which the rocket is held at rest, m from the tip: the middles of its end guides, both ends of a
    /// lone one, or both ends of the stretch that stands in a tower.
    pub fn held_at(&self) -> Option<(f64, f64)> {
        if let Some(tower) = self.in_tower {
            return Some((tower.held.front.max(tower.end), tower.held.back));
        }
        let (front, rear) = self.ends()?;
        Some(match self.guides.len() {
            1 => (front.extent.front, rear.extent.back),
            _ => (front.extent.middle(), rear.extent.middle()),
        })
    }
}

/// Which way a pad leans, with the wind or across it.
pub fn lean(pad: &Pad) -> Lean {
    let tilt = pad.tilt_or_upright().si;
    match pad.leans.as_ref().map(|leans| leans.word) {
        Some("with_wind") => Lean { into_wind: -tilt, across: 0.0 },
        Some("across_wind") => Lean { into_wind: 0.0, across: tilt },
        _ => Lean { into_wind: tilt, across: 0.0 },
    }
}

/// What isn't known or can't be about a flight's pad.
#[derive(Default)]
pub(crate) struct PadLacks {
    pub unknown: Vec<Unknown>,
    pub misfit: Option<FlightMisfit>,
}

/// Something that isn't known of a flight's pad.
pub(crate) fn of_pad(flight: &Flight, pad: &Pad, measure: Measure, needs: Needs) -> Option<Unknown> {
    let number = flight.pad.as_ref()?.value;
    Some(Unknown { subject: Subject::Pad(number), measure, needs, place: pad.header })
}

/// The rocket with its motors in on its pad; `None` where the rod or rail has no length.
pub(crate) fn on_pad(
    parts: Parts,
    (flight, pad): (&Flight, &Pad),
    mounted: Option<Mounted>,
    lacks: &mut PadLacks,
) -> Option<OnPad> {
    let Some(length) = pad.rail_length().filter(|_| pad.broken.is_empty()) else {
        let needs = if !pad.broken.is_empty() {
            Needs::Elsewhere
        } else if pad.rail.is_some() {
            Needs::RailLength
        } else {
            Needs::RodOrRail
        };
        lacks.unknown.extend(of_pad(flight, pad, Measure::Run, needs));
        return None;
    };
    say_what_fits_unknown(parts.design, flight, pad, &mut lacks.unknown);
    let stop = pad.stop_or_foot();
    let lowest = mounted.and_then(|mounted| mounted.lowest).filter(|_| !flight.broken.contains(&"guided_by"));
    let guides = lowest.map_or_else(Vec::new, |lowest| {
        let leaves_after = |extent: Extent| travel(length.si, stop.si, lowest - extent.back);
        guides(parts, flight, leaves_after, &mut lacks.misfit)
    });
    let in_tower = mounted.and_then(|mounted| in_tower(parts, pad, (length.si, stop.si, mounted.lowest?)));
    let (tilt, friction) = (pad.tilt_or_upright(), pad.friction_or_usual());
    Some(OnPad { rail_length: length.si, stop, tilt, lean: lean(pad), friction, guides, in_tower })
}

/// How a tower holds the rocket; `None` where it isn't one, or the shape of one of the two isn't known.
fn in_tower(parts: Parts, pad: &Pad, (length, stop, lowest): (f64, f64, f64)) -> Option<InTower> {
    let Some(Rail::Tower { bore: Some(bore), .. }) = &pad.rail else { return None };
    let diameter = parts.design.calibre()?;
    let mut held: Option<Extent> = None;
    for (_, part, extent) in parts.placed().filter(|(_, part, _)| part.is_body()) {
        let PartKind::Tube { outer: Some(outer), .. } = &part.kind else { continue };
        if outer.si < diameter * (1.0 - FILLS) {
            continue;
        }
        held = Some(held.map_or(extent, |held| Extent { front: held.front.min(extent.front), back: extent.back }));
    }
    let held = held?;
    let end = lowest + stop - length;
    let leaves_after = travel(length, stop, lowest - held.back);
    Some(InTower { held, diameter, play: bore.si - diameter, end, leaves_after })
}

/// A stretch that is narrower than the widest by less than this share fills a tower as well.
const FILLS: f64 = 0.01;

fn guides(
    parts: Parts,
    flight: &Flight,
    leaves_after: impl Fn(Extent) -> f64,
    cant_be: &mut Option<FlightMisfit>,
) -> Vec<GuideNumbers> {
    let guide = |part: PartId| {
        let extent = parts.extent(part)?;
        Some(GuideNumbers { part, extent, leaves_after: leaves_after(extent), seat: seat(parts, part, extent) })
    };
    // Guides whose place is unknown make the release unknown, not earlier.
    let known = flight.guided_by.iter().map(|named| guide(named.value)).collect::<Option<Vec<_>>>();
    let mut guides = known.unwrap_or_default();
    guides.sort_by(|a, b| a.extent.front.total_cmp(&b.extent.front));
    // Two guides in one place are one, and which one isn't known.
    let stretches: Vec<(PartId, Extent)> = guides.iter().map(|guide| (guide.part, guide.extent)).collect();
    *cant_be = misfit::guides(parts.design, flight, &stretches);
    if cant_be.is_some() {
        guides.clear();
    }
    guides
}

/// Whether a guide runs on the rod or rail hangs on the sizes of both.
fn say_what_fits_unknown(design: &Design, flight: &Flight, pad: &Pad, unknown: &mut Vec<Unknown>) {
    for named in &flight.guided_by {
        let Some(part) = design.parts.get(named.value) else { continue };
        if sizes(design, part, pad) != Sizes::Unknown {
            continue;
        }
        if !part.missing.is_empty() {
            let (subject, needs) = (Subject::Part(named.value), Needs::Fields(part.missing.clone()));
            unknown.push(Unknown { subject, measure: Measure::Fit, needs, place: part.header });
        }
        let needs = match &pad.rail {
            Some(Rail::Rod { diameter: None, .. }) => Needs::OfRod("diameter"),
            Some(Rail::Slotted { slot: None, .. }) => Needs::OfRail("slot"),
            Some(Rail::Slotted { slot: Some(slot), .. }) => {
                match design.sections.get(slot.value).filter(|section| section.width.is_none()) {
                    Some(_) => Needs::OfSection("width", slot.value),
                    None => continue,
                }
            }
            _ => continue,
        };
        unknown.extend(of_pad(flight, pad, Measure::Fit, needs));
    }
}
