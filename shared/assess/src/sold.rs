//! What is sold: rods, rails and sheets in their usual sizes (common practice, no source). Advice names these, since a
//! 0.58 m rod can't be bought.

use finwright_model::{Design, Pad, Rail};

/// Usual rods by diameter, m: metric and inch sizes from 1/8 in on.
pub const RODS: [f64; 7] = [3.2e-3, 4.0e-3, 4.8e-3, 6.35e-3, 8.0e-3, 9.5e-3, 12.7e-3];

/// Lengths of rods, m: thin ones to 1.2 m, or they bend under their own weight; 36, 48 and 72 in are the same within a
/// centimetre or three.
pub fn rod_lengths(diameter: f64) -> &'static [f64] {
    /// From this diameter on rods are sold longer, m.
    const THICK: f64 = 4.7e-3;
    match diameter < THICK {
        true => &[0.9, 1.2],
        false => &[0.9, 1.2, 1.8],
    }
}

/// Lengths of the catalogue's rails as they are sold or cut, m.
pub const RAILS: [(&str, &[f64]); 4] = [
    ("slim", &[1.0, 1.2]),
    ("mini", &[1.0, 1.5, 1.8]),
    ("standard", &[1.2, 1.8, 2.4]),
    ("large", &[1.8, 2.4, 3.0, 3.6]),
];

/// The shortest rod or rail that is sold like a pad's and is at least so long, m; a section that isn't the catalogue's
/// is taken to be sold in the lengths of them all.
pub fn length_at_least(design: &Design, pad: &Pad, least: f64) -> Option<f64> {
    let is_enough = |length: &f64| *length >= least;
    match pad.rail.as_ref()? {
        Rail::Rod { diameter, .. } => {
            let lengths = rod_lengths(diameter.as_ref().map_or(f64::INFINITY, |d| d.si));
            lengths.iter().copied().find(is_enough)
        }
        Rail::Tower { .. } => return None,
        Rail::Slotted { slot, .. } => {
            let section = slot.as_ref().and_then(|slot| design.sections.get(slot.value));
            let own = section.and_then(|section| RAILS.iter().find(|(name, _)| section.name.value == *name));
            let lengths = own.map_or(&RAILS[..], std::slice::from_ref).iter().flat_map(|(_, lengths)| *lengths);
            lengths.copied().filter(is_enough).min_by(f64::total_cmp)
        }
    }
}

/// Thicknesses of sheets of wood and glass, m: metric ones, and 1/32 in to 1/2 in.
const SHEETS: [f64; 18] = [
    0.8e-3, 1.0e-3, 1.2e-3, 1.5e-3, 1.6e-3, 2.0e-3, 2.4e-3, 2.5e-3, 3.0e-3, 3.2e-3, 4.0e-3, 4.8e-3, 5.0e-3, 6.0e-3,
    6.4e-3, 8.0e-3, 9.5e-3, 12.7e-3,
];

/// The thinnest sheet that is sold and at least so thick, m.
pub fn sheet_at_least(least: f64) -> Option<f64> {
    SHEETS.into_iter().find(|thickness| *thickness >= least)
}
