//! The strongest wind in which a flight still passes every rule, and what limits it.

use crate::supposed::{in_wind, only, Supposed};
use finwright_checks::{Level, Settings};
use finwright_model::Design;
use serde::Serialize;

/// How much wind a flight bears. Rules at warning level and above count; gusts keep the site's proportion to the wind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Ceiling {
    /// The strongest steady wind, m/s, in which nothing is found that isn't found in still air; [`MOST_WIND`] where nothing
    /// limits it below.
    pub wind: f64,
    /// What is found just above it.
    pub limit: Option<Limit>,
    /// What is found even in still air: then no wind passes every rule.
    pub in_still_air: Vec<Limit>,
}

/// What a rule finds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Limit {
    /// The rule.
    pub rule: &'static str,
    /// Its level.
    pub level: Level,
    /// What it says there.
    pub message: String,
}

/// Nobody launches in more, m/s.
pub const MOST_WIND: f64 = 15.0;
/// The wind is found to this, m/s.
const CLOSE: f64 = 0.01;
/// Winds tried one after the other before the limit is closed in on, since a rule may speak in the middle of a range only.
const STEP: f64 = 1.0;

/// How much wind one flight of a design bears; `None` where the flight isn't known whole.
pub fn ceiling(design: &Design, settings: &Settings, flight: usize) -> Option<Ceiling> {
    ceiling_of(&only(design, flight)?, settings)
}

/// The same for a design of a single flight.
pub(crate) fn ceiling_of(design: &Design, settings: &Settings) -> Option<Ceiling> {
    let found = |wind: f64| -> (Vec<Limit>, bool) {
        let supposed = Supposed::new(in_wind(design.clone(), wind));
        let limits = supposed.faults(settings).into_iter();
        let limits = limits.map(|f| Limit { rule: f.rule, level: f.level, message: f.message }).collect();
        (limits, supposed.numbers().is_some_and(|n| n.run.as_ref().is_some_and(|run| run.last().is_some())))
    };
    let (in_still_air, leaves) = found(0.0);
    if !leaves {
        return None;
    }
    let new = |wind: f64| {
        let found = found(wind).0;
        found.into_iter().find(|limit| !in_still_air.iter().any(|known| known.rule == limit.rule))
    };
    let (mut good, mut bad, mut limit) = (0.0, f64::INFINITY, None);
    let mut wind = STEP;
    while wind <= MOST_WIND {
        limit = new(wind);
        if limit.is_some() {
            bad = wind;
            break;
        }
        good = wind;
        wind += STEP;
    }
    if limit.is_none() {
        return Some(Ceiling { wind: good, limit, in_still_air });
    }
    while bad - good > CLOSE {
        let middle = 0.5 * (good + bad);
        match new(middle) {
            Some(found) => {
                bad = middle;
                limit = Some(found);
            }
            None => good = middle,
        }
    }
    Some(Ceiling { wind: good, limit, in_still_air })
}
