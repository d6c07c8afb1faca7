//! `guide/heavy-for-its-rail`: a rocket heavier than is usual on its rail's section.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::bought::{kit, KITS};
use finwright_model::Rail;
use finwright_units::show;

/// More than its section is used for.
pub static HEAVY_FOR_ITS_RAIL: Rule = Rule {
    name: "guide/heavy-for-its-rail",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a rocket heavier than is usual on its rail's section",
    why: "Small buttons have thin screws: a knock, or lifting the rocket level on the rail, bends them.",
    prose: include_str!("heavy_for_its_rail.md"),
    thresholds: &[],
    example: Example::new("parachute { diameter: 300 mm; mass: 4 g;", "parachute { diameter: 300 mm; mass: 800 g;"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (flight, numbers) in cx.flights() {
        let (Some(pad), Some(loaded)) = (cx.design.pad_of(flight), numbers.loaded()) else { continue };
        let Some(Rail::Slotted { slot: Some(slot), .. }) = &pad.rail else { continue };
        let Some(section) = cx.design.sections.get(slot.value) else { continue };
        let Some(own) = kit(cx.design, &section.width).filter(|kit| loaded.mass > kit.most_mass) else { continue };
        let enough = KITS.iter().find(|kit| loaded.mass <= kit.most_mass);
        out.push(
            HEAVY_FOR_ITS_RAIL
                .finding(
                    slot.place,
                    format!(
                        "{} weighs {}; up to {} is usual on the {} section",
                        flight.name.value,
                        show::mass(loaded.mass),
                        show::mass(own.most_mass),
                        section.name.value
                    ),
                )
                .help(match enough {
                    Some(kit) => format!("fly it from a {} rail, with buttons for that", kit.section),
                    None => "ask the range safety officer what it may fly from".to_string(),
                })
                .label(flight.name.place, "in this flight")
                .of_flight(numbers)
                .beyond(loaded.mass / own.most_mass),
        );
    }
}
