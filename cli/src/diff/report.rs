//! All designs of both sides compared.

use super::change::{DesignChange, FlightChange, Kind};
use super::figures::numbers;
use super::findings::{differs, Differs};
use super::pairs::{pairs, Pair};
use super::parts::parts;
use super::side::{Named, Side};
use finwright_checks::{analyze, Analysis, Judgement, Verdict};
use finwright_units::reader::with;
use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;

/// The version of what is printed: it counts up when a name changes its meaning or goes.
const VERSION: u32 = 1;

/// The comparison.
#[derive(Serialize, JsonSchema)]
pub struct Report {
    version: u32,
    /// What was compared.
    pub old: String,
    /// With what.
    pub new: String,
    /// Whether anything is worse than before.
    pub worse: bool,
    /// The designs that changed, by name.
    pub designs: Vec<DesignChange>,
    /// How many designs are as before.
    pub as_before: usize,
    /// What couldn't be used.
    pub unusable: Vec<Unusable>,
}

/// What couldn't be used, and why.
#[derive(Serialize, JsonSchema)]
pub struct Unusable {
    pub path: String,
    pub reason: String,
}

/// Compare both sides; in words why that can't be.
pub fn report(old: Side, new: Side) -> Result<Report, String> {
    if old.is_file != new.is_file && old.unusable.is_empty() && new.unusable.is_empty() {
        return Err(format!("{} and {}: a file is compared with a file, a folder with a folder", old.shown, new.shown));
    }
    let unusable = |side: &Side| side.unusable.clone().into_iter().map(|(path, reason)| Unusable { path, reason });
    let mut not_read: Vec<Unusable> = unusable(&old).chain(unusable(&new)).collect();
    let (shown, are_files) = ((old.shown, new.shown), old.is_file);
    let pairs = pairs(old.designs, new.designs, are_files);
    let compared: Vec<Result<Option<DesignChange>, Vec<Unusable>>> = pairs.par_iter().map(compared).collect();
    let (mut designs, mut as_before) = (Vec::new(), 0);
    for one in compared {
        match one {
            Ok(Some(design)) => designs.push(design),
            Ok(None) => as_before += 1,
            Err(reasons) => not_read.extend(reasons),
        }
    }
    let worse = designs.iter().any(|design| design.worse);
    Ok(Report { version: VERSION, old: shown.0, new: shown.1, worse, designs, as_before, unusable: not_read })
}

/// What became of a design; `None` for one that is as before.
fn compared(pair: &Pair) -> Result<Option<DesignChange>, Vec<Unusable>> {
    let (old, new) = (pair.old.as_ref().map(looked_at), pair.new.as_ref().map(looked_at));
    let (old, new) = match (old.transpose(), new.transpose()) {
        (Ok(old), Ok(new)) => (old, new),
        (old, new) => return Err([old.err(), new.err()].into_iter().flatten().collect()),
    };
    let names = |named: &Option<Named>| named.as_ref().map(|design| design.name.clone());
    let (was, path) = (names(&pair.old), names(&pair.new));
    let change = match (&was, &path) {
        (None, _) => Kind::Added,
        (_, None) => Kind::Removed,
        (Some(was), Some(path)) if was != path => Kind::Renamed,
        _ => Kind::Changed,
    };
    if let (Some(old), Some(new), Kind::Changed) = (&old, &new, change) {
        if is_same(old, new) {
            return Ok(None);
        }
    }
    let units = new.as_ref().or(old.as_ref()).map(|analysis| analysis.settings.units).unwrap_or_default();
    let design = with(units, || design((old.as_ref(), new.as_ref()), change));
    let was = was.filter(|_| change == Kind::Renamed);
    let path = path.or(names(&pair.old)).unwrap_or_default();
    Ok(Some(DesignChange { path, was, ..design }).filter(DesignChange::is_told))
}

fn looked_at(named: &Named) -> Result<Analysis, Unusable> {
    match &named.input.snapshot {
        Ok(snapshot) => Ok(analyze(snapshot)),
        Err(reason) => Err(Unusable { path: named.input.shown.clone(), reason: reason.clone() }),
    }
}

/// Whether every text and setting that a design hangs on is the same.
fn is_same(old: &Analysis, new: &Analysis) -> bool {
    let texts = |analysis: &Analysis| analysis.sources.iter().map(|source| source.text.clone()).collect::<Vec<_>>();
    old.settings == new.settings && texts(old) == texts(new)
}

fn design((old, new): (Option<&Analysis>, Option<&Analysis>), change: Kind) -> DesignChange {
    let flights = flights(old, new);
    let (old_verdict, new_verdict) = (old.map(|one| one.verdict), new.map(|one| one.verdict));
    let found = old.zip(new).map_or(Differs::default(), |(old, new)| differs(old, new));
    DesignChange {
        path: String::new(),
        was: None,
        change,
        old_verdict,
        new_verdict,
        worse: is_worse(old_verdict, new_verdict) || flights.iter().any(|flight| flight.worse),
        flights,
        findings_gone: found.gone,
        findings_new: found.new,
        findings_changed: found.changed,
        parts: old.zip(new).map_or(Vec::new(), |(old, new)| parts(old, new)),
    }
}

/// Of what is new a verdict that doesn't let it fly is worse than none; what is gone is never worse.
fn is_worse(old: Option<Verdict>, new: Option<Verdict>) -> bool {
    match (old, new) {
        (_, None) => false,
        (None, Some(new)) => !new.may_pass(),
        // A library isn't better than a rocket that meets the checks.
        (Some(old), Some(new)) => new < old.min(Verdict::MeetsTheChecks),
    }
}

/// The flights by name, in the order of the page now, those that are gone at the end.
fn flights(old: Option<&Analysis>, new: Option<&Analysis>) -> Vec<FlightChange> {
    let named = |analysis: &Analysis, name: &str| analysis.design.flights.iter().position(|f| f.name.value == name);
    let names = |analysis: Option<&Analysis>| -> Vec<String> {
        analysis.iter().flat_map(|one| &one.design.flights).map(|flight| flight.name.value.clone()).collect()
    };
    let now = names(new);
    let gone = names(old).into_iter().filter(|name| !now.contains(name));
    let of = |name: String| {
        let at = |analysis: Option<&'_ Analysis>| analysis.and_then(|one| named(one, &name));
        flight(name.clone(), old.zip(at(old)), new.zip(at(new)))
    };
    now.iter().cloned().chain(gone).map(of).collect()
}

fn flight(name: String, old: Option<(&Analysis, usize)>, new: Option<(&Analysis, usize)>) -> FlightChange {
    fn judged(side: Option<(&Analysis, usize)>) -> Option<&Judgement> {
        side.and_then(|(analysis, at)| analysis.flights.get(at))
    }
    let (before, now) = (judged(old), judged(new));
    let rule = |judgement: Option<&Judgement>| Some(judgement?.reason.as_ref()?.rule.to_string());
    let (old_verdict, new_verdict) = (before.map(|one| one.verdict), now.map(|one| one.verdict));
    FlightChange {
        flight: name,
        change: match (before, now) {
            (None, _) => Kind::Added,
            (_, None) => Kind::Removed,
            _ => Kind::Changed,
        },
        old_verdict,
        new_verdict,
        old_rule: rule(before),
        new_rule: rule(now),
        worse: is_worse(old_verdict, new_verdict),
        numbers: numbers(old, new),
    }
}
