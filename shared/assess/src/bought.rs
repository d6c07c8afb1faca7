//! What one buys and drills for: the hardware of each usual rail section. Which screw goes with which rail, and up to what
//! mass a rail is used, is common practice without a source; threads and holes are by their standards.

use crate::hardware::section_of_width;
use finwright_model::{Amount, Design};
use finwright_physics::thread::{Thread, METRIC, UNIFIED};

/// The hardware of a button for one rail section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kit {
    /// The section's name in the catalogue.
    pub section: &'static str,
    /// The button's screw.
    pub metric: &'static Thread,
    /// The same in inches.
    pub unified: &'static Thread,
    /// Thickness of the block behind the wall, m, in which an insert or a nut is glued.
    pub block: f64,
    /// The heaviest rocket that is usually flown from it, kg.
    pub most_mass: f64,
}

/// The kits of the catalogue's sections, the smallest first.
pub static KITS: [Kit; 4] = [
    Kit { section: "slim", metric: &METRIC[0], unified: &UNIFIED[0], block: 3e-3, most_mass: 0.7 },
    Kit { section: "mini", metric: &METRIC[1], unified: &UNIFIED[1], block: 5e-3, most_mass: 2.0 },
    Kit { section: "standard", metric: &METRIC[2], unified: &UNIFIED[2], block: 6e-3, most_mass: 10.0 },
    Kit { section: "large", metric: &METRIC[3], unified: &UNIFIED[3], block: 10e-3, most_mass: 35.0 },
];

/// The kit for a rail of a width; `None` where it's no usual section.
pub fn kit(design: &Design, width: &Option<Amount>) -> Option<&'static Kit> {
    let own = section_of_width(design, width)?.1.width.as_ref()?.si;
    let usual = |kit: &&Kit| {
        let section = design.section_named(kit.section).and_then(|section| design.sections.get(section));
        let width = section.and_then(|section| section.width.as_ref());
        width.is_some_and(|width| finwright_model::fit::is_same_section(width.si, own))
    };
    KITS.iter().find(usual)
}
