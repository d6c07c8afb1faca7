//! The points of a submission, by the rubric.

use super::rubric::{points, Allowed, Between, Rubric};
use super::verdicts::State;
use finwright_assess::report::flights_as_they_are;
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::{Analysis, Finding};
use finwright_units::show;

/// Points with what they come from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Grade {
    pub points: f64,
    pub of: f64,
    /// What was taken and given, a line each.
    pub lines: Vec<String>,
}

impl Grade {
    /// "7 of 10 points".
    pub fn in_words(&self) -> String {
        format!("{} of {}", show::trimmed(self.points, 2), points(self.of))
    }
}

/// The points of a submission: of several designs that fly, those of the one with the fewest.
pub fn grade(state: State, analyses: &[Analysis], faults: &[String], rubric: &Rubric) -> Grade {
    let flying = analyses.iter().filter(|analysis| !analysis.design.flights.is_empty());
    let graded = flying.map(|analysis| of(analysis, rubric));
    let least = graded.reduce(|least, next| if next.points < least.points { next } else { least });
    let why = if state == State::Unreadable { faults.to_vec() } else { Vec::new() };
    least.unwrap_or_else(|| Grade { points: 0.0, of: rubric.most(), lines: why })
}

fn of(analysis: &Analysis, rubric: &Rubric) -> Grade {
    let mut points = rubric.full;
    let mut lines = Vec::new();
    let share = match rubric.allowed {
        Allowed::Full => 1.0,
        Allowed::Half => 0.5,
        Allowed::Nothing => 0.0,
    };
    let found = analysis.findings.iter().map(|finding| (finding, 1.0));
    let allowed = analysis.allowed.iter().map(|allowed| (&allowed.finding, share));
    let mut told: Vec<&'static str> = Vec::new();
    // What isn't allowed comes first: a rule that finds something else, too, costs its points whole.
    for (finding, share) in found.chain(allowed) {
        let cost = rubric.cost(finding) * share;
        if cost > 0.0 && !told.contains(&finding.rule) {
            told.push(finding.rule);
            points -= cost;
            lines.push(taken(finding, cost, share));
        }
    }
    points = points.max(0.0);
    let floor = analysis.settings.limit(&EXIT_SPEED);
    let reports = if rubric.numbers.is_empty() {
        Vec::new()
    } else {
        flights_as_they_are(&analysis.design, &analysis.assessment, floor)
    };
    for (name, between) in &rubric.numbers {
        let values: Vec<Option<f64>> = reports.iter().map(|report| Some(report.get(name)?.0)).collect();
        let gives = !values.is_empty() && values.iter().all(|value| value.is_some_and(|value| lies(between, value)));
        points += if gives { between.gives } else { 0.0 };
        lines.push(given(name, between, &values, gives));
    }
    Grade { points, of: rubric.most(), lines }
}

fn lies(between: &Between, value: f64) -> bool {
    between.from.is_none_or(|from| value >= from) && between.to.is_none_or(|to| value <= to)
}

fn taken(finding: &Finding, cost: f64, share: f64) -> String {
    let allowed = if share < 1.0 { ", allowed with a reason" } else { "" };
    format!("\u{2212}{} {}{allowed}: {}", show::trimmed(cost, 2), finding.rule, finding.message)
}

fn given(name: &str, between: &Between, values: &[Option<f64>], gives: bool) -> String {
    let known: Vec<String> = values.iter().map(|v| v.map_or("not known".to_string(), show::number)).collect();
    let known = if known.is_empty() { "not known".to_string() } else { known.join(" and ") };
    let limits = match (between.from, between.to) {
        (Some(from), Some(to)) => format!("{from} to {to}"),
        (Some(from), None) => format!("{from} or more"),
        (_, to) => format!("{} or less", to.unwrap_or(f64::INFINITY)),
    };
    let points = if gives { show::trimmed(between.gives, 2) } else { "0".to_string() };
    format!("+{points} {name} is {known} (asked: {limits})")
}
