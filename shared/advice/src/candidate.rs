//! One pad for a rocket, with the guides that run on it or would: judged, and put into numbers.

use crate::asked::{is_of_the_rocket, Asked};
use crate::ceiling::{Ceiling, Limit};
use crate::heaviest::Heaviest;
use crate::placement::{place_on, Hardware};
use crate::supposed::{from_pad, Supposed};
use finwright_assess::fit::runs_on;
use finwright_assess::Likelihood;
use finwright_checks::common::floors::floors;
use finwright_checks::common::limits::{EXIT_SPEED, LUG_PLAY, TIP_SLOPE};
use finwright_checks::lacking::{joined, needed_in_words};
use finwright_checks::{Finding, Judgement, Level, Verdict};
use finwright_model::{Design, Pad, PartId, Rail};
use finwright_units::show;
use serde::Serialize;
use std::cmp::Ordering;

/// One pad with the guides that would run on it. SI units, angles in rad.
#[derive(Clone, Debug, Serialize)]
#[allow(missing_docs)] // The names say it; `report` in the assessment explains the numbers.
pub struct Candidate {
    pub pad: String,
    /// What stands on it: "4 mm rod of 1.2 m".
    pub rail: String,
    /// Whether it's a rail.
    pub is_rail: bool,
    /// The guides that run on it: the rocket's own by name, or what it would need.
    pub guides: Vec<String>,
    /// Whether the rocket has these guides.
    pub fits: bool,
    /// Whether it is one of the usual pads, which no file names.
    pub is_usual: bool,
    pub front_release_m_s: Option<f64>,
    pub exit_speed_m_s: Option<f64>,
    /// One standard deviation of it by the spread of thrust, mass, drag and friction, m/s.
    pub exit_speed_sd_m_s: Option<f64>,
    /// Exit speed less the floor, m/s.
    pub over_floor_m_s: Option<f64>,
    pub lean_wind_rad: Option<f64>,
    pub lean_gust_rad: Option<f64>,
    pub tip_gust_m: Option<f64>,
    pub frequency_hz: Option<f64>,
    pub play_rad: Option<f64>,
    /// The greatest load over what the guide bears.
    pub load_share: Option<f64>,
    pub ceiling: Option<Ceiling>,
    /// How heavy the rocket may become on it, where that is asked.
    pub heaviest: Option<Heaviest>,
    /// What the rules say of it, the gravest first.
    pub found: Vec<Limit>,
    /// Whether to fly from it, with these guides.
    pub verdict: Verdict,
    /// The worst rule that speaks against it.
    pub reason_rule: Option<&'static str>,
    /// Why, in a few words.
    pub reason: String,
    /// What would mend it, in the rule's own words; empty where nothing speaks against it.
    pub remedy: String,
    /// How likely it meets its floors.
    pub likely: Option<Likelihood>,
    /// What is needed for a verdict and isn't known.
    pub not_checked: Vec<String>,
    /// What else wasn't made.
    pub not_made: Vec<String>,
    /// What was taken as a default.
    pub defaults: Vec<String>,
}

impl Candidate {
    /// Whether the file as it stands may fly from it.
    pub fn may_fly(&self) -> bool {
        self.fits && !self.is_usual && self.verdict == Verdict::MeetsTheChecks
    }

    /// What holds the rocket on it, in words.
    pub fn held_by(&self) -> String {
        match self.guides.as_slice() {
            [] => "no guides, held by its body".to_string(),
            guides => guides.join(" and "),
        }
    }

    /// Whether it is worth a look: nothing rules it out, and nothing needed is unknown.
    pub fn may_pass(&self) -> bool {
        self.verdict.may_pass()
    }
}

/// A candidate with what it was judged by.
pub(crate) struct Trial {
    pub candidate: Candidate,
    pub supposed: Supposed,
    /// Whether it is well over the floor and well below the lean that is told, and nothing about the pad is found.
    pub has_room_to_spare: bool,
}

/// Shares of the floor and of the lean's limit that hardware to be bought should keep: a tenth over the one, half of
/// the other (common practice, no source).
const OVER_FLOOR: f64 = 1.1;
const OF_LEAN: f64 = 0.5;

/// A pad with the guides that the rocket has for it, each set that a flight uses; else with guides as they would be
/// placed.
pub(crate) fn trials(asked: &Asked, pad: &Pad) -> Vec<Trial> {
    if !asked.analysis.wanted.still() {
        return Vec::new();
    }
    // A tower holds the rocket by its body.
    if pad.has_tower() {
        let named = called(asked.bare.design.clone(), &asked.analysis.design, pad);
        let held = asked.bare.again(from_pad(named, pad.clone(), &[]));
        return trial(asked, held, pad, (Vec::new(), true)).into_iter().collect();
    }
    let sets = guide_sets(asked, pad);
    if sets.is_empty() {
        return with_supposed_guides(asked, pad).into_iter().collect();
    }
    let design = &asked.analysis.design;
    let of_set = |set: Vec<PartId>| {
        let names = set.iter().filter_map(|id| Some(design.parts.get(*id)?.label())).collect();
        let named = called(asked.bare.design.clone(), design, pad);
        trial(asked, asked.bare.again(from_pad(named, pad.clone(), &set)), pad, (names, true))
    };
    sets.into_iter().filter_map(of_set).collect()
}

fn with_supposed_guides(asked: &Asked, pad: &Pad) -> Option<Trial> {
    let hardware: &[Hardware] =
        if pad.has_rod() { &[Hardware::TwoLugs, Hardware::OneLug] } else { &[Hardware::TwoButtons] };
    let found = hardware.iter().filter_map(|hardware| {
        let placed = place_on(
            &called(asked.bare.design.clone(), &asked.bare.design, pad),
            &asked.analysis.settings,
            pad,
            *hardware,
        )?;
        let names = placed.guides.iter().map(|g| format!("{} at {}", g.what, show::station(g.station))).collect();
        trial(asked, placed.supposed, pad, (names, false))
    });
    found.min_by(|one, other| by_rank(&one.candidate, &other.candidate))
}

fn trial(asked: &Asked, supposed: Supposed, pad: &Pad, (guides, fits): (Vec<String>, bool)) -> Option<Trial> {
    let numbers = supposed.numbers()?;
    let run = numbers.run.as_ref();
    let (front, last) = (run.and_then(|r| r.front()), run.and_then(|r| r.last()));
    let lean = numbers.stiffness.as_ref().map(|s| (s.at_rest.in_wind(), s.at_rest.in_gust(), s.loaded_frequency));
    let load_share = numbers.loads.as_ref().and_then(|loads| {
        loads.guides.iter().filter_map(|g| Some(g.most() / g.capacity.filter(|c| *c > 0.0)?)).reduce(f64::max)
    });
    let judged = asked.analysis.judge_supposed(&supposed.design, &supposed.assessment, asked.like);
    let (findings, judgement) = (judged.findings, judged.judgement);
    let grave: Vec<&Finding> = findings.iter().filter(|f| f.level <= Level::Warning).collect();
    let settings = &asked.analysis.settings;
    let floors = floors(settings, &supposed.design, &supposed.assessment);
    let likely = supposed.assessment.likelihood(&supposed.design, 0, &floors);
    let floor = settings.limit(&EXIT_SPEED);
    let leans_little = lean.is_some_and(|(wind, ..)| wind.slope.abs() <= OF_LEAN * settings.limit(&TIP_SLOPE));
    let is_fast = last.is_some_and(|last| last.speed >= OVER_FLOOR * floor);
    let clean = judgement.verdict.may_pass() && grave.iter().all(|f| is_of_the_rocket(f));
    let candidate = Candidate {
        pad: pad.name.value.clone(),
        rail: rail_in_words(&supposed.design, pad, show::length),
        is_rail: !pad.has_rod(),
        guides,
        fits,
        is_usual: false,
        front_release_m_s: front.map(|f| f.speed),
        exit_speed_m_s: last.map(|l| l.speed),
        exit_speed_sd_m_s: likely.map(|likely| likely.exit_speed_sd),
        over_floor_m_s: last.map(|l| l.speed - floor),
        lean_wind_rad: lean.map(|l| l.0.slope),
        lean_gust_rad: lean.map(|l| l.1.slope),
        tip_gust_m: lean.map(|l| l.1.tip),
        frequency_hz: lean.map(|l| l.2),
        play_rad: numbers.loads.as_ref().and_then(|loads| loads.slop),
        load_share,
        ceiling: None,
        heaviest: None,
        found: grave.iter().map(|f| Limit::of(f)).collect(),
        reason: reason(&judgement, last.map(|last| last.speed - floor)),
        reason_rule: judgement.reason.as_ref().map(|reason| reason.rule),
        remedy: judgement.reason.as_ref().map_or(String::new(), |reason| reason.help.clone()),
        likely,
        not_checked: judgement.unknown.iter().map(|needed| needed_in_words(*needed).to_string()).collect(),
        verdict: judgement.verdict,
        not_made: judgement.not_made,
        defaults: finwright_assess::defaults::defaults(&supposed.design, &supposed.assessment.airframe, numbers, None),
    };
    Some(Trial { candidate, has_room_to_spare: clean && is_fast && leans_little, supposed })
}

/// The lower the better: the verdict, a rail before a rod (common practice, no source), the wind that it bears, the
/// speed.
fn rank(candidate: &Candidate) -> (std::cmp::Reverse<Verdict>, bool, bool, f64, f64) {
    let wind = candidate.ceiling.as_ref().map_or(0.0, |c| if c.in_still_air.is_empty() { c.wind } else { 0.0 });
    let over = candidate.over_floor_m_s.unwrap_or(f64::NEG_INFINITY);
    (std::cmp::Reverse(candidate.verdict), !candidate.fits, !candidate.is_rail, -wind, -over)
}

pub(crate) fn by_rank(one: &Candidate, other: &Candidate) -> Ordering {
    rank(one).partial_cmp(&rank(other)).unwrap_or(Ordering::Equal)
}

/// Why a pad has its verdict, in a few words.
fn reason(judgement: &Judgement, over_floor: Option<f64>) -> String {
    match (&judgement.reason, over_floor) {
        (Some(reason), _) if reason.allowed.is_some() => reason.in_words(),
        (Some(reason), _) => reason.message.clone(),
        (None, Some(over)) => format!("{} over the floor", show::speed(over)),
        (None, None) => joined(&judgement.unknown.iter().map(|n| needed_in_words(*n)).collect::<Vec<_>>(), "and"),
    }
}

/// The only flight by the name of the one that the file flies from this pad, else by the pad's own: what is found
/// speaks of it by name.
fn called(mut one: Design, design: &Design, pad: &Pad) -> Design {
    let same =
        |flight: &&finwright_model::Flight| design.pad_of(flight).is_some_and(|p| p.name.value == pad.name.value);
    let name = design.flights.iter().find(same).map_or(pad.name.value.clone(), |flight| flight.name.value.clone());
    if let Some(flight) = one.flights.first_mut() {
        flight.name.value = name;
    }
    one
}

/// The sets of guides that the rocket has for a pad: those that a flight runs on it, else what fits it.
fn guide_sets(asked: &Asked, pad: &Pad) -> Vec<Vec<PartId>> {
    let (design, one, settings) = (&asked.analysis.design, &asked.bare.design, &asked.analysis.settings);
    let mut sets: Vec<Vec<PartId>> = Vec::new();
    for flight in &design.flights {
        let same = design
            .pad_of(flight)
            .is_some_and(|own| own.name.place == pad.name.place && own.name.value == pad.name.value);
        let set: Vec<PartId> = flight.guided_by.iter().map(|g| g.value).collect();
        if same && !set.is_empty() && !sets.contains(&set) {
            sets.push(set);
        }
    }
    if !sets.is_empty() {
        return sets;
    }
    let play = settings.limit(&LUG_PLAY);
    let fitting: Vec<PartId> = design
        .parts
        .iter()
        .enumerate()
        .filter(|(_, part)| runs_on(design, part, pad, play))
        .map(|(id, _)| id)
        .collect();
    // Other flights' sets of guides that fit are tried before a guess.
    for flight in &design.flights {
        let set: Vec<PartId> = flight.guided_by.iter().map(|g| g.value).collect();
        if !set.is_empty() && set.iter().all(|id| fitting.contains(id)) && !sets.contains(&set) {
            sets.push(set);
        }
    }
    if sets.is_empty() && !fitting.is_empty() {
        sets.extend(outermost(one, &fitting));
    }
    sets
}

/// Of guides that fit, the frontmost and the rearmost; a lone one by itself.
fn outermost(one: &Design, fitting: &[PartId]) -> Option<Vec<PartId>> {
    let assessment = finwright_assess::assess(one);
    let station = |id: &PartId| assessment.airframe.extents.get(*id).copied().flatten().map(|e| e.middle());
    let mut placed: Vec<(PartId, f64)> = fitting.iter().filter_map(|id| Some((*id, station(id)?))).collect();
    placed.sort_by(|a, b| a.1.total_cmp(&b.1));
    match placed.as_slice() {
        [] => None,
        [only] => Some(vec![only.0]),
        [first, .., last] => Some(vec![last.0, first.0]),
    }
}

/// What stands on a pad, in words.
pub(crate) fn rail_in_words(design: &Design, pad: &Pad, length: fn(f64) -> String) -> String {
    let length = pad.rail_length().map_or("?".to_string(), |l| length(l.si));
    match &pad.rail {
        Some(Rail::Rod { diameter, .. }) => {
            let thick = diameter.as_ref().map_or("?".to_string(), |d| show::length(d.si));
            format!("{thick} rod of {length}")
        }
        Some(Rail::Slotted { slot, .. }) => {
            let section = slot.as_ref().and_then(|s| design.sections.get(s.value));
            let width = section.and_then(|s| s.width.as_ref()).map_or("?".to_string(), |w| show::length(w.si));
            format!("{width} rail of {length}")
        }
        Some(Rail::Tower { bore, .. }) => {
            let bore = bore.as_ref().map_or("?".to_string(), |bore| show::length(bore.si));
            format!("{bore} tower of {length}")
        }
        None => "nothing".to_string(),
    }
}
