//! Every pad at hand for one rocket and motor, side by side and ranked.

use crate::ceiling::{ceiling_of, Ceiling, Limit};
use crate::heaviest::{heaviest, Heaviest};
use crate::lengths::{cut_to, lengths, Lengths};
use crate::placement::{place_on, Hardware};
use crate::supposed::{at_site, from_pad, in_wind, only, with_motor, Supposed};
use crate::usual::usual_pads;
use finwright_assess::fit::runs_on;
use finwright_assess::Likelihood;
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::common::limits::LUG_PLAY;
use finwright_checks::common::limits::TIP_SLOPE;
use finwright_checks::lacking::{basis_in_words, joined, needed_in_words};
use finwright_checks::rule::Concern;
use finwright_checks::{rule, Analysis, Finding, Judgement, Level, Verdict};
use finwright_grammar::FileId;
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
    /// Whether that is still air for want of a site.
    pub in_still_air: bool,
    /// The least exit speed, m/s.
    pub floor_m_s: f64,
    /// Whether mass and balance are those of the bench.
    pub as_weighed: bool,
    /// The same in words, with which of the two was measured.
    pub basis: String,
    /// What the rules say of the rocket itself, whatever it flies from, the gravest first.
    pub of_the_rocket: Vec<Limit>,
    /// Whether the pads are the usual rods and rails, for want of any in the file.
    pub from_ladder: bool,
    /// The pads, the best first.
    pub candidates: Vec<Candidate>,
    /// Where none of them will do: the smallest usual rod and the smallest usual rail that would.
    pub of_the_usual: Vec<Candidate>,
    /// How long a rod or rail of each usual size must be, where that is asked.
    pub lengths: Option<Lengths>,
}

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

    /// Whether it is worth a look: nothing rules it out, and nothing needed is unknown.
    pub fn may_pass(&self) -> bool {
        self.verdict.may_pass()
    }
}

/// What to compare.
#[derive(Clone, Copy, Debug, Default)]
pub struct Wish<'a> {
    /// The steady winds, m/s, in which the shortest rods and rails are looked for; none where that isn't asked.
    pub winds: &'a [f64],
    /// Another wind than the site's, m/s.
    pub wind: Option<f64>,
    /// With which motors.
    pub motors: Motors<'a>,
    /// Another site than the flights' own, by its number in the design.
    pub site: Option<usize>,
    /// Only pads of this file, where there is more than one.
    pub pads_of: Option<FileId>,
    /// The usual rods and rails cut to this length, m, instead of those in which they are sold.
    pub length: Option<f64>,
    /// How heavy the rocket may become, too.
    pub weights: bool,
    /// The usual rods and rails too, where the file has pads.
    pub ladder: bool,
}

/// The motors to compare pads for, by their numbers in the design.
#[derive(Clone, Copy, Debug, Default)]
pub enum Motors<'a> {
    /// Those of the flights.
    #[default]
    Flown,
    /// These, in the flights as they are else.
    These(&'a [usize]),
}

/// One comparison for every pair of motor and site that the design flies, or for the motors that are wished for.
pub fn compare(analysis: &Analysis, wish: &Wish) -> Vec<Comparison> {
    let design = &analysis.design;
    let mut done = Vec::new();
    let mut found = Vec::new();
    for (number, flight) in design.flights.iter().enumerate() {
        let motors = match wish.motors {
            Motors::Flown => vec![flight.motor.as_ref().map(|m| m.value)],
            Motors::These(motors) => motors.iter().copied().map(Some).collect(),
        };
        let site = wish.site.or(flight.site.as_ref().map(|s| s.value));
        for motor in motors {
            let key = (motor, flight.booster_motor.as_ref().map(|m| m.value), site);
            if done.contains(&key) {
                continue;
            }
            done.push(key);
            found.extend(only(design, number).and_then(|one| {
                let one = motor.map_or(one.clone(), |motor| with_motor(one, motor));
                let one = wish.site.map_or(one.clone(), |site| at_site(one, site));
                let one = wish.wind.map_or(one.clone(), |wind| in_wind(one, wind));
                comparison(&Asked { analysis, like: number, bare: &Supposed::new(one) }, wish)
            }));
        }
    }
    found
}

/// The comparison for one flight, with its motor at its site.
pub fn compare_flight(analysis: &Analysis, flight: usize) -> Option<Comparison> {
    let one = only(&analysis.design, flight)?;
    comparison(&Asked { analysis, like: flight, bare: &Supposed::new(one) }, &Wish::default())
}

/// What is compared: a flight of a file, by itself.
pub(crate) struct Asked<'a> {
    pub analysis: &'a Analysis,
    /// The flight's number in the file.
    pub like: usize,
    /// Nothing but that flight, its motor and wind as asked.
    pub bare: &'a Supposed,
}

fn comparison(asked: &Asked, wish: &Wish) -> Option<Comparison> {
    let (design, bare) = (&asked.analysis.design, asked.bare);
    let one = &bare.design;
    let flight = one.flights.first()?;
    let numbers = bare.numbers()?;
    let air = numbers.air?;
    numbers.loaded()?;
    let is_wished = |pad: &&Pad| wish.pads_of.is_none_or(|file| pad.header.file == file);
    let is_known = |pad: &&Pad| pad.rail.is_some() && pad.broken.is_empty();
    let own: Vec<Pad> = design.pads.iter().filter(is_wished).filter(is_known).cloned().collect();
    let from_ladder = own.is_empty();
    let mut trials: Vec<Trial> = own.iter().flat_map(|pad| trials(asked, pad)).collect();
    let none_at_hand = !trials.iter().any(|trial| trial.candidate.may_pass());
    let mut of_the_usual = Vec::new();
    if from_ladder || wish.ladder {
        trials.extend(usual_trials(asked, own.first(), wish.length));
    } else if none_at_hand {
        // They come in order of size, so that the first of each kind that has room to spare is the smallest.
        let usual = usual_trials(asked, own.first(), wish.length).into_iter().filter(|trial| trial.has_room_to_spare);
        let (rails, rods): (Vec<Trial>, Vec<Trial>) = usual.partition(|trial| trial.candidate.is_rail);
        of_the_usual.extend(rods.into_iter().take(1).chain(rails.into_iter().take(1)));
    }
    for trial in trials.iter_mut().chain(&mut of_the_usual) {
        trial.candidate.ceiling = ceiling_of(asked.analysis, &trial.supposed);
        trial.candidate.heaviest = wish.weights.then(|| heaviest(asked, &trial.supposed)).flatten();
    }
    if from_ladder {
        // What one buys is the smallest that has room to spare.
        trials.sort_by_key(|trial| (!trial.has_room_to_spare, std::cmp::Reverse(trial.candidate.verdict)));
    } else {
        trials.sort_by(|one, other| by_rank(&one.candidate, &other.candidate));
    }
    let only_candidates = |trials: Vec<Trial>| trials.into_iter().map(|trial| trial.candidate).collect();
    let judged = asked.analysis.judge_supposed(&bare.design, &bare.assessment, asked.like);
    // What the flight itself doesn't say is asked here.
    let is_asked = |f: &Finding| [flight.header, flight.name.place].contains(&f.place);
    let of_the_file = judged.of_the_file.iter().filter(|f| !is_asked(f));
    let of_the_rocket = of_the_file.chain(&judged.findings);
    let name_of = |named: &Option<Named<usize>>| Some(one.motors.get(named.as_ref()?.value)?.name.value.clone());
    let motor = name_of(&flight.motor)?;
    let motor = name_of(&flight.booster_motor).map_or(motor.clone(), |booster| format!("{booster} and then {motor}"));
    Some(Comparison {
        flight: flight.name.value.clone(),
        motor,
        wind_m_s: air.as_read(air.wind),
        gust_m_s: air.as_read(air.gust),
        in_still_air: flight.site.is_none(),
        floor_m_s: asked.analysis.settings.limit(&EXIT_SPEED),
        as_weighed: numbers.basis().is_weighed(),
        basis: basis_in_words(numbers.basis()),
        of_the_rocket: of_the_rocket.filter(|f| is_of_the_rocket(f)).map(Limit::of).collect(),
        from_ladder,
        candidates: only_candidates(trials),
        of_the_usual: only_candidates(of_the_usual),
        lengths: (!wish.winds.is_empty()).then(|| lengths(asked, own.first(), wish.winds)),
    })
}

/// A candidate with what it was judged by.
pub(crate) struct Trial {
    pub candidate: Candidate,
    pub supposed: Supposed,
    /// Whether it is well over the floor and well below the lean that is told, and nothing about the pad is found.
    has_room_to_spare: bool,
}

/// Shares of the floor and of the lean's limit that hardware to be bought should keep: a tenth over the one, half of
/// the other (common practice, no source).
const OVER_FLOOR: f64 = 1.1;
const OF_LEAN: f64 = 0.5;

/// Of each usual size the shortest that has room to spare, else the best of its lengths.
fn usual_trials(asked: &Asked, like: Option<&Pad>, length: Option<f64>) -> Vec<Trial> {
    let best_of = |lengths: Vec<Pad>| {
        let mut best: Option<Trial> = None;
        for pad in &lengths {
            for trial in trials(asked, pad) {
                let is_enough = trial.has_room_to_spare;
                let is_better =
                    best.as_ref().is_none_or(|b| is_enough || trial.candidate.verdict > b.candidate.verdict);
                if is_better {
                    let rail = rail_in_words(&trial.supposed.design, pad, show::sold_length);
                    best = Some(Trial { candidate: Candidate { is_usual: true, rail, ..trial.candidate }, ..trial });
                }
                if is_enough {
                    return best;
                }
            }
        }
        best
    };
    let cut = |mut pads: Vec<Pad>| match length {
        Some(length) => pads.drain(..).take(1).map(|pad| cut_to(pad, length)).collect(),
        None => pads,
    };
    usual_pads(&asked.bare.design, like).into_iter().map(cut).filter_map(best_of).collect()
}

/// The lower the better: the verdict, a rail before a rod (common practice, no source), the wind that it bears, the
/// speed.
fn rank(candidate: &Candidate) -> (std::cmp::Reverse<Verdict>, bool, bool, f64, f64) {
    let wind = candidate.ceiling.as_ref().map_or(0.0, |c| if c.in_still_air.is_empty() { c.wind } else { 0.0 });
    let over = candidate.over_floor_m_s.unwrap_or(f64::NEG_INFINITY);
    (std::cmp::Reverse(candidate.verdict), !candidate.fits, !candidate.is_rail, -wind, -over)
}

fn by_rank(one: &Candidate, other: &Candidate) -> Ordering {
    rank(one).partial_cmp(&rank(other)).unwrap_or(Ordering::Equal)
}

/// A pad with the guides that the rocket has for it, each set that a flight uses; else with guides as they would be
/// placed.
pub(crate) fn trials(asked: &Asked, pad: &Pad) -> Vec<Trial> {
    if !asked.analysis.wanted.still() {
        return Vec::new();
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
        exit_speed_sd_m_s: judgement.likely.map(|likely| likely.exit_speed_sd),
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
        likely: judgement.likely,
        not_checked: judgement.unknown.iter().map(|needed| needed_in_words(*needed).to_string()).collect(),
        verdict: judgement.verdict,
        not_made: judgement.not_made,
        defaults: finwright_assess::defaults::defaults(&supposed.design, &supposed.assessment.airframe, numbers, None),
    };
    Some(Trial { candidate, has_room_to_spare: clean && is_fast && leans_little, supposed })
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

/// Whether a finding is about the rocket itself, the same from every pad.
pub(crate) fn is_of_the_rocket(finding: &Finding) -> bool {
    finding.level <= Level::Warning && rule(finding.rule).is_some_and(|rule| rule.concerns != Concern::Pad)
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
fn rail_in_words(design: &Design, pad: &Pad, length: fn(f64) -> String) -> String {
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
        None => "nothing".to_string(),
    }
}
