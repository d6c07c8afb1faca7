//! Where guides go on the airframe.

use finwright_advice::placement::Spot;
use finwright_advice::supposed::{in_wind, only};
use finwright_advice::{place, Hardware, Placement};
use finwright_checks::Analysis;
use finwright_model::Pad;
use finwright_units::show;

/// Where guides go: for the first rod and the first rail at hand, or for what is usual.
pub fn placements(analysis: &Analysis, wind: Option<f64>) -> Vec<(String, Placement)> {
    let design = &analysis.design;
    let pads = |rod: bool| design.pads.iter().find(|pad| pad.rail.is_some() && pad.has_rod() == rod);
    let mut found = Vec::new();
    let mut add = |pad: Option<&Pad>, hardware: Hardware, what: &str| {
        let Some(pad) = pad else { return };
        let placed = (0..design.flights.len()).find_map(|flight| {
            let one = only(design, flight)?;
            let one = wind.map_or(one.clone(), |wind| in_wind(one, wind));
            place(&one, &analysis.settings, 0, pad, hardware)
        });
        if let Some(placed) = placed {
            found.push((format!("{what} for {} would go:", pad.name.value), placed));
        }
    };
    add(pads(true), Hardware::OneLug, "one lug");
    add(pads(true), Hardware::TwoLugs, "two lugs");
    add(pads(false), Hardware::TwoButtons, "two buttons");
    found
}

/// A guide's place in a line.
pub fn in_words(spot: &Spot) -> String {
    let standoff =
        if spot.standoff > 0.0 { format!(", standoff {}", show::length(spot.standoff)) } else { String::new() };
    format!(
        "{}: middle {} from the tip, {} ahead of the aft end, on {}{standoff}",
        spot.what,
        show::station(spot.station),
        show::station(spot.from_tail),
        spot.on
    )
}
