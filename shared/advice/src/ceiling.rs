//! The strongest wind in which a flight still passes every rule, and what limits it.

use crate::supposed::{in_wind, only, Supposed};
use finwright_assess::path;
use finwright_checks::rule::Wind;
use finwright_checks::{rule, Analysis, Finding, Level};
use serde::Serialize;

/// How much wind a flight bears. Rules at warning level and above count; gusts keep the site's proportion to the wind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Ceiling {
    /// The strongest steady wind, m/s, in which nothing is found that isn't found in still air; [`MOST_WIND`] where
    /// nothing limits it below.
    pub wind: f64,
    /// What is found just above it.
    pub limit: Option<Limit>,
    /// What hangs on the wind and is found even in still air: then no wind passes every rule.
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
    /// Whether the steady wind or a gust judges it.
    pub judged_by: Option<Wind>,
}

impl Limit {
    /// What a finding says.
    pub fn of(finding: &Finding) -> Limit {
        let judged_by = rule(finding.rule).and_then(|rule| rule.wind);
        Limit { rule: finding.rule, level: finding.level, message: finding.message.clone(), judged_by }
    }
}

/// Nobody launches in more, m/s.
pub const MOST_WIND: f64 = 15.0;
/// The wind is found to this, m/s.
const CLOSE: f64 = 0.01;
/// Winds tried one after the other before the limit is closed in on, since a rule may speak in the middle of a range
/// only.
const STEP: f64 = 1.0;

/// How much wind one flight of a file bears; `None` where the flight isn't known whole, or isn't followed to the
/// ground.
pub fn ceiling(analysis: &Analysis, flight: usize) -> Option<Ceiling> {
    ceiling_of(analysis, &Supposed::new(only(&analysis.design, flight)?))
}

/// The same for a design of a single flight.
pub(crate) fn ceiling_of(analysis: &Analysis, calm: &Supposed) -> Option<Ceiling> {
    // What is found in a wind; `None` where the flight isn't computed to the ground.
    let found = |wind: f64| -> Option<Vec<Limit>> {
        if !analysis.wanted.still() {
            return None;
        }
        let supposed = calm.again(in_wind(calm.design.clone(), wind));
        path(&supposed.design, &supposed.assessment.airframe, supposed.numbers()?).ok()?;
        let found = analysis.faults_of_wind(&supposed.design, &supposed.assessment);
        Some(found.iter().map(Limit::of).collect())
    };
    let in_still_air = found(0.0)?;
    // The gravest that is new; what isn't computed any more limits too, and has nothing to say.
    let new = |wind: f64| -> Option<Option<Limit>> {
        let Some(found) = found(wind) else { return Some(None) };
        found.into_iter().find(|limit| !in_still_air.iter().any(|known| known.rule == limit.rule)).map(Some)
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
        return Some(Ceiling { wind: good, limit: None, in_still_air });
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
    Some(Ceiling { wind: good, limit: limit.flatten(), in_still_air })
}
