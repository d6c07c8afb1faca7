//! The flights whose way to the ground says something about the rocket.

use crate::rule::Context;
use finwright_assess::flight::path::{path, Path};
use finwright_assess::FlightNumbers;
use finwright_model::Flight;

/// Whether a flight's margins are known and keep it on its path, its upper stage's too.
pub(crate) fn is_stable(n: &FlightNumbers) -> bool {
    let upper = n.upper().map_or(Some(1.0), |_| n.upper_margin());
    [n.margin(), upper].into_iter().all(|margin| margin.is_some_and(|m| m > 0.0))
}

/// The flights that are known to the ground. A rocket that isn't stable turns over as soon as it's free, and what the
/// numbers say of its height, speed and descent isn't worth telling: another rule says the one thing that matters.
pub(crate) fn flown<'a>(cx: &Context<'a>) -> Vec<(&'a Flight, &'a FlightNumbers, &'a Path)> {
    let stable = cx.flights().filter(|(_, numbers)| is_stable(numbers));
    let known = stable.filter_map(|(flight, n)| Some((flight, n, path(cx.design, &cx.assessment.airframe, n).ok()?)));
    // One that falls back before its burnout has no coast that a delay could fit.
    known.filter(|(.., path)| path.free_coast > 0.0).collect()
}
