//! Every pad at hand for one rocket and motor, side by side and ranked.

use crate::ceiling::{ceiling_of, Ceiling, Limit};
use crate::placement::{place_on, Hardware};
use crate::supposed::{amount, from_pad, in_wind, only, pad as new_pad, with_motor, Supposed};
use finwright_assess::fit::runs_on;
use finwright_assess::flight::rail_length;
use finwright_assess::stiffness::RODS;
use finwright_checks::rules::guide::slow_exit::EXIT_SPEED;
use finwright_checks::rules::guide::wrong_hardware::LUG_PLAY;
use finwright_checks::{Finding, Level, Settings};
use finwright_model::{Design, Named, Pad, PartId, Rail};
use finwright_units::show;
use serde::Serialize;
use std::cmp::Ordering;

/// The pads compared for one motor at one site, the best first.
#[derive(Clone, Debug, Serialize)]
pub struct Comparison {
    /// The flight that motor and site are taken from.
    pub flight: String,
    /// The motor; of two stages the booster's first.
    pub motor: String,
    /// Steady wind and gusts, m/s.
    pub wind_m_s: f64,
    /// See [`Comparison::wind_m_s`].
    pub gust_m_s: f64,
    /// The least exit speed, m/s.
    pub floor_m_s: f64,
    /// What the rules say of the rocket itself, whatever it flies from, the gravest first.
    pub of_the_rocket: Vec<Limit>,
    /// Whether the pads are the usual rods and rails, for want of any in the file.
    pub from_ladder: bool,
    /// The pads, the best first.
    pub candidates: Vec<Candidate>,
    /// Where none of them will do: the thinnest usual rod and the smallest usual rail that would.
    pub of_the_usual: Vec<Candidate>,
}

/// One pad with the guides that would run on it. SI units, angles in rad.
#[derive(Clone, Debug, Serialize)]
#[allow(missing_docs)] // The names say it; `report` in the assessment explains the numbers.
pub struct Candidate {
    pub pad: String,
    /// What stands on it: "4 mm rod, 1.2 m".
    pub rail: String,
    /// Whether it's a rail.
    pub is_rail: bool,
    /// The guides that run on it: the rocket's own by name, or what it would need.
    pub guides: Vec<String>,
    /// Whether the rocket has these guides.
    pub fits: bool,
    pub front_release_m_s: Option<f64>,
    pub exit_speed_m_s: Option<f64>,
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
    /// What the rules say of it, the gravest first.
    pub found: Vec<Limit>,
    pub verdict: Verdict,
    /// Why, in a few words.
    pub reason: String,
    /// What would mend the gravest that is found, in the rule's own words; empty where nothing is found.
    pub remedy: String,
    /// What wasn't checked, and what it needs.
    pub not_checked: Vec<String>,
    /// What was taken as a default.
    pub defaults: Vec<String>,
}

impl Candidate {
    /// Whether the rocket may fly from it, with other guides where it needs them.
    pub fn would_do(&self) -> bool {
        self.verdict <= Verdict::NeedsGuides
    }
}

/// Whether to fly from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// It meets the checks.
    Meets,
    /// It would, with other guides on the rocket.
    NeedsGuides,
    /// Something is to be looked at.
    Look,
    /// Something rules it out.
    No,
}

impl Verdict {
    /// The verdict in a word or two.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Meets => "meets the checks",
            Verdict::NeedsGuides => "needs guides",
            Verdict::Look => "look at it",
            Verdict::No => "no",
        }
    }
}

/// What to compare.
#[derive(Clone, Copy, Debug, Default)]
pub struct Wish<'a> {
    /// Another wind than the site's, m/s.
    pub wind: Option<f64>,
    /// Only flights of this motor, or the first flight with it in.
    pub motor: Option<&'a str>,
    /// The usual rods and rails too, where the file has pads.
    pub ladder: bool,
}

/// One comparison for every pair of motor and site that the design flies, or for the motor that is wished for.
pub fn compare(design: &Design, settings: &Settings, wish: &Wish) -> Vec<Comparison> {
    let mut done = Vec::new();
    let mut found = Vec::new();
    let wished = wish.motor.and_then(|name| design.motors.iter().position(|m| m.name.value == name));
    for (number, flight) in design.flights.iter().enumerate() {
        let motor = wished.or(flight.motor.as_ref().map(|m| m.value));
        let key = (motor, flight.booster_motor.as_ref().map(|m| m.value), flight.site.as_ref().map(|s| s.value));
        if done.contains(&key) {
            continue;
        }
        done.push(key);
        found.extend(only(design, number).and_then(|one| {
            let one = motor.map_or(one.clone(), |motor| with_motor(one, motor));
            let one = wish.wind.map_or(one.clone(), |wind| in_wind(one, wind));
            comparison(design, &one, settings, wish.ladder)
        }));
    }
    found
}

/// The comparison for one flight, with its motor at its site.
pub fn compare_flight(design: &Design, settings: &Settings, flight: usize) -> Option<Comparison> {
    comparison(design, &only(design, flight)?, settings, false)
}

fn comparison(design: &Design, one: &Design, settings: &Settings, ladder: bool) -> Option<Comparison> {
    let flight = one.flights.first()?;
    let bare = Supposed::new(one.clone());
    let numbers = bare.numbers()?;
    let air = numbers.air?;
    numbers.loaded?;
    let own: Vec<Pad> = design.pads.iter().filter(|pad| pad.rail.is_some() && pad.broken.is_empty()).cloned().collect();
    let from_ladder = own.is_empty();
    let mut pads = own;
    if from_ladder || ladder {
        pads.extend(usual_pads(one, pads.first()));
    }
    let own_faults: Vec<Limit> = bare.faults(settings).into_iter().map(limit).collect();
    let known: Vec<&str> = own_faults.iter().map(|fault| fault.rule).collect();
    let judge = Judge { settings, known: &known };
    let of =
        |pads: &[Pad]| -> Vec<Candidate> { pads.iter().flat_map(|pad| candidates(design, one, &judge, pad)).collect() };
    let mut candidates = of(&pads);
    candidates.sort_by(by_rank);
    let mut of_the_usual = Vec::new();
    if !from_ladder && !ladder && !candidates.iter().any(Candidate::would_do) {
        // They come in order of size, so that the first of each kind is the smallest.
        let mut usual = of(&usual_pads(one, pads.first()));
        usual.retain(Candidate::would_do);
        let (rails, rods): (Vec<Candidate>, Vec<Candidate>) = usual.into_iter().partition(|c| c.is_rail);
        of_the_usual.extend(rods.into_iter().take(1).chain(rails.into_iter().take(1)));
    }
    let name_of = |named: &Option<Named<usize>>| Some(one.motors.get(named.as_ref()?.value)?.name.value.clone());
    let motor = name_of(&flight.motor)?;
    let motor = name_of(&flight.booster_motor).map_or(motor.clone(), |booster| format!("{booster} and then {motor}"));
    Some(Comparison {
        flight: flight.name.value.clone(),
        motor,
        wind_m_s: air.wind,
        gust_m_s: air.gust,
        floor_m_s: settings.limit(&EXIT_SPEED),
        of_the_rocket: own_faults.into_iter().filter(|fault| !is_about_guiding(fault.rule)).collect(),
        from_ladder,
        candidates,
        of_the_usual,
    })
}

/// The lower the better: the verdict, a rail before a rod (common practice, no source), the wind that it bears, the speed.
fn rank(candidate: &Candidate) -> (Verdict, bool, f64, f64) {
    let wind = candidate.ceiling.as_ref().map_or(0.0, |c| if c.in_still_air.is_empty() { c.wind } else { 0.0 });
    (candidate.verdict, !candidate.is_rail, -wind, -candidate.over_floor_m_s.unwrap_or(f64::NEG_INFINITY))
}

fn by_rank(one: &Candidate, other: &Candidate) -> Ordering {
    rank(one).partial_cmp(&rank(other)).unwrap_or(Ordering::Equal)
}

/// A pad with the guides that the rocket has for it, each set that a flight uses; else with guides as they would be placed.
fn candidates(design: &Design, one: &Design, judge: &Judge, pad: &Pad) -> Vec<Candidate> {
    let sets = guide_sets(design, one, judge.settings, pad);
    if sets.is_empty() {
        return supposed_guides(one, judge, pad).into_iter().collect();
    }
    sets.into_iter()
        .filter_map(|set| {
            let names = set.iter().filter_map(|id| Some(design.parts.get(*id)?.label())).collect();
            let named = called(one.clone(), design, pad);
            let supposed = Supposed::new(from_pad(named, pad.clone(), &set));
            candidate(supposed, judge, pad, names, true)
        })
        .collect()
}

fn supposed_guides(one: &Design, judge: &Judge, pad: &Pad) -> Option<Candidate> {
    let hardware: &[Hardware] =
        if pad.has_rod() { &[Hardware::TwoLugs, Hardware::OneLug] } else { &[Hardware::TwoButtons] };
    let found = hardware.iter().filter_map(|hardware| {
        let placed = place_on(&called(one.clone(), one, pad), judge.settings, pad, *hardware)?;
        let names = placed.guides.iter().map(|g| format!("{} at {}", g.what, show::station(g.station))).collect();
        candidate(placed.supposed, judge, pad, names, false)
    });
    found.min_by(by_rank)
}

fn candidate(supposed: Supposed, judge: &Judge, pad: &Pad, guides: Vec<String>, fits: bool) -> Option<Candidate> {
    let numbers = supposed.numbers()?;
    let run = numbers.run.as_ref();
    let (front, last) = (run.and_then(|r| r.front()), run.and_then(|r| r.last()));
    let lean = numbers.stiffness.as_ref().map(|s| (s.at_rest.in_wind(), s.at_rest.in_gust(), s.loaded_frequency));
    let load_share = numbers.loads.as_ref().and_then(|loads| {
        loads.guides.iter().filter_map(|g| Some(g.most() / g.capacity.filter(|c| *c > 0.0)?)).reduce(f64::max)
    });
    let settings = judge.settings;
    // What is wrong with the rocket itself rules out every pad; a warning about it is told apart.
    let counts = |f: &Finding| f.level == Level::Error || is_about_guiding(f.rule) || !judge.known.contains(&f.rule);
    let found: Vec<Finding> = supposed.faults(settings).into_iter().filter(counts).collect();
    let remedy = found.first().map_or(String::new(), |f| f.help.clone());
    let found: Vec<Limit> = found.into_iter().map(limit).collect();
    let verdict = match found.first().map(|f| f.level) {
        Some(Level::Error) => Verdict::No,
        _ if last.is_none() => Verdict::No,
        Some(_) => Verdict::Look,
        None if fits => Verdict::Meets,
        None => Verdict::NeedsGuides,
    };
    let floor = settings.limit(&EXIT_SPEED);
    let reason = match (found.first(), last) {
        (Some(first), _) => first.message.clone(),
        (None, None) => "its run can't be computed".to_string(),
        (None, Some(last)) => format!("{} over the floor", show::speed(last.speed - floor)),
    };
    Some(Candidate {
        pad: pad.name.value.clone(),
        rail: rail_in_words(&supposed.design, pad),
        is_rail: !pad.has_rod(),
        guides,
        fits,
        front_release_m_s: front.map(|f| f.speed),
        exit_speed_m_s: last.map(|l| l.speed),
        over_floor_m_s: last.map(|l| l.speed - floor),
        lean_wind_rad: lean.map(|l| l.0.slope),
        lean_gust_rad: lean.map(|l| l.1.slope),
        tip_gust_m: lean.map(|l| l.1.tip),
        frequency_hz: lean.map(|l| l.2),
        play_rad: numbers.loads.as_ref().and_then(|loads| loads.slop),
        load_share,
        ceiling: ceiling_of(&supposed.design, settings),
        found,
        verdict,
        reason,
        remedy,
        not_checked: numbers.unknown.iter().map(|u| format!("{}: needs {}", u.what, u.needs)).collect(),
        defaults: finwright_assess::defaults::defaults(&supposed.design, &supposed.assessment, numbers, None),
    })
}

/// The only flight by the name of the one that the file flies from this pad, else by the pad's own: what is found speaks of
/// it by name.
fn called(mut one: Design, design: &Design, pad: &Pad) -> Design {
    let same =
        |flight: &&finwright_model::Flight| design.pad_of(flight).is_some_and(|p| p.name.value == pad.name.value);
    let name = design.flights.iter().find(same).map_or(pad.name.value.clone(), |flight| flight.name.value.clone());
    if let Some(flight) = one.flights.first_mut() {
        flight.name.value = name;
    }
    one
}

fn limit(finding: Finding) -> Limit {
    Limit { rule: finding.rule, level: finding.level, message: finding.message }
}

/// By what candidates are judged.
struct Judge<'a> {
    settings: &'a Settings,
    /// The rules that find something in the flight as it stands in the file.
    known: &'a [&'a str],
}

/// Whether a rule's finding may differ from pad to pad; the others are the rocket's own.
fn is_about_guiding(rule: &str) -> bool {
    ["guide/", "pad/", "wind/", "stability/low-margin-at-release", "field/over-limit"]
        .iter()
        .any(|f| rule.starts_with(f))
        || matches!(rule, "motor/too-weak" | "motor/low-push")
}

/// The sets of guides that the rocket has for a pad: those that a flight runs on it, else what fits it.
fn guide_sets(design: &Design, one: &Design, settings: &Settings, pad: &Pad) -> Vec<Vec<PartId>> {
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
    let station = |id: &PartId| assessment.extents.get(*id).copied().flatten().map(|e| e.middle());
    let mut placed: Vec<(PartId, f64)> = fitting.iter().filter_map(|id| Some((*id, station(id)?))).collect();
    placed.sort_by(|a, b| a.1.total_cmp(&b.1));
    match placed.as_slice() {
        [] => None,
        [only] => Some(vec![only.0]),
        [first, .., last] => Some(vec![last.0, first.0]),
    }
}

/// What stands on a pad, in words.
fn rail_in_words(design: &Design, pad: &Pad) -> String {
    let length = rail_length(pad).map_or("?".to_string(), |l| show::length(l.si));
    match &pad.rail {
        Some(Rail::Rod { diameter, .. }) => {
            let thick = diameter.as_ref().map_or("?".to_string(), |d| show::length(d.si));
            format!("{thick} rod, {length}")
        }
        Some(Rail::Slotted { slot, .. }) => {
            let section = slot.as_ref().and_then(|s| design.sections.get(s.value));
            let width = section.and_then(|s| s.width.as_ref()).map_or("?".to_string(), |w| show::length(w.si));
            format!("{width} rail, {length}")
        }
        None => "nothing".to_string(),
    }
}

/// Usual lengths of the usual rods and of the catalogue's rails, m (common practice, no source): 3 ft for the thinnest rod,
/// 4 ft for those of 3/16 and 1/4 in.
const ROD_LENGTHS: [f64; 7] = [0.9, 1.0, 1.2, 1.2, 1.5, 1.8, 1.8];
const RAIL_LENGTHS: [(&str, f64); 4] = [("slim", 1.2), ("mini", 1.5), ("standard", 2.4), ("large", 3.0)];
/// Stop of a pad that isn't given, m.
const STOP: f64 = 50e-3;

/// The usual rods and rails, leaning and stopping as a given pad does.
fn usual_pads(design: &Design, like: Option<&Pad>) -> Vec<Pad> {
    let Some(here) = design.flights.first().map(|flight| flight.header) else { return Vec::new() };
    let stop = like.and_then(|pad| pad.stop.as_ref()).map_or(STOP, |s| s.si);
    let tilt = like.and_then(|pad| pad.tilt.as_ref()).map_or(0.0, |t| t.si);
    let rods = RODS.iter().zip(ROD_LENGTHS).map(|(rod, length)| {
        let rail = Rail::Rod {
            diameter: Some(amount(*rod, here)),
            length: Some(amount(length, here)),
            material: None,
            header: here,
        };
        (format!("usual {}", show::length(*rod)), rail)
    });
    let rails = RAIL_LENGTHS.iter().filter_map(|(name, length)| {
        // The catalogue's sections stand behind the file's own.
        let slot = design.sections.iter().rposition(|s| s.name.value == *name)?;
        let rail = Rail::Slotted {
            slot: Some(Named { value: slot, place: here }),
            length: Some(amount(*length, here)),
            header: here,
        };
        Some((format!("usual {name}"), rail))
    });
    rods.chain(rails).map(|(name, rail)| new_pad(name, rail, stop, tilt, here)).collect()
}
