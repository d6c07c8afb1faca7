//! The usual rods and rails, in the lengths in which they are sold (common practice, no source).

use crate::supposed::{amount, pad as new_pad};
use finwright_assess::sold::{rod_lengths, RAILS, RODS};
use finwright_grammar::Place;
use finwright_model::{Design, Named, Pad, Rail};
use finwright_units::show;

/// Stop of a pad that isn't given, m.
const STOP: f64 = 50e-3;

/// The usual pads by size, rods before rails and the smaller before the larger, each in its lengths from the shortest
/// on; leaning and stopping as a given pad does.
pub(crate) fn usual_pads(design: &Design, like: Option<&Pad>) -> Vec<Vec<Pad>> {
    let Some(here) = design.flights.first().map(|flight| flight.header) else { return Vec::new() };
    let stop = like.and_then(|pad| pad.stop.as_ref()).map_or(STOP, |s| s.si);
    let tilt = like.map_or(0.0, |pad| pad.tilt_or_upright().si);
    let make = |name: String, rail: Rail| new_pad(name, rail, stop, tilt, here);
    let rods = RODS.iter().map(|rod| {
        let name = format!("usual {} rod", show::length(*rod));
        rod_lengths(*rod).iter().map(|length| make(name.clone(), rod_of(*rod, *length, here))).collect()
    });
    let rails = RAILS.iter().filter_map(|(section, lengths)| {
        let slot = design.section_named(section)?;
        let name = format!("usual {section} rail");
        Some(lengths.iter().map(|length| make(name.clone(), rail_of(slot, *length, here))).collect())
    });
    rods.chain(rails).collect()
}

fn rod_of(diameter: f64, length: f64, here: Place) -> Rail {
    let (diameter, length) = (Some(amount(diameter, here)), Some(amount(length, here)));
    Rail::Rod { diameter, length, material: None, joint: None, header: here }
}

fn rail_of(slot: usize, length: f64, here: Place) -> Rail {
    Rail::Slotted { slot: Some(Named { value: slot, place: here }), length: Some(amount(length, here)), header: here }
}
