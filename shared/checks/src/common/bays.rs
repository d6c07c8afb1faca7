//! Where the upper stage opens, and the cords that tie its pieces together there.

use crate::rule::Context;
use finwright_assess::flight::sinking::opens;
use finwright_model::{Amount, Part, PartId, PartKind, Stage};

/// A stretch of the airframe that something comes out of.
pub(crate) struct Bay<'a> {
    /// The part that it's in.
    pub holder: Option<PartId>,
    /// What comes out.
    pub opener: &'a Part,
    /// The cords that tie together what comes apart there.
    pub cords: Vec<&'a Part>,
}

/// Every bay, from the tip on. Of a rocket that opens at one place any cord counts; of one that opens at several, each
/// needs its own.
pub(crate) fn bays<'a>(cx: &Context<'a>) -> Vec<Bay<'a>> {
    let upper = || cx.design.parts.iter().filter(|part| part.stage == Stage::Upper);
    let cords: Vec<&Part> = upper().filter(|part| matches!(part.kind, PartKind::Cord { .. })).collect();
    let mut found: Vec<Bay> = Vec::new();
    for opener in upper().filter(|part| opens(part)) {
        if !found.iter().any(|bay| bay.holder == opener.parent) {
            let own = cords.iter().filter(|cord| cord.parent == opener.parent).copied().collect();
            found.push(Bay { holder: opener.parent, opener, cords: own });
        }
    }
    if let [only] = found.as_mut_slice() {
        only.cords = cords;
    }
    found
}

/// A cord's length, where it says it.
pub(crate) fn length(cord: &Part) -> Option<&Amount> {
    match &cord.kind {
        PartKind::Cord { length } => length.as_ref(),
        _ => None,
    }
}
