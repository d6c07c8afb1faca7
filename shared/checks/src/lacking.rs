//! What isn't known, in words: the assessment's facts as a reader is told them.

use finwright_assess::flight::path::MOST_MACH;
use finwright_assess::{Basis, Measure, Needed, Needs, NotFlown, Subject, Unknown};
use finwright_model::Design;
use finwright_units::show;
use std::collections::HashMap;

/// What a subject needs: "tube body needs `length`".
pub fn sentence(design: &Design, lacks: &[&Unknown]) -> String {
    let Some(first) = lacks.first() else { return String::new() };
    format!("{} needs {}", first.subject.label(design), joined(&all_needs(design, lacks), "and"))
}

/// What a subject needs, each once, in words.
pub fn all_needs(design: &Design, lacks: &[&Unknown]) -> Vec<String> {
    let mut fields: Vec<&'static str> = Vec::new();
    let mut others: Vec<String> = Vec::new();
    for unknown in lacks {
        match &unknown.needs {
            Needs::Fields(named) => fields.extend(named),
            needs => others.push(needs_in_words(design, needs)),
        }
    }
    let mut found: Vec<String> = Vec::new();
    for need in fields.iter().map(|field| format!("`{field}`")).chain(others) {
        // That a mass may stand for a material is said once.
        if !found.contains(&need) {
            found.push(need);
        }
    }
    found
}

/// What is needed: "`length`", "a `mount` in the last tube".
pub fn needs_in_words(design: &Design, needs: &Needs) -> String {
    let material = |id: usize| design.materials.get(id).map_or("?", |m| m.name.value.as_str());
    let section = |id: usize| design.sections.get(id).map_or("?", |s| s.name.value.as_str());
    match needs {
        Needs::Fields(fields) => joined(&fields.iter().map(|field| format!("`{field}`")).collect::<Vec<_>>(), "and"),
        Needs::MaterialOrMass => "`material`, or its `mass`".to_string(),
        Needs::MassOrProfile => "`mass`, or a `profile` that a rail section has".to_string(),
        Needs::FittingMeasures => "measures that fit each other".to_string(),
        Needs::Motor => "a motor to balance with".to_string(),
        Needs::MountAndMotor => "a `mount`, and a motor with its mass and measures".to_string(),
        Needs::Mount => "a `mount` in its last tube".to_string(),
        Needs::RodOrRail => "a `rod` or a `rail`".to_string(),
        Needs::OfRod(field) => format!("`{field}` of its rod"),
        Needs::OfRail(field) => format!("`{field}` of its rail"),
        Needs::RailLength => "the `length` of its rod or rail".to_string(),
        Needs::OfMaterial(field, id) => format!("`{field}` of material {}", material(*id)),
        Needs::OfSection(field, id) => format!("`{field}` of section {}", section(*id)),
        Needs::MaterialNamed(name) => format!("a `material`, or one named {name}"),
        Needs::ThreeFins => "three fins or more".to_string(),
        Needs::Settling => "a place that the balance point doesn't move with".to_string(),
        Needs::Elsewhere => "what is told beside it".to_string(),
    }
}

/// What of a subject isn't known for want of something.
pub fn measure_in_words(measure: Measure) -> &'static str {
    match measure {
        Measure::Mass => "what it weighs",
        Measure::Place => "where it sits",
        Measure::Shape => "its shape",
        Measure::Lift => "the air's force on it",
        Measure::Motor => "its mass or thrust",
        Measure::MotorPlace => "where the motor sits",
        Measure::Run => "the run along it",
        Measure::Lean => "how far it leans",
        Measure::Standing => "whether it stays standing in a gust",
        Measure::Fit => "whether rod or rail and guides fit",
        Measure::Load => "what it bears",
        Measure::FinRoom => "whether a fin stands in the way",
        Measure::Flight => "nothing of it",
        Measure::Descent => "how fast the rocket comes down",
        Measure::Opening => "when the parachute or streamer opens",
        Measure::Values => "the values that hang on the balance point",
    }
}

/// What isn't known of a flight, or of several, the first of it by name: "its exit speed isn't known", "its mass and 6
/// more aren't known".
pub fn unknown_in_words(whose: &str, unknown: &[Needed]) -> String {
    let words: Vec<&str> = unknown.iter().map(|needed| needed_in_words(*needed)).collect();
    match words.as_slice() {
        [] => "nothing is unknown".to_string(),
        [only] => format!("{whose} {only} isn't known"),
        _ if unknown.len() == Needed::ALL.len() => "nothing that is needed is known".to_string(),
        [one, other] => format!("{whose} {one} and {other} aren't known"),
        [one, rest @ ..] => format!("{whose} {one} and {} more aren't known", rest.len()),
    }
}

/// A number that a verdict needs.
pub fn needed_in_words(needed: Needed) -> &'static str {
    match needed {
        Needed::Mass => "mass",
        Needed::Balance => "balance point",
        Needed::PressureCentre => "centre of pressure",
        Needed::ExitSpeed => "exit speed",
        Needed::Fit => "fit on the guide",
        Needed::Clearance => "room beside the guide",
        Needed::Lean => "lean of the guide",
        Needed::Loads => "loads on the guides",
        Needed::Descent => "descent",
    }
}

/// Why a flight isn't followed to the ground, as what it would need.
pub fn not_flown_in_words(why: NotFlown) -> String {
    match why {
        NotFlown::Unknown => "its mass, motor, shape and air to be known".to_string(),
        NotFlown::StaysOnGuide => "to leave its rod or rail".to_string(),
        NotFlown::BoosterFalls => "a booster that still climbs at its burnout".to_string(),
        NotFlown::Fins => "three or more fins in every set".to_string(),
        NotFlown::TooFast(mach) => {
            format!("a method for about Mach {}: this one ends at Mach {MOST_MACH}", show::significant(mach, 2, 1))
        }
        NotFlown::Unsound => "numbers whose motion can be followed".to_string(),
        NotFlown::NeverLands => "to come down within an hour".to_string(),
    }
}

/// Words in a row: "a, b and c".
pub fn joined(words: &[impl AsRef<str>], before_last: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_string(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} {before_last} {}", most.join(", "), last.as_ref())
        }
    }
}

/// Every cause that the assessment knows of, those of one subject together: the rocket's own, then each flight's.
pub fn causes(assessment: &finwright_assess::Assessment, only: Option<usize>) -> Vec<Vec<&Unknown>> {
    let of_flights = assessment.flights.iter().filter(|n| only.is_none_or(|only| only == n.flight));
    grouped(assessment.airframe.unknown.iter().chain(of_flights.flat_map(|n| &n.unknown)))
}

/// The causes among some unknowns, those of one subject together.
pub(crate) fn grouped<'u>(unknown: impl Iterator<Item = &'u Unknown>) -> Vec<Vec<&'u Unknown>> {
    let mut groups: Vec<Vec<&Unknown>> = Vec::new();
    let mut number: HashMap<Subject, usize> = HashMap::new();
    for unknown in unknown.filter(|unknown| unknown.is_cause()) {
        let of_subject = *number.entry(unknown.subject).or_insert_with(|| {
            groups.push(Vec::new());
            groups.len() - 1
        });
        if let Some(group) = groups.get_mut(of_subject).filter(|group| !group.contains(&unknown)) {
            group.push(unknown);
        }
    }
    groups
}

/// What a flight's mass and balance rest on: "as computed", "as weighed", or which of the two was measured.
pub fn basis_in_words(basis: Basis) -> String {
    let measured = match (basis.mass, basis.balance) {
        (false, false) => return "as computed".to_string(),
        (true, true) => "as weighed",
        (true, false) => "mass as weighed, balance as computed",
        (false, true) => "balance as measured, mass as computed",
    };
    let other = if basis.with_other_motor { " with another motor in" } else { "" };
    format!("{measured}{other}")
}
