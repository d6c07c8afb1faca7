//! What isn't computed, and what it needs: facts, which the crates above put into words.

use finwright_grammar::Place;
use finwright_model::{Design, PartId};

/// Something that isn't computed, with what it needs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unknown {
    /// What lacks something.
    pub subject: Subject,
    /// What isn't known of it.
    pub measure: Measure,
    /// What it needs.
    pub needs: Needs,
    /// Where that would be said.
    pub place: Place,
}

/// What lacks something, by its number in the design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Subject {
    /// A part.
    Part(PartId),
    /// A motor.
    Motor(usize),
    /// A pad.
    Pad(usize),
    /// A flight.
    Flight(usize),
    /// The airframe, or the booster.
    Airframe,
}

/// What isn't known of a subject.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// What it weighs.
    Mass,
    /// Where it sits.
    Place,
    /// Its outer shape.
    Shape,
    /// The air's force on it.
    Lift,
    /// A motor's mass or thrust.
    Motor,
    /// Where a motor sits in the rocket.
    MotorPlace,
    /// The run along a pad's rod or rail.
    Run,
    /// How far a pad's rod or rail leans.
    Lean,
    /// Whether a pad stays standing in a gust.
    Standing,
    /// Whether a guide runs on a rod or rail.
    Fit,
    /// What a guide bears.
    Load,
    /// Whether a fin stands in the way of a rod or rail.
    FinRoom,
    /// Everything about a flight.
    Flight,
    /// How fast the rocket comes down.
    Descent,
    /// When something opens to slow it.
    Opening,
    /// The values that hang on the balance point.
    Values,
}

/// What is needed. Where it isn't the subject's own to say, the cause is told at another subject.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Needs {
    /// Fields of the subject's own block.
    Fields(Vec<&'static str>),
    /// A material, or the mass itself.
    MaterialOrMass,
    /// A mass, or a `profile` that a rail section has.
    MassOrProfile,
    /// Measures that can be those of one thing.
    FittingMeasures,
    /// A motor to balance with.
    Motor,
    /// A mount, and a motor with its mass and measures.
    MountAndMotor,
    /// A mount in the last tube.
    Mount,
    /// A rod or a rail.
    RodOrRail,
    /// A field of its rod.
    OfRod(&'static str),
    /// A field of its rail.
    OfRail(&'static str),
    /// The length of its rod or rail.
    RailLength,
    /// A field of a material, by its number.
    OfMaterial(&'static str, usize),
    /// A field of a rail section, by its number.
    OfSection(&'static str, usize),
    /// A material of this name, which is usual here.
    MaterialNamed(&'static str),
    /// Three fins or more in every set.
    ThreeFins,
    /// A placement that moves the balance point less than it follows it.
    Settling,
    /// Something that is told where it's missing: lines that can be understood, the length of a part ahead.
    Elsewhere,
}

impl Unknown {
    /// Whether the subject itself could say what is needed, so that it's a cause and no consequence.
    pub fn is_cause(&self) -> bool {
        self.needs != Needs::Elsewhere
    }
}

impl Subject {
    /// What a reader calls it: `tube body`, `motor d9`.
    pub fn label(self, design: &Design) -> String {
        let named = |word: &str, name: Option<&str>| match name {
            Some(name) if !name.is_empty() => format!("{word} {name}"),
            _ => word.to_string(),
        };
        match self {
            Subject::Part(id) => design.parts.get(id).map_or("part".to_string(), |part| part.label()),
            Subject::Motor(id) => named("motor", design.motors.get(id).map(|m| m.name.value.as_str())),
            Subject::Pad(id) => named("pad", design.pads.get(id).map(|p| p.name.value.as_str())),
            Subject::Flight(id) => named("flight", design.flights.get(id).map(|f| f.name.value.as_str())),
            Subject::Airframe => "the airframe".to_string(),
        }
    }
}
