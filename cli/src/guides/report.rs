//! The comparison for a program.

use super::asked::Asked;
use crate::judged::{objects, FlightVerdict};
use finwright_advice::words::{answer, besides};
use finwright_advice::Comparison;
use finwright_checks::{Reason, Verdict};
use serde::Serialize;

/// The version of what is printed: it counts up when a name changes its meaning or goes.
const VERSION: u32 = 1;

/// All of it.
#[derive(Serialize)]
pub struct Report<'a> {
    version: u32,
    file: &'a str,
    /// The verdict on the file as it stands.
    verdict: Verdict,
    reason: Option<&'a Reason>,
    /// The verdicts on its flights as they stand.
    flights: Vec<FlightVerdict>,
    /// The pads compared, for each motor and site.
    comparisons: Vec<Answered<'a>>,
}

/// A comparison with the sentences that it comes to.
#[derive(Serialize)]
struct Answered<'a> {
    answer: String,
    besides: Vec<String>,
    #[serde(flatten)]
    comparison: &'a Comparison,
}

pub fn report<'a>(asked: &'a Asked, found: &'a [Comparison]) -> Report<'a> {
    let (shown, analysis) = (&asked.shown, &asked.own);
    let answered = |comparison| Answered { answer: answer(comparison), besides: besides(comparison), comparison };
    Report {
        version: VERSION,
        file: shown,
        verdict: analysis.verdict,
        reason: analysis.reason.as_ref(),
        flights: objects(analysis, true),
        comparisons: found.iter().map(answered).collect(),
    }
}
