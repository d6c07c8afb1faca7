//! The numbers without which a flight can't be judged, and which of them aren't known.

use crate::airframe::Airframe;
use crate::flight::sinking::{opens, Sinking};
use crate::flight::FlightNumbers;
use finwright_model::fit::{sizes, Sizes};
use finwright_model::Design;

/// A number, or an answer, that a verdict on a flight needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Needed {
    /// What the rocket weighs.
    Mass,
    /// Where it balances.
    Balance,
    /// Where the air's side force acts.
    PressureCentre,
    /// How fast the last guide leaves.
    ExitSpeed,
    /// Whether its guides run on the rod or rail.
    Fit,
    /// Whether fins and wide parts pass the rod or rail.
    Clearance,
    /// How far the rod or rail leans.
    Lean,
    /// What the guides carry, and what they bear.
    Loads,
    /// How fast it comes down, and when what slows it opens.
    Descent,
}

impl Needed {
    /// All of them.
    pub const ALL: [Needed; 9] = [
        Needed::Mass,
        Needed::Balance,
        Needed::PressureCentre,
        Needed::ExitSpeed,
        Needed::Fit,
        Needed::Clearance,
        Needed::Lean,
        Needed::Loads,
        Needed::Descent,
    ];
}

/// What a verdict on a flight needs and isn't known, in the order of [`Needed`]. What can't be because of a fault that
/// is known, such as a guide that starts above the end of its rod, isn't unknown.
pub fn open(design: &Design, airframe: &Airframe, numbers: &FlightNumbers) -> Vec<Needed> {
    let Some(flight) = design.flights.get(numbers.flight) else { return Vec::new() };
    let pad = design.pad_of(flight);
    let guides = flight.guided_by.iter().filter_map(|named| design.parts.get(named.value));
    let fits: Vec<Sizes> = guides.map(|part| pad.map_or(Sizes::Unknown, |pad| sizes(design, part, pad))).collect();
    let held = !fits.is_empty() && !flight.broken.contains(&"guided_by");
    let wrong_kind = fits.contains(&Sizes::OfOtherKinds);
    let starts_above = numbers.guides().iter().any(|guide| guide.leaves_after <= 0.0);
    let upper_known = numbers.upper().is_none() || numbers.upper_margin().is_some();
    let turned = numbers
        .clearance
        .as_ref()
        .is_some_and(|clearance| clearance.gap.is_none() || clearance.guides.iter().all(|guide| guide.clock.is_some()));
    let borne = numbers.loads.as_ref().is_some_and(|loads| loads.guides.iter().all(|guide| guide.capacity.is_some()));
    let in_tower = numbers.on_pad.as_ref().is_some_and(|on_pad| on_pad.in_tower.is_some());
    let has_bare_motor = numbers.bare.as_ref().is_some_and(|bare| bare.has_motor);
    let timed = numbers.sinking.as_ref().is_some_and(Sinking::is_timed);
    let slowed = design.parts.iter().any(opens);
    let pressure = airframe.airflow.as_ref().and_then(|airflow| airflow.total.x());
    let known = [
        (Needed::Mass, numbers.weighed.is_some()),
        (Needed::Balance, numbers.weighed.is_some() && airframe.unsettled.is_empty() && airframe.settled),
        (Needed::PressureCentre, pressure.is_some() && upper_known),
        (Needed::ExitSpeed, numbers.run.is_some() || (starts_above && numbers.weighed.is_some())),
        (Needed::Fit, in_tower || (held && !fits.contains(&Sizes::Unknown))),
        (Needed::Clearance, in_tower || turned || wrong_kind),
        (Needed::Lean, in_tower || numbers.stiffness.is_some()),
        (Needed::Loads, in_tower || borne),
        (Needed::Descent, !slowed || has_bare_motor || (timed && numbers.apart.iter().all(Sinking::is_timed))),
    ];
    known.into_iter().filter(|(_, known)| !known).map(|(needed, _)| needed).collect()
}
