//! Guides as hardware: how far they stand off the body, and the rail section that they are made for.

use finwright_model::fit::is_same_section;
use finwright_model::{rank, Amount, Design, Part, PartKind, Section};

/// How high a guide's hardware stands off the body's surface to its middle, m.
pub fn guide_offset(design: &Design, part: &Part) -> f64 {
    let si = |a: &Option<Amount>| a.as_ref().map_or(0.0, |a| a.si);
    match &part.kind {
        PartKind::Lug { bore, wall, standoff, .. } => si(standoff) + si(bore) / 2.0 + si(wall),
        PartKind::Button { profile, standoff, .. } | PartKind::RailGuide { profile, standoff, .. } => {
            let mouth = section_of_width(design, profile).and_then(|(_, s)| s.mouth.as_ref()).map_or(0.0, |m| m.si);
            si(standoff) + mouth / 2.0
        }
        _ => 0.0,
    }
}

/// The rail section of a width, with its number: the file's own first, then those of used files, then the built-in
/// ones.
pub fn section_of_width<'d>(design: &'d Design, width: &Option<Amount>) -> Option<(usize, &'d Section)> {
    let width = width.as_ref()?.si;
    let is_it = |section: &Section| section.width.as_ref().is_some_and(|w| is_same_section(w.si, width));
    let fit = design.sections.iter().enumerate().filter(|(_, section)| is_it(section));
    fit.min_by_key(|(_, section)| rank(section.name.place)).map(|(number, section)| (number, section.as_ref()))
}
