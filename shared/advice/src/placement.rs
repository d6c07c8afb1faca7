//! Where the guides go: one lug at the balance point, or two guides, the rear one near the aft end, the front one just ahead
//! of the balance point (common practice, no source), with what the airframe leaves room for.

use crate::supposed::{add_part, amount, from_pad, only, placement, Supposed};
use finwright_assess::clearance::free_gap;
use finwright_assess::seat::ring_stretches;
use finwright_assess::Assessment;
use finwright_checks::rules::rear_too_far_forward::REAR_GUIDE_DISTANCE;
use finwright_checks::rules::seat::BACKING_MASS;
use finwright_checks::Settings;
use finwright_grammar::Place;
use finwright_model::{Anchor, Design, Extent, Pad, Part, PartId, PartKind, Rail, Stage};
use finwright_units::show;

/// What is to be placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hardware {
    /// One lug.
    OneLug,
    /// Two lugs.
    TwoLugs,
    /// Two buttons.
    TwoButtons,
}

/// Where guides go on an airframe.
pub struct Placement {
    /// The guides, the frontmost first.
    pub guides: Vec<Spot>,
    /// The angle around the body, rad; `None` where no fins ask for one.
    pub clock: Option<f64>,
    /// What is behind each choice, in sentences.
    pub reasons: Vec<String>,
    /// The flight with these guides.
    pub supposed: Supposed,
}

/// One guide's place.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Its part in the supposed design.
    pub part: PartId,
    /// What it is: "lug, bore 3.6 mm, 30 mm long".
    pub what: String,
    /// Its middle, m from the tip.
    pub station: f64,
    /// Its middle, m ahead of the aft end.
    pub from_tail: f64,
    /// The stretch of the airframe that it sits on.
    pub on: String,
    /// How far it's held off the body, m.
    pub standoff: f64,
}

/// Clearance of a lug on its rod, m, and its wall (common practice, no source).
const LUG_CLEARANCE: f64 = 0.4e-3;
const LUG_WALL: f64 = 0.4e-3;
/// Length of a lone lug and of each of two, m; longer where friction or play ask for it.
const LONE_LUG: f64 = 40e-3;
const LUG: f64 = 25e-3;
/// Air between a guide and the edge of its stretch of the airframe, m.
const EDGE: f64 = 1e-3;

/// Place guides for one flight of a design on a pad; `None` where the rocket isn't known whole, or nothing straight is there
/// to put them on.
pub fn place(design: &Design, settings: &Settings, flight: usize, pad: &Pad, hardware: Hardware) -> Option<Placement> {
    let design = only(design, flight)?;
    place_on(&design, settings, pad, hardware)
}

/// The same for a design of a single flight.
pub(crate) fn place_on(design: &Design, settings: &Settings, pad: &Pad, hardware: Hardware) -> Option<Placement> {
    let bare = Supposed::new(design.clone());
    let numbers = bare.numbers()?;
    let (loaded, lowest) = (numbers.loaded?, numbers.lowest?);
    let calibre = bare.assessment.calibre?;
    let tubes = tubes(design, &bare.assessment);
    let mut reasons = Vec::new();
    let alone = hardware == Hardware::OneLug;
    let half = if hardware == Hardware::TwoButtons { 0.0 } else { guide_length(pad, hardware)? / 2.0 };

    // Along the rocket.
    let ahead = if alone { 0.0 } else { half.max(0.25 * calibre) };
    let wanted = loaded.x - ahead;
    let heavy = hardware == Hardware::TwoButtons && loaded.mass >= settings.limit(&BACKING_MASS);
    let front = fit(&tubes, wanted, half)?;
    let floating = (front.1 - wanted).abs() < 1e-9;
    reasons.push(match (alone, floating) {
        (true, true) => "the lug's middle is at the balance point, with the motor in".to_string(),
        (false, true) => {
            format!("the front guide is {} ahead of the balance point, with the motor in", show::station(ahead))
        }
        (_, false) => format!(
            "{} from the balance point: nearer there is no straight stretch that it fits on",
            show::station((front.1 - loaded.x).abs())
        ),
    });
    let mut spots = vec![(front.0, front.1, floating.then_some(ahead))];
    if !alone {
        let last = *tubes.last()?;
        let aft = last.1.back - half - if hardware == Hardware::TwoButtons { button_radius(design, pad) } else { EDGE };
        let solid = solid_stations(design, &bare.assessment, last.0);
        let (tail, near) = (bare.assessment.tail?, settings.limit(&REAR_GUIDE_DISTANCE) * calibre);
        let rear = match heavy {
            true => solid
                .iter()
                .copied()
                .filter(|s| *s <= last.1.back - button_radius(design, pad))
                .reduce(f64::max)
                .filter(|s| tail - s <= near),
            false => None,
        };
        reasons.push(match rear {
            Some(_) => "the rear guide is screwed into the rearmost ring".to_string(),
            None => "the rear guide is as near the aft end as it fits".to_string(),
        });
        if heavy && rear.is_none() {
            reasons.push(block("rear", loaded.mass));
        }
        let rear = rear.unwrap_or(aft);
        if rear <= front.1 + 2.0 * half {
            return None;
        }
        if heavy && !solid_stations(design, &bare.assessment, front.0).iter().any(|s| (s - front.1).abs() < 4e-3) {
            reasons.push(block("front", loaded.mass));
        }
        spots.push((last.0, rear, None));
    }

    // Around it, and off it: first without a standoff, then with what is missing.
    let end = lowest + pad.stop.as_ref().map_or(0.0, |s| s.si) - rail_length(pad)?;
    let mut standoffs = vec![0.0; spots.len()];
    // Near the guides that the rocket has already; of two gaps as near as each other, the one that counts up from 0.
    let near = design.parts.iter().find(|p| p.is_guide() && p.clock.is_some()).and_then(|p| p.clock.as_ref());
    let near = near.map_or(1e-3, |clock| clock.si);
    let mut clock = None;
    let mut supposed = None;
    for round in 0..3 {
        let next = with_guides(design, pad, hardware, &spots, &standoffs, clock)?;
        let numbers = next.numbers()?;
        let Some(clearance) = numbers.clearance.clone() else {
            supposed = Some(next);
            break;
        };
        let nearest = clearance.guides.iter().map(|g| g.distance).fold(f64::INFINITY, f64::min);
        let gap = free_gap(&next.design, &next.assessment, pad, (end, nearest, clock.unwrap_or(near)));
        let turned = gap.map(|gap| gap.clock);
        let short = gap.map_or(0.0, |gap| -gap.room).max(clearance.body.map_or(0.0, |body| -body.room)).max(0.0);
        let farthest = clearance.guides.iter().map(|g| g.distance).fold(0.0, f64::max);
        let line = farthest.max(nearest + short);
        let more: Vec<f64> = clearance.guides.iter().map(|g| line - g.distance).collect();
        let settled = more.iter().all(|m| *m < 0.25e-3) && turned == clock;
        supposed = Some(next);
        if settled || round == 2 {
            break;
        }
        if short > 0.0 {
            reasons.push(format!(
                "held off {}, so that {}",
                show::length(half_millimetres(line - nearest)),
                if clearance.body.is_some_and(|b| b.room < 0.0) { "the widest part passes" } else { "the fins pass" }
            ));
        } else if more.iter().any(|m| *m >= 0.25e-3) {
            reasons.push("the guide on the narrower part stands off, to be in one line with the other".to_string());
        }
        for (standoff, more) in standoffs.iter_mut().zip(&more) {
            *standoff = half_millimetres(*standoff + more);
        }
        clock = turned;
    }
    let supposed = supposed?;
    if let Some(clock) = clock {
        reasons.push(format!("{} around the body, in the middle of a gap between fins", show::angle(clock)));
    }
    if design.parts.iter().any(|part| matches!(part.kind, PartKind::Hook { .. })) {
        reasons.push("turn the motor hook out of the guides' line".to_string());
    }
    let tail = supposed.assessment.tail?;
    let numbers = supposed.numbers()?;
    let guides = numbers
        .guides
        .iter()
        .filter_map(|guide| {
            let part = supposed.design.parts.get(guide.part)?;
            let on = supposed.design.parts.get(part.parent?)?;
            Some(Spot {
                part: guide.part,
                what: in_words(part),
                station: guide.extent.middle(),
                from_tail: tail - guide.extent.middle(),
                on: on.label(),
                standoff: standoff(part),
            })
        })
        .collect();
    reasons.extend(trade_off(&supposed, &spots, hardware, pad, design, &standoffs, clock));
    Some(Placement { guides, clock, reasons, supposed })
}

fn block(which: &str, mass: f64) -> String {
    format!("the rocket weighs {}: glue a block behind the wall for the {which} screw", show::mass(mass))
}

/// What the places cost: the turn on the last guide, and what a front guide further forward would change.
fn trade_off(
    supposed: &Supposed,
    spots: &[(PartId, f64, Option<f64>)],
    hardware: Hardware,
    pad: &Pad,
    design: &Design,
    standoffs: &[f64],
    clock: Option<f64>,
) -> Vec<String> {
    let mut said = Vec::new();
    let Some(numbers) = supposed.numbers() else { return said };
    let (Some(run), Some(calibre)) = (&numbers.run, supposed.assessment.calibre) else { return said };
    if let ([front, ..], true) = (spots, hardware != Hardware::OneLug) {
        let further: Vec<_> = std::iter::once((front.0, front.1 - calibre, front.2.map(|ahead| ahead + calibre)))
            .chain(spots.iter().skip(1).copied())
            .collect();
        let other = with_guides(design, pad, hardware, &further, standoffs, clock);
        let earlier = other.as_ref().and_then(Supposed::numbers).and_then(|n| n.run.as_ref()?.front());
        if let (Some(own), Some(earlier)) = (run.front(), earlier) {
            said.push(format!(
                "a front guide a calibre ({}) further forward would still straddle with a heavier motor, but leave at {} instead of {}",
                show::length(calibre),
                show::speed(earlier.speed),
                show::speed(own.speed)
            ));
        }
        let pressure = supposed.assessment.airflow.as_ref().and_then(|a| a.total.x());
        if let (Some(release), Some(rear), Some(pressure), Some(air)) =
            (numbers.release.as_ref(), numbers.guides.last(), pressure, numbers.air)
        {
            let behind = rear.extent.middle() - pressure;
            if behind > 0.0 && air.gust > 0.0 {
                said.push(format!(
                    "the rear guide is {} behind the centre of pressure: on it alone a gust of {} turns the nose downwind, by {} here",
                    show::station(behind),
                    show::speed(air.gust),
                    show::angle(release.gust_tip_off.angle.abs())
                ));
            }
        }
    }
    said
}

/// The flight with guides at these places: the stretch that each sits on, its station, and its distance ahead of the
/// balance point where it's placed from that.
fn with_guides(
    design: &Design,
    pad: &Pad,
    hardware: Hardware,
    spots: &[(PartId, f64, Option<f64>)],
    standoffs: &[f64],
    clock: Option<f64>,
) -> Option<Supposed> {
    let mut design = design.clone();
    let here = design.flights.first()?.header;
    let mut ids = Vec::new();
    for ((on, station, ahead), standoff) in spots.iter().zip(standoffs) {
        let kind = guide_kind(&design, pad, hardware, *standoff, here)?;
        let at = match ahead {
            Some(ahead) => placement(*ahead, Anchor::AheadOfBalance, here),
            None => placement(*station, Anchor::Tip, here),
        };
        let word = if hardware == Hardware::TwoButtons { "button" } else { "lug" };
        let part = Part {
            kind,
            word,
            name: None,
            copy: None,
            header: here,
            block: here,
            parent: Some(*on),
            stage: design.parts.get(*on).map_or(Stage::Upper, |p| p.stage),
            at: Some(at),
            clock: clock.map(|clock| amount(clock, here)),
            material: None,
            surface: None,
            density: None,
            mass: None,
            off_axis: None,
            bears: None,
            balance: None,
            missing: Vec::new(),
            broken: Vec::new(),
        };
        ids.push(add_part(&mut design, part));
    }
    Some(Supposed::new(from_pad(design, pad.clone(), &ids)))
}

fn guide_kind(design: &Design, pad: &Pad, hardware: Hardware, standoff: f64, here: Place) -> Option<PartKind> {
    let standoff = Some(amount(standoff, here));
    match (pad.rail.as_ref()?, hardware) {
        (Rail::Rod { diameter, .. }, Hardware::OneLug | Hardware::TwoLugs) => Some(PartKind::Lug {
            bore: Some(amount(diameter.as_ref()?.si + LUG_CLEARANCE, here)),
            length: Some(amount(guide_length(pad, hardware)?, here)),
            wall: Some(amount(LUG_WALL, here)),
            standoff,
        }),
        (Rail::Slotted { slot, .. }, Hardware::TwoButtons) => {
            let width = design.sections.get(slot.as_ref()?.value)?.width.as_ref()?.si;
            Some(PartKind::Button { profile: Some(amount(width, here)), standoff, screw: None })
        }
        _ => None,
    }
}

fn guide_length(pad: &Pad, hardware: Hardware) -> Option<f64> {
    let Some(Rail::Rod { diameter: Some(_), .. }) = &pad.rail else { return None };
    Some(if hardware == Hardware::OneLug { LONE_LUG } else { LUG })
}

fn rail_length(pad: &Pad) -> Option<f64> {
    finwright_assess::flight::rail_length(pad).map(|length| length.si)
}

/// A button is about as wide as its rail's slot under the lips: half the section at most, m.
fn button_radius(design: &Design, pad: &Pad) -> f64 {
    let slot = match &pad.rail {
        Some(Rail::Slotted { slot: Some(slot), .. }) => design.sections.get(slot.value),
        _ => None,
    };
    slot.and_then(|section| section.width.as_ref()).map_or(10e-3, |width| width.si / 2.0)
}

/// The straight stretches of the airframe, from the front.
fn tubes(design: &Design, assessment: &Assessment) -> Vec<(PartId, Extent)> {
    let tube = |(id, part): (PartId, &Part)| {
        let extent = assessment.extents.get(id).copied().flatten()?;
        matches!(part.kind, PartKind::Tube { .. }).then_some((id, extent))
    };
    design.parts.iter().enumerate().filter_map(tube).collect()
}

/// The place nearest to `wanted` at which a guide of this half length sits wholly on one straight stretch.
fn fit(tubes: &[(PartId, Extent)], wanted: f64, half: f64) -> Option<(PartId, f64)> {
    tubes
        .iter()
        .filter(|(_, tube)| tube.length() > 2.0 * (half + EDGE))
        .map(|(id, tube)| (*id, wanted.clamp(tube.front + half + EDGE, tube.back - half - EDGE)))
        .min_by(|a, b| (a.1 - wanted).abs().total_cmp(&(b.1 - wanted).abs()))
}

/// Middles of what is solid behind a stretch's wall, m from the tip.
fn solid_stations(design: &Design, assessment: &Assessment, on: PartId) -> Vec<f64> {
    let Some(stretch) = assessment.extents.get(on).copied().flatten() else { return Vec::new() };
    let mut found = Vec::new();
    for (id, part) in design.parts.iter().enumerate() {
        let Some(extent) = assessment.extents.get(id).copied().flatten() else { continue };
        match part.kind {
            PartKind::Rings { .. } => found.extend(ring_stretches(part, extent).into_iter().map(Extent::middle)),
            PartKind::Coupler { .. } | PartKind::Bulkhead { .. } => found.push(extent.middle()),
            _ => {}
        }
    }
    found.retain(|s| stretch.front < *s && *s < stretch.back);
    found
}

fn in_words(part: &Part) -> String {
    match &part.kind {
        PartKind::Lug { bore: Some(bore), length: Some(length), .. } => {
            format!("lug, bore {}, {} long", show::length(bore.si), show::length(length.si))
        }
        PartKind::Button { profile: Some(profile), .. } => format!("button for a {} rail", show::length(profile.si)),
        _ => part.word.to_string(),
    }
}

fn standoff(part: &Part) -> f64 {
    match &part.kind {
        PartKind::Lug { standoff, .. } | PartKind::Button { standoff, .. } | PartKind::RailGuide { standoff, .. } => {
            standoff.as_ref().map_or(0.0, |s| s.si)
        }
        _ => 0.0,
    }
}

/// Rounded up to the half millimetre, which is what one cuts.
fn half_millimetres(m: f64) -> f64 {
    (m * 2e3 - 1e-6).ceil() / 2e3
}
