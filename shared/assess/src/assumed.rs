//! What a number rests on that the file doesn't say: facts, with their words beside them.

use finwright_model::{Design, PartId};
use finwright_units::show;

/// Something taken where the file says nothing, or by a method that isn't the usual one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Assumed {
    /// A part is of this material.
    Material(PartId, &'static str),
    /// A shoulder is of the material of its nose or taper.
    ParentsMaterial(PartId),
    /// A button or rail guide weighs, in kg, what is usual for a rail section.
    UsualMass(PartId, f64, usize),
    /// A parachute or streamer has this drag coefficient.
    CanopyDrag(PartId, f64),
    /// A set of fins lifts less by this factor, for their number.
    CountFactor(PartId, f64),
    /// The airframe begins with a flat front.
    FlatFront(PartId),
    /// Rings or tubes lift by a form between two theories.
    RingLift(PartId),
    /// A motor's thrust is flat, known by its label alone.
    FlatThrust(usize),
    /// A flight that names no guides is held by those that run on its pad.
    GuidesTaken(usize),
    /// Guides rub with this coefficient.
    Friction(f64),
    /// The rocket rests at the foot of its rod or rail.
    NoStop,
    /// The rod or rail stands upright.
    Upright,
    /// The pad leans into the wind.
    LeansIntoWind,
    /// A flight is followed as if its pad didn't lean across the wind.
    NoLeanAcross,
    /// The flight is in standard air at sea level, without wind.
    NoSite,
    /// The wind is read this high, m, and grows with height.
    WindGrows(f64),
    /// A rod or rail is of this material.
    BeamMaterial(&'static str),
    /// A rail section has its usual stiffness.
    SectionStiffness(usize),
    /// A rod's upper piece can lean this far in its joint, rad.
    JointPlay(f64),
    /// A tower doesn't bend.
    TowerStands,
    /// A share of a rail's square is metal.
    SolidShare,
    /// A bond bears what is usual.
    BondStrength,
    /// A wall bears what is usual around a screw.
    WallStrength,
    /// A button is held by an ordinary screw of this thread.
    Screw(&'static str),
    /// A button or shoe has its usual play in the slot.
    SlotPlay,
    /// The upper motor lights at the booster's burnout.
    LightsAtOnce,
    /// Above this Mach number the fins' lift is held.
    LiftHeldAbove(f64),
}

impl Assumed {
    /// What a part has by it, without the part's name; `None` for what isn't about one part's own values.
    pub fn of_its_part(self, design: &Design) -> Option<String> {
        match self {
            Assumed::Material(_, name) => Some(format!("material {name}")),
            Assumed::ParentsMaterial(id) => {
                let parent = design.parts.get(id).and_then(|part| design.parts.get(part.parent?));
                Some(format!("material of its {}", parent.map_or("part", |parent| parent.word)))
            }
            Assumed::UsualMass(_, mass, section) => {
                let section = design.sections.get(section).map_or("", |section| section.name.value.as_str());
                Some(format!("{} usual for the {section} section", show::mass(mass)))
            }
            Assumed::CanopyDrag(_, drag) => Some(format!("drag {drag}")),
            _ => None,
        }
    }

    /// It in words, which stand in a list.
    pub fn in_words(self, design: &Design) -> String {
        let label = |id: PartId| design.parts.get(id).map_or(String::new(), |part| part.label());
        match self {
            Assumed::Material(id, _)
            | Assumed::ParentsMaterial(id)
            | Assumed::UsualMass(id, ..)
            | Assumed::CanopyDrag(id, _) => {
                format!("{} has {}", label(id), self.of_its_part(design).unwrap_or_default())
            }
            Assumed::CountFactor(id, factor) => {
                format!("{}' lift times {factor} for their number (MIL-HDBK-762, from memory)", label(id))
            }
            Assumed::FlatFront(id) => format!("{} has a flat front, since there is no nose", label(id)),
            Assumed::RingLift(id) => {
                format!("{}' lift between slender-body and strip theory, by a form of our own", label(id))
            }
            Assumed::FlatThrust(motor) => {
                let motor = design.motors.get(motor);
                let numbers = motor.and_then(crate::motor::motor);
                numbers.map_or(String::new(), |numbers| {
                    format!(
                        "{}'s thrust is a flat {} for {}, by its label: the most that its letter stands for",
                        motor.map_or("", |motor| motor.name.value.as_str()),
                        show::force(numbers.peak),
                        show::time(numbers.burn_time)
                    )
                })
            }
            Assumed::GuidesTaken(flight) => {
                let guides = design.flights.get(flight).map_or(&[][..], |flight| &flight.guided_by);
                let guides: Vec<String> = guides.iter().map(|named| label(named.value)).collect();
                format!("held by {}, which run on the pad", guides.join(" and "))
            }
            Assumed::Friction(friction) => format!("friction {friction}"),
            Assumed::NoStop => "no stop: it rests at the foot".to_string(),
            Assumed::Upright => "the pad stands upright".to_string(),
            Assumed::LeansIntoWind => "the pad leans into the wind".to_string(),
            Assumed::NoLeanAcross => "the flight is followed as if the pad didn't lean across the wind".to_string(),
            Assumed::NoSite => "sea level, standard air, no wind".to_string(),
            Assumed::WindGrows(height) => {
                format!("the wind is read {} up and grows with height as over open land", show::length(height))
            }
            Assumed::BeamMaterial(name) => format!("made of {name}"),
            Assumed::SectionStiffness(section) => {
                let name = design.sections.get(section).map_or("", |section| section.name.value.as_str());
                format!("the {name} section's usual stiffness")
            }
            Assumed::JointPlay(play) => format!("{} of play in the rod's joint", show::angle(play)),
            Assumed::TowerStands => "the tower doesn't lean or bend: that isn't computed".to_string(),
            Assumed::SolidShare => "45 % of the rail's square is metal".to_string(),
            Assumed::BondStrength => "a bond that bears 0.3 MPa".to_string(),
            Assumed::WallStrength => "a wall that bears 4 MPa around a screw, nothing behind it".to_string(),
            Assumed::Screw(thread) => format!("an ordinary {thread} screw through its button"),
            Assumed::SlotPlay => "0.4 mm of play in the slot".to_string(),
            Assumed::LightsAtOnce => "the upper motor lights at the booster's burnout".to_string(),
            Assumed::LiftHeldAbove(mach) => format!("above Mach {mach} the fins' lift is held at its value there"),
        }
    }
}
