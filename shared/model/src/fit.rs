//! Whether a guide runs on what stands on a pad: lugs on a rod, buttons and rail guides in a rail's slot.

use crate::design::{Design, Pad, Part, PartId, PartKind, Rail};

/// The least clearance that slides, m; paint and dust take their share of the usual 0.3 to 0.5 mm (common practice, no
/// source).
pub const LEAST_CLEARANCE: f64 = 0.1e-3;

/// Sizes equal to within a micrometre are meant to be equal, m: nobody measures closer, and one of them may have been
/// written in inches.
pub const SAME: f64 = 1e-6;

/// Whether a lug with this bore slides on a rod, both in m.
pub fn slides(bore: f64, rod: f64) -> bool {
    bore - rod >= LEAST_CLEARANCE - SAME
}

/// Whether a lug with this bore is wider than its rod by more than `most_play`, all in m.
pub fn is_loose(bore: f64, rod: f64, most_play: f64) -> bool {
    bore - rod > most_play + SAME
}

/// Whether two widths, m, are those of one rail section: half a millimetre tells neighbouring sections apart (20 mm
/// from 3/4 in) and forgives rounding between mm and inches (25.4 written as 25).
pub fn is_same_section(one: f64, other: f64) -> bool {
    (one - other).abs() <= 0.5e-3
}

/// What is known of a guide's and a pad's sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sizes {
    /// Both are known.
    Known,
    /// One of them isn't.
    Unknown,
    /// A lug and a rail, or a button and a rod: no size makes them fit.
    OfOtherKinds,
}

/// Whether the sizes are known that decide if a guide runs on a pad.
pub fn sizes(design: &Design, part: &Part, pad: &Pad) -> Sizes {
    let known = match (&part.kind, &pad.rail) {
        (PartKind::Lug { bore, .. }, Some(Rail::Rod { diameter, .. })) => bore.is_some() && diameter.is_some(),
        (PartKind::Button { profile, .. } | PartKind::RailGuide { profile, .. }, Some(Rail::Slotted { slot, .. })) => {
            let section = slot.as_ref().and_then(|slot| design.sections.get(slot.value));
            profile.is_some() && section.is_some_and(|section| section.width.is_some())
        }
        (_, None) => false,
        _ => return Sizes::OfOtherKinds,
    };
    if known {
        Sizes::Known
    } else {
        Sizes::Unknown
    }
}

/// Whether a guide is of the kind and the size that runs on a pad, a lug with no more clearance than `most_play`, m.
/// What isn't known doesn't run.
pub fn runs_on(design: &Design, part: &Part, pad: &Pad, most_play: f64) -> bool {
    match (&part.kind, &pad.rail) {
        (PartKind::Lug { bore: Some(bore), .. }, Some(Rail::Rod { diameter: Some(rod), .. })) => {
            slides(bore.si, rod.si) && !is_loose(bore.si, rod.si, most_play)
        }
        (
            PartKind::Button { profile: Some(profile), .. } | PartKind::RailGuide { profile: Some(profile), .. },
            Some(Rail::Slotted { slot: Some(slot), .. }),
        ) => {
            let width = design.sections.get(slot.value).and_then(|section| section.width.as_ref());
            width.is_some_and(|width| is_same_section(profile.si, width.si))
        }
        _ => false,
    }
}

/// The most by which a lug may be wider than a rod for it to be taken for that rod's without being named, m (common
/// practice, no source).
const MOST_TAKEN: f64 = 1.0e-3;

/// The guides that run on a pad, where they are one set: all in one line along the body, or all without an angle. `None`
/// where none run on it, or it could be either of two lines.
pub fn only_set(design: &Design, pad: &Pad) -> Option<Vec<PartId>> {
    let running = |(_, part): &(PartId, &Part)| runs_on(design, part, pad, MOST_TAKEN);
    let set: Vec<(PartId, &Part)> = design.parts.iter().enumerate().filter(running).collect();
    let clock = |part: &Part| part.clock.as_ref().map(|clock| clock.si);
    let (_, first) = set.first()?;
    let one_line = set.iter().all(|(_, part)| clock(part) == clock(first));
    one_line.then(|| set.iter().map(|(id, _)| *id).collect())
}
