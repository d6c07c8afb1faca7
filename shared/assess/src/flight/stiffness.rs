//! The rod or rail as a beam: how far it leans, at what slope it ends, and how fast it swings.

use super::air::Air;
use super::pad::OnPad;
use super::weighed::Mounted;
use super::FlightNumbers;
use crate::airflow::Airflow;
use crate::airframe::Airframe;
use crate::assumed::Assumed;
use crate::sold::RODS;
use crate::unknown::Needs;
use finwright_model::{Design, Material, Named, Pad, Rail, Taken};
use finwright_physics::air::G0;
use finwright_physics::beam::{round_second_moment, wind_load, Bend, Cantilever, FLAT_CD, ROUND_CD};
use finwright_physics::mass::MassProps;
use finwright_physics::reactions::two_guides;
use finwright_physics::whip::{whip, Whip, DAMPING};
use std::f64::consts::PI;
use std::sync::OnceLock;

/// A flight's rod or rail with the rocket on it. Everything leans the same way here, the worst case.
#[derive(Clone, Debug, PartialEq)]
pub struct Stiffness {
    /// The beam, clamped at its foot.
    pub beam: Cantilever,
    /// From its middle to its outside, m.
    pub half_depth: f64,
    /// The rocket rests on its stop. The run takes a fraction of the beam's period, so that this is about where the tip
    /// is when the rocket comes to it.
    pub at_rest: Lean,
    /// The rocket's last guide is at the end and stays there: its whole weight and side force act there. An upper
    /// bound.
    pub at_end: Lean,
    /// Drag of its side on its breadth.
    pub wind_cd: f64,
    /// How far the foot turns under 1 N m, rad: in all of these bends.
    pub yields: f64,
    /// The joint of a rod of two pieces, whose play is in all of these bends.
    pub joint: Option<InJoint>,
    /// First frequency without the rocket, Hz.
    pub bare_frequency: f64,
    /// First frequency with the rocket at the end, Hz: the slowest that it comes to.
    pub loaded_frequency: f64,
    /// Greatest stress at the foot, in a gust, Pa.
    pub root_stress: f64,
    /// What was taken as a default.
    pub assumed: Vec<Assumed>,
    /// The swing in a gust, once somebody asks: see [`Stiffness::whipped`].
    whip: OnceLock<Option<Whip>>,
}

/// How far the upper piece of a rod leans in its joint, rad, and how high above the foot that is, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InJoint {
    /// The play.
    pub play: f64,
    /// The joint's height.
    pub height: f64,
}

/// How far the beam leans at its tip, by cause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean {
    /// By the weight of beam and rocket at the pad's tilt.
    pub still: Bend,
    /// By the steady wind on both.
    pub wind: Bend,
    /// By a gust on both.
    pub gust: Bend,
}

impl Stiffness {
    /// The wind's push on the whole rod or rail, N, at a wind in m/s.
    pub(crate) fn blown(&self, air: &Air, wind: f64) -> f64 {
        wind_load(air.density, wind, self.wind_cd, 2.0 * self.half_depth) * self.beam.length
    }

    /// The slope of the tip, rad, when the rod or rail with the rocket at rest swings in the worst gust, and the swing
    /// itself: the steady wind's lean, and on top of it the gust's by as much more as the swing makes of it. As fast as it
    /// swings with the rocket at the end, the slowest, which answers most to a gust.
    pub fn whipped(&self) -> Option<(f64, Whip)> {
        let whip = (*self.whip.get_or_init(|| whip(self.loaded_frequency, DAMPING, GUSTS)))?;
        Some((self.whipped_by(whip.amplification), whip))
    }

    /// The same for some amplification.
    pub fn whipped_by(&self, amplification: f64) -> f64 {
        let (wind, gust) = (self.at_rest.in_wind().slope, self.at_rest.in_gust().slope);
        wind + amplification * (gust - wind)
    }

    /// Whether a lean in a gust is over a tenth of the length: these numbers, for small bends, are then rough.
    pub fn is_beyond_linear(&self, lean: &Lean) -> bool {
        self.beam.is_beyond_linear(lean.in_gust().tip)
    }
}

impl Lean {
    /// In the steady wind.
    pub fn in_wind(&self) -> Bend {
        self.still + self.wind
    }

    /// In a gust.
    pub fn in_gust(&self) -> Bend {
        self.still + self.gust
    }
}

/// How long gusts last that rock a rod, s: shorter ones aren't felt by the whole of it, longer ones it follows (common
/// practice, no source; 3 s is what a meter's gust is averaged over).
pub const GUSTS: (f64, f64) = (0.5, 3.0);
/// No gust makes more of a bend than this.
pub const MOST_WHIP: f64 = 1.75;

/// Share of a slotted section's square that is metal (common practice, no source): its mass per length isn't in the
/// language.
const SOLID_SHARE: f64 = 0.45;

/// What a rod is of that doesn't say.
pub(crate) const ROD_MATERIAL: &str = "steel";
/// What a rail is of whose section doesn't say.
pub(crate) const RAIL_MATERIAL: &str = "aluminium";

/// A rocket of these mass properties on its pad.
pub(crate) type Resting<'a> = (&'a OnPad, Mounted, MassProps);

/// The stiffness of the rod or rail under a flight's rocket. The error is what that needs, or nothing where something
/// else says it.
pub(crate) fn stiffness(
    design: &Design,
    (airflow, air): (&Airflow, &Air),
    pad: &Pad,
    (on_pad, mounted, loaded): Resting,
) -> Result<Stiffness, Option<Needs>> {
    // A tower's rails are braced, and its sections aren't in the language.
    if pad.has_tower() {
        return Err(None);
    }
    let (lowest, (fore, aft)) = mounted.lowest.zip(on_pad.held_at()).ok_or(None)?;
    let length = on_pad.rail_length;
    if length <= 0.0 {
        return Err(None);
    }
    let mut assumed = Vec::new();
    let shape = cross_section(design, pad, &mut assumed)?;
    let beam = Cantilever {
        length,
        modulus: shape.modulus,
        second_moment: shape.second_moment,
        mass_per_length: shape.mass_per_length,
    };
    let tilt = on_pad.tilt.si;
    let height = |station: f64| (on_pad.stop.si + lowest - station).clamp(0.0, length);
    let at_rest = |force: f64, station: f64| match two_guides(force, station, fore, aft) {
        Some(held) => beam.load_at(held.front, height(fore)) + beam.load_at(held.aft, height(aft)),
        None => beam.load_at(force, height(fore)),
    };
    let weight = loaded.mass * G0 * tilt.sin();
    let own = beam.own_weight(tilt);
    let blown = |wind: f64| beam.even_load(wind_load(air.density, wind, shape.wind_cd, 2.0 * shape.half_depth));
    let push = |wind: f64| airflow.side_force(air.density, wind);
    let resting = |wind: f64| blown(wind) + at_rest(push(wind), airflow.side_centroid);
    let leaving = |wind: f64| blown(wind) + beam.tip_load(push(wind));
    let yields = pad.yields_or_stiff().si;
    let foot = |bend: Bend| turned_at_foot(bend, yields, length);
    let in_joint = joint_of(pad, length, &mut assumed);
    let joint = in_joint.map_or(Bend::default(), |joint| joint.bend(length));
    let at_rest = Lean {
        still: foot(own + at_rest(weight, loaded.x)) + joint,
        wind: foot(resting(air.wind)),
        gust: foot(resting(air.gust)),
    };
    let at_end = Lean {
        still: foot(own + beam.tip_load(weight)) + joint,
        wind: foot(leaving(air.wind)),
        gust: foot(leaving(air.gust)),
    };
    let softer = softening(&beam, yields);
    let worst = [at_rest.in_gust(), at_end.in_gust()];
    let root = worst.iter().map(|bend| bend.root_moment.abs()).fold(0.0, f64::max);
    Ok(Stiffness {
        beam,
        half_depth: shape.half_depth,
        at_rest,
        at_end,
        wind_cd: shape.wind_cd,
        yields,
        joint: in_joint,
        bare_frequency: softer * beam.first_frequency(0.0),
        loaded_frequency: softer * beam.first_frequency(loaded.mass),
        root_stress: beam.stress(root, shape.half_depth),
        assumed,
        whip: OnceLock::new(),
    })
}

/// A bend on a foot that turns by `yields` rad under 1 N m, as a rigid beam of `length` m on it leans.
fn turned_at_foot(bend: Bend, yields: f64, length: f64) -> Bend {
    let turn = yields * bend.root_moment;
    Bend { tip: bend.tip + turn * length, slope: bend.slope + turn, ..bend }
}

/// By how much slower a beam swings on such a foot: exact for a beam without mass and its load at the tip, whose
/// movement under 1 N is L³/3EI on a stiff foot and L² times the yield more on this one.
fn softening(beam: &Cantilever, yields: f64) -> f64 {
    let stiff = beam.movement_at_load(1.0, beam.length);
    (stiff / (stiff + yields * beam.length * beam.length)).sqrt()
}

/// The joint of a rod's two pieces, where it has one.
fn joint_of(pad: &Pad, length: f64, assumed: &mut Vec<Assumed>) -> Option<InJoint> {
    let Some(Rail::Rod { joint: Some(joint), .. }) = &pad.rail else { return None };
    let height = Taken::or(joint.height.as_ref(), 0.5 * length).si;
    if height >= length {
        return None;
    }
    let play = Taken::or(joint.play.as_ref(), JOINT_PLAY);
    assumed.extend(play.is_default.then_some(Assumed::JointPlay(play.si)));
    Some(InJoint { play: play.si, height })
}

impl InJoint {
    /// How the play leans a rod of some length, to whichever side is worst.
    fn bend(self, length: f64) -> Bend {
        Bend { tip: self.play * (length - self.height), slope: self.play, root_moment: 0.0 }
    }
}

/// Play in a screwed or sleeved joint whose file says none, rad: a quarter of a degree (common practice, no source).
pub const JOINT_PLAY: f64 = 0.25 * PI / 180.0;

/// The thinnest usual rod, all else as it is, whose tip leans less than `slope` rad in the steady wind with the rocket
/// at rest, and isn't bent far in a gust; `None` where none does.
pub fn thicker_rod(
    design: &Design,
    airframe: &Airframe,
    numbers: &FlightNumbers,
    pad: &Pad,
    slope: f64,
) -> Option<f64> {
    let (airflow, air) = (airframe.airflow.as_ref()?, numbers.air?);
    let resting = (numbers.on_pad.as_ref()?, numbers.mounted?, numbers.loaded()?);
    RODS.into_iter().find(|rod| {
        let mut pad = pad.clone();
        if let Some(Rail::Rod { diameter: Some(diameter), .. }) = &mut pad.rail {
            diameter.si = *rod;
        }
        stiffness(design, (airflow, &air), &pad, resting).is_ok_and(|stiffness| {
            let rest = &stiffness.at_rest;
            rest.in_wind().slope.abs() <= slope && !stiffness.is_beyond_linear(rest)
        })
    })
}

struct CrossSection {
    modulus: f64,
    second_moment: f64,
    mass_per_length: f64,
    half_depth: f64,
    wind_cd: f64,
}

/// What the beam is made of, or what is missing for it.
fn cross_section(design: &Design, pad: &Pad, assumed: &mut Vec<Assumed>) -> Result<CrossSection, Needs> {
    match pad.rail.as_ref() {
        Some(Rail::Rod { diameter, material, .. }) => {
            let diameter = diameter.as_ref().map(|d| d.si).ok_or(Needs::OfRod("diameter"))?;
            let material = material_of(design, material, ROD_MATERIAL, assumed)?;
            Ok(CrossSection {
                modulus: stiff(material)?,
                second_moment: round_second_moment(diameter),
                mass_per_length: dense(material)? * PI * diameter * diameter / 4.0,
                half_depth: diameter / 2.0,
                wind_cd: ROUND_CD,
            })
        }
        Some(Rail::Slotted { slot, .. }) => {
            let number = slot.as_ref().ok_or(Needs::OfRail("slot"))?.value;
            let section = design.sections.get(number).ok_or(Needs::OfRail("slot"))?;
            let field = |word| Needs::OfSection(word, number);
            let width = section.width.as_ref().map(|w| w.si).ok_or_else(|| field("width"))?;
            let second_moment = section.second_moment.as_ref().ok_or_else(|| field("second_moment"))?;
            if second_moment.place.file == finwright_model::CATALOG {
                assumed.push(Assumed::SectionStiffness(number));
            }
            let material = material_of(design, &section.material, RAIL_MATERIAL, assumed)?;
            assumed.push(Assumed::SolidShare);
            Ok(CrossSection {
                modulus: stiff(material)?,
                second_moment: second_moment.si,
                mass_per_length: dense(material)? * SOLID_SHARE * width * width,
                half_depth: width / 2.0,
                wind_cd: FLAT_CD,
            })
        }
        Some(Rail::Tower { .. }) | None => Err(Needs::RodOrRail),
    }
}

fn material_of<'d>(
    design: &'d Design,
    named: &Option<Named<usize>>,
    usual: &'static str,
    assumed: &mut Vec<Assumed>,
) -> Result<(usize, &'d Material), Needs> {
    let number = match named {
        Some(named) => Some(named.value),
        None => {
            assumed.push(Assumed::BeamMaterial(usual));
            design.material_named(usual)
        }
    };
    number.and_then(|number| Some((number, design.materials.get(number)?.as_ref()))).ok_or(Needs::MaterialNamed(usual))
}

fn stiff((number, material): (usize, &Material)) -> Result<f64, Needs> {
    let given = material.stiffness.as_ref().map(|e| e.si).filter(|e| *e > 0.0);
    given.ok_or(Needs::OfMaterial("stiffness", number))
}

fn dense((number, material): (usize, &Material)) -> Result<f64, Needs> {
    material.density.as_ref().map(|d| d.si).ok_or(Needs::OfMaterial("density", number))
}
