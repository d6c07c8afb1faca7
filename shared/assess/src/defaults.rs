//! What a flight's numbers rest on that the file doesn't say.

use crate::flight::friction;
use crate::path::Path;
use crate::{Assessment, FlightNumbers};
use finwright_model::Design;

/// Every default behind a flight's numbers, in words.
pub fn defaults(design: &Design, assessment: &Assessment, numbers: &FlightNumbers, path: Option<&Path>) -> Vec<String> {
    let mut found: Vec<String> = design
        .parts
        .iter()
        .zip(&assessment.weights)
        .filter_map(|(part, weight)| {
            let default = &weight.as_ref()?.default;
            (!default.is_empty()).then(|| format!("{} has {default}", part.label()))
        })
        .collect();
    let Some(flight) = design.flights.get(numbers.flight) else { return found };
    if let Some(pad) = flight.pad.as_ref().and_then(|p| design.pads.get(p.value)) {
        if pad.friction.is_none() {
            found.push(format!("friction {}", friction(pad)));
        }
    }
    if flight.site.is_none() {
        found.push("sea level, standard air, no wind".to_string());
    }
    found.extend(numbers.stiffness.iter().flat_map(|s| s.defaults.iter().cloned()));
    found.extend(numbers.loads.iter().flat_map(|l| l.defaults.iter().cloned()));
    found.extend(path.iter().flat_map(|p| p.defaults.iter().cloned()));
    found
}
