//! Where the guides go: one lug at the balance point, or two guides, the rear one near the aft end, the front one just
//! ahead of the balance point (common practice, no source), with what the airframe leaves room for.

use crate::supposed::{add_part, amount, from_pad, only, placement, Supposed};
use finwright_assess::flight::clearance::free_gap;
use finwright_assess::flight::seat::solid_stations;
use finwright_assess::{Assessment, GuideNumbers};
use finwright_checks::rules::guide::no_backing::BACKING_MASS;
use finwright_checks::rules::guide::rear_too_far_forward::REAR_GUIDE_DISTANCE;
use finwright_checks::Settings;
use finwright_grammar::Place;
use finwright_model::{Anchor, Design, Extent, Pad, Part, PartId, PartKind, Rail, Stage};
use finwright_units::show;
use std::f64::consts::PI;

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
/// What a screw in a glued block or a ring bears, N (common practice, no source): a small wood screw in plywood holds
/// several times as much.
const BLOCK_BEARS: f64 = 150.0;

/// Place guides for one flight of a design on a pad; `None` where the rocket isn't known whole, or nothing straight is
/// there to put them on.
pub fn place(design: &Design, settings: &Settings, flight: usize, pad: &Pad, hardware: Hardware) -> Option<Placement> {
    let design = only(design, flight)?;
    place_on(&design, settings, pad, hardware)
}

/// The same for a design of a single flight.
pub(crate) fn place_on(design: &Design, settings: &Settings, pad: &Pad, hardware: Hardware) -> Option<Placement> {
    let plan = Plan { design, settings, pad, hardware, bare: Supposed::new(design.clone()) };
    let mut reasons = Vec::new();
    let seats = along(&plan, &mut reasons)?;
    let (set, supposed) = around(&plan, seats, &mut reasons)?;
    if let Some(clock) = set.clock {
        reasons.push(format!("{} around the body, in the middle of a gap between fins", show::angle(clock)));
    }
    if design.parts.iter().any(|part| matches!(part.kind, PartKind::Hook { .. })) {
        reasons.push("turn the motor hook out of the guides' line".to_string());
    }
    reasons.extend(if hardware == Hardware::OneLug { Vec::new() } else { price(&plan, &set, &supposed) });
    let guides = spots(&supposed)?;
    Some(Placement { guides, clock: set.clock, reasons, supposed })
}

/// What is to be placed where.
struct Plan<'a> {
    design: &'a Design,
    settings: &'a Settings,
    pad: &'a Pad,
    hardware: Hardware,
    /// The flight as it stands, before anything is placed.
    bare: Supposed,
}

/// Where a guide goes along the rocket.
#[derive(Clone, Copy)]
struct Along {
    /// The stretch of the airframe that it sits on.
    on: PartId,
    /// Its middle, m from the tip.
    station: f64,
    /// Its distance ahead of the balance point, m, where it's placed from that.
    ahead: Option<f64>,
}

/// Guides as they are set: along the rocket, off the body, around it.
struct Set {
    along: Vec<Along>,
    standoffs: Vec<f64>,
    clock: Option<f64>,
}

/// Along the rocket: the front guide, or a lone one, by the balance point, the rear one by the aft end.
fn along(plan: &Plan, reasons: &mut Vec<String>) -> Option<Vec<Along>> {
    let loaded = plan.bare.numbers()?.loaded()?;
    let calibre = plan.bare.assessment.airframe.calibre?;
    let tubes = tubes(plan.design, &plan.bare.assessment);
    let alone = plan.hardware == Hardware::OneLug;
    let half = guide_length(plan)? / 2.0;
    let ahead = if alone { 0.0 } else { half.max(0.25 * calibre) };
    let wanted = loaded.x - ahead;
    let (on, station) = fit(&tubes, wanted, half)?;
    let floating = (station - wanted).abs() < 1e-9;
    reasons.push(match (alone, floating) {
        (true, true) => "the lug's middle is at the balance point, with the motor in".to_string(),
        (false, true) => {
            format!("the front guide is {} ahead of the balance point, with the motor in", show::station(ahead))
        }
        (_, false) => format!(
            "{} from the balance point: nearer there is no straight stretch that it fits on",
            show::station((station - loaded.x).abs())
        ),
    });
    let front = Along { on, station, ahead: floating.then_some(ahead) };
    if alone {
        return Some(vec![front]);
    }
    let rear = rear(plan, *tubes.last()?, half, reasons)?;
    let heavy = is_heavy(plan, loaded.mass);
    let solid = solid_stations(plan.bare.parts(), on);
    if heavy && !solid.iter().any(|(solid, _)| (solid - station).abs() < 4e-3) {
        reasons.push(block("front", loaded.mass));
    }
    (rear.station > station + 2.0 * half).then(|| vec![front, rear])
}

/// The rear guide: as near the aft end as it fits, or into a ring that is near enough.
fn rear(plan: &Plan, (on, tube): (PartId, Extent), half: f64, reasons: &mut Vec<String>) -> Option<Along> {
    let mass = plan.bare.numbers()?.loaded()?.mass;
    let (tail, calibre) = (plan.bare.assessment.airframe.tail?, plan.bare.assessment.airframe.calibre?);
    let edge = if plan.hardware == Hardware::TwoButtons { button_radius(plan.design, plan.pad) } else { EDGE };
    let near = plan.settings.limit(&REAR_GUIDE_DISTANCE) * calibre;
    let solid = solid_stations(plan.bare.parts(), on).into_iter().map(|(station, _)| station);
    let ring = solid.filter(|s| *s <= tube.back - edge && tail - s <= near).reduce(f64::max);
    let station = match ring.filter(|_| is_heavy(plan, mass)) {
        Some(ring) => {
            reasons.push("the rear guide is screwed into the rearmost ring".to_string());
            ring
        }
        None => {
            reasons.push("the rear guide is as near the aft end as it fits".to_string());
            if is_heavy(plan, mass) {
                reasons.push(block("rear", mass));
            }
            tube.back - half - edge
        }
    };
    Some(Along { on, station, ahead: None })
}

/// Around the body and off it: near the guides that the rocket has already, and where those are in the way of the rod or
/// rail, in another gap.
fn around(plan: &Plan, along: Vec<Along>, reasons: &mut Vec<String>) -> Option<(Set, Supposed)> {
    let near = plan.design.parts.iter().filter(|p| p.is_guide()).find_map(|p| p.clock.as_ref());
    let near = near.map_or(0.0, |clock| clock.si);
    let turned = (0..TURNS).map(|turn| near + 2.0 * PI * f64::from(turn) / f64::from(TURNS));
    let mut first = None;
    for near in turned {
        let mut said = Vec::new();
        let found = settled_around(plan, along.clone(), near, &mut said)?;
        let unused = found.1.numbers()?.clearance.iter().flat_map(|clearance| &clearance.unused);
        if unused.filter_map(|unused| unused.room).all(|room| room >= 0.0) {
            reasons.append(&mut said);
            return Some(found);
        }
        first = first.or(Some((found, said)));
    }
    let (found, mut said) = first?;
    reasons.append(&mut said);
    Some(found)
}

/// Angles around the body that are tried.
const TURNS: u32 = 8;

/// At an angle near one: first without a standoff, then with what is missing, until fins and wide parts pass and the
/// guides are in one line.
fn settled_around(plan: &Plan, along: Vec<Along>, near: f64, reasons: &mut Vec<String>) -> Option<(Set, Supposed)> {
    let lowest = plan.bare.numbers()?.lowest()?;
    let end = lowest + plan.pad.stop_or_foot().si - plan.pad.rail_length()?.si;
    let mut set = Set { standoffs: vec![0.0; along.len()], along, clock: None };
    let mut supposed = with_guides(plan, &set)?;
    for _ in 0..ROUNDS {
        let Some(clearance) = supposed.numbers()?.clearance.clone() else { break };
        let nearest = clearance.guides.iter().map(|g| g.distance).fold(f64::INFINITY, f64::min);
        let farthest = clearance.guides.iter().map(|g| g.distance).fold(0.0, f64::max);
        let asked = (end, nearest, set.clock.unwrap_or(near));
        let gap = free_gap(supposed.parts(), plan.pad, asked);
        let missing = |room: Option<f64>| room.map_or(0.0, |room| (-room).max(0.0));
        let (fins, body) = (missing(gap.map(|gap| gap.room)), missing(clearance.body.map(|body| body.room)));
        let line = farthest.max(nearest + fins.max(body));
        let more: Vec<f64> = clearance.guides.iter().map(|g| line - g.distance).collect();
        let clock = gap.map(|gap| gap.clock);
        if more.iter().all(|m| *m < 0.25e-3) && clock == set.clock {
            break;
        }
        if fins.max(body) > 0.0 {
            let what = if body >= fins { "the widest part passes" } else { "the fins pass" };
            reasons.push(format!("held off {}, so that {what}", show::length(half_millimetres(line - nearest))));
        } else if more.iter().any(|m| *m >= 0.25e-3) {
            reasons.push("the guide on the narrower part stands off, to be in one line with the other".to_string());
        }
        for (standoff, more) in set.standoffs.iter_mut().zip(&more) {
            *standoff = half_millimetres(*standoff + more);
        }
        set.clock = clock;
        supposed = with_guides(plan, &set)?;
    }
    Some((set, supposed))
}

/// Rounds of holding off and turning; two settle everything that is met, and one looks that it has.
const ROUNDS: usize = 3;

/// What the places cost: a front guide further forward, and the turn on the last guide.
fn price(plan: &Plan, set: &Set, supposed: &Supposed) -> Vec<String> {
    let mut said = Vec::new();
    let Some(numbers) = supposed.numbers() else { return said };
    let (Some(run), Some(calibre), Some(front)) =
        (&numbers.run, supposed.assessment.airframe.calibre, set.along.first())
    else {
        return said;
    };
    let forward = Along { station: front.station - calibre, ahead: front.ahead.map(|ahead| ahead + calibre), ..*front };
    let along = std::iter::once(forward).chain(set.along.iter().skip(1).copied()).collect();
    let other = with_guides(plan, &Set { along, standoffs: set.standoffs.clone(), clock: set.clock });
    let earlier = other.as_ref().and_then(Supposed::numbers).and_then(|n| n.run.as_ref()?.front());
    if let (Some(own), Some(earlier)) = (run.front(), earlier) {
        said.push(format!(
            "a front guide a calibre ({}) further forward would still straddle with a lighter motor, but leave at {} \
                instead of {}",
            show::length(calibre),
            show::speed(earlier.speed),
            show::speed(own.speed)
        ));
    }
    let pressure = supposed.assessment.airframe.airflow.as_ref().and_then(|a| a.total.x());
    if let (Some(release), Some(rear), Some(pressure), Some(air)) =
        (numbers.release.as_ref(), numbers.guides().last(), pressure, numbers.air)
    {
        let behind = rear.extent.middle() - pressure;
        if behind > 0.0 && air.gust > 0.0 {
            said.push(format!(
                "the rear guide is {} behind the centre of pressure: on it alone a gust of {} turns the nose \
                    downwind, by {} here",
                show::station(behind),
                show::speed(air.as_read(air.gust)),
                show::angle(release.gust_tip_off.angle.abs())
            ));
        }
    }
    said
}

/// The placed guides as they came to lie.
fn spots(supposed: &Supposed) -> Option<Vec<Spot>> {
    let tail = supposed.assessment.airframe.tail?;
    let spot = |guide: &GuideNumbers| {
        let part = supposed.design.parts.get(guide.part)?;
        Some(Spot {
            part: guide.part,
            what: in_words(part),
            station: guide.extent.middle(),
            from_tail: tail - guide.extent.middle(),
            on: supposed.design.parts.get(part.parent?)?.label(),
            standoff: part.standoff().map_or(0.0, |s| s.si),
        })
    };
    supposed.numbers()?.guides().iter().map(spot).collect()
}

/// Whether a button on a rocket of this mass wants something solid behind the wall.
fn is_heavy(plan: &Plan, mass: f64) -> bool {
    plan.hardware == Hardware::TwoButtons && mass >= plan.settings.limit(&BACKING_MASS)
}

fn block(which: &str, mass: f64) -> String {
    format!("the rocket weighs {}: glue a block behind the wall for the {which} screw", show::mass(mass))
}

/// The flight with guides set like this.
fn with_guides(plan: &Plan, set: &Set) -> Option<Supposed> {
    let mut design = plan.design.clone();
    let here = design.flights.first()?.header;
    let mut ids = Vec::new();
    for (along, standoff) in set.along.iter().zip(&set.standoffs) {
        let kind = guide_kind(plan, *standoff, here)?;
        let at = match along.ahead {
            Some(ahead) => placement(ahead, Anchor::AheadOfBalance, here),
            None => placement(along.station, Anchor::Tip, here),
        };
        let word = if plan.hardware == Hardware::TwoButtons { "button" } else { "lug" };
        let mut part = Part::new(word, kind, here);
        part.parent = Some(along.on);
        part.stage = design.parts.get(along.on).map_or(Stage::Upper, |p| p.stage);
        part.at = Some(at);
        part.clock = set.clock.map(|clock| amount(clock, here));
        // A block is advised behind it, or it's screwed into a ring.
        part.bears = is_heavy(plan, plan.bare.numbers()?.loaded()?.mass).then(|| amount(BLOCK_BEARS, here));
        ids.push(add_part(&mut design, part));
    }
    Some(Supposed::new(from_pad(design, plan.pad.clone(), &ids)))
}

fn guide_kind(plan: &Plan, standoff: f64, here: Place) -> Option<PartKind> {
    let standoff = Some(amount(standoff, here));
    match (plan.pad.rail.as_ref()?, plan.hardware) {
        (Rail::Rod { diameter, .. }, Hardware::OneLug | Hardware::TwoLugs) => Some(PartKind::Lug {
            bore: Some(amount(diameter.as_ref()?.si + LUG_CLEARANCE, here)),
            length: Some(amount(guide_length(plan)?, here)),
            wall: Some(amount(LUG_WALL, here)),
            standoff,
        }),
        (Rail::Slotted { slot, .. }, Hardware::TwoButtons) => {
            let width = plan.design.sections.get(slot.as_ref()?.value)?.width.as_ref()?.si;
            Some(PartKind::Button { profile: Some(amount(width, here)), standoff, screw: None })
        }
        _ => None,
    }
}

/// Length of one guide, m; `None` where the hardware doesn't go with the pad.
fn guide_length(plan: &Plan) -> Option<f64> {
    match (&plan.pad.rail, plan.hardware) {
        (Some(Rail::Rod { diameter: Some(_), .. }), Hardware::OneLug) => Some(LONE_LUG),
        (Some(Rail::Rod { diameter: Some(_), .. }), Hardware::TwoLugs) => Some(LUG),
        (Some(Rail::Slotted { .. }), Hardware::TwoButtons) => Some(0.0),
        _ => None,
    }
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
        let extent = assessment.airframe.extents.get(id).copied().flatten()?;
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

fn in_words(part: &Part) -> String {
    match &part.kind {
        PartKind::Lug { bore: Some(bore), length: Some(length), .. } => {
            format!("lug, bore {}, {} long", show::length(bore.si), show::length(length.si))
        }
        PartKind::Button { profile: Some(profile), .. } => format!("button for a {} rail", show::length(profile.si)),
        _ => part.word.to_string(),
    }
}

/// Rounded up to the half millimetre, which is what one cuts.
fn half_millimetres(m: f64) -> f64 {
    (m * 2e3 - 1e-6).ceil() / 2e3
}
