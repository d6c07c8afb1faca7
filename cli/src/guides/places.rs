//! Where guides go on the airframe.

use finwright_advice::placement::Spot;
use finwright_advice::supposed::{in_wind, only};
use finwright_advice::{place, Hardware, Placement};
use finwright_assess::bought::kit;
use finwright_checks::Analysis;
use finwright_model::{Pad, PartKind};
use finwright_units::show::{self, si};

/// Where guides go: for the first rod and the first rail at hand, or for what is usual.
pub fn placements(analysis: &Analysis, wind: Option<f64>) -> Vec<(String, Placement)> {
    let design = &analysis.design;
    let pads =
        |rod: bool| design.pads.iter().find(|pad| pad.rail.is_some() && pad.has_rod() == rod).map(|pad| pad.as_ref());
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

/// What to buy, to drill and to glue for a guide, and what it then bears.
pub fn to_fix(placement: &Placement, spot: &Spot) -> Option<String> {
    let design = &placement.supposed.design;
    let part = design.parts.get(spot.part)?;
    let numbers = placement.supposed.numbers()?;
    let load = numbers.loads.as_ref()?.guides.iter().find(|load| load.part == spot.part);
    let bears = load.and_then(|load| Some((load.capacity?, load.most())));
    let bears = bears.map_or(String::new(), |(bears, most)| {
        format!("; it bears about {} and carries {} here at most", show::force(bears), show::force(most))
    });
    match &part.kind {
        PartKind::Button { profile, .. } => {
            let kit = kit(design, profile)?;
            Some(format!(
                "drill {} for {} ({} for {}), {} ahead of the aft end; behind the wall a block of {} with an insert or a \
                    nut{bears}; up to {} is usual on this section",
                si::length(kit.metric.hole),
                kit.metric.name,
                show::drill_in_inches(kit.unified.hole),
                kit.unified.name,
                show::station(spot.from_tail),
                show::length(kit.block),
                show::mass(kit.most_mass),
            ))
        }
        PartKind::Lug { bore, length, wall, .. } => {
            let (bore, wall, length) = (bore.as_ref()?.si, wall.as_ref()?.si, length.as_ref()?.si);
            Some(format!(
                "bore {}, wall {}: glue a foot {} wide along its whole {}{bears}",
                show::length(bore),
                show::length(wall),
                show::length(0.5 * (bore + 2.0 * wall)),
                show::length(length),
            ))
        }
        _ => None,
    }
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
