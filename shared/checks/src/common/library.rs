//! Files that declare things for others.

use finwright_grammar::{FileId, Place};
use finwright_model::Design;

/// Whether a file without flights declares things for others: materials, sections, motors, pads, sites, or parts that
/// are no rocket, for want of a nose.
pub(crate) fn is_library(design: &Design) -> bool {
    let own = |place: Place| place.file == FileId(0);
    let declares = design.materials.iter().any(|m| own(m.name.place))
        || design.sections.iter().any(|s| own(s.name.place))
        || design.motors.iter().any(|m| own(m.header))
        || design.pads.iter().any(|p| own(p.header))
        || design.sites.iter().any(|s| own(s.name.place));
    let is_nose = |part: &finwright_model::Part| matches!(part.kind, finwright_model::PartKind::Nose { .. });
    let parts = !design.parts.is_empty() && !design.parts.iter().any(is_nose);
    (declares && design.airframe.is_none()) || parts
}
