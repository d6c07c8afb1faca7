//! Every pad at hand for one rocket and motor, side by side and ranked.

use crate::asked::{is_of_the_rocket, Asked};
use crate::candidate::{by_rank, rail_in_words, trials, Candidate, Trial};
use crate::ceiling::{ceiling_of, Limit};
use crate::heaviest::heaviest;
use crate::lengths::{cut_to, lengths, Lengths};
use crate::supposed::{at_site, in_wind, only, with_motor, Supposed};
use crate::usual::usual_pads;
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::lacking::basis_in_words;
use finwright_checks::{Analysis, Finding};
use finwright_grammar::FileId;
use finwright_model::{Named, Pad};
use finwright_units::show;
use serde::Serialize;
use std::sync::Arc;

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

/// A comparison with the flight that comes of it.
pub struct Chosen {
    /// The pads compared.
    pub comparison: Comparison,
    /// The best of them that the rocket has guides for, else the best, by its number, and the flight from it as it
    /// would be; none where there is no pad.
    pub flight: Option<(usize, Supposed)>,
    /// The flight that motor and site are taken from, by its number in the design.
    pub like: usize,
}

/// One comparison for every pair of motor and site that the design flies, or for the motors that are wished for.
pub fn compare(analysis: &Analysis, wish: &Wish) -> Vec<Comparison> {
    choose(analysis, wish).into_iter().map(|chosen| chosen.comparison).collect()
}

/// The same, each with the flight from the pad that it would fly from today, when no guide can be changed any more.
pub fn choose(analysis: &Analysis, wish: &Wish) -> Vec<Chosen> {
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
    let chosen = comparison(&Asked { analysis, like: flight, bare: &Supposed::new(one) }, &Wish::default());
    chosen.map(|chosen| chosen.comparison)
}

fn comparison(asked: &Asked, wish: &Wish) -> Option<Chosen> {
    let (design, bare) = (&asked.analysis.design, asked.bare);
    let one = &bare.design;
    let flight = one.flights.first()?;
    let numbers = bare.numbers()?;
    let air = numbers.air?;
    numbers.loaded()?;
    let is_wished = |pad: &&Pad| wish.pads_of.is_none_or(|file| pad.header.file == file);
    let is_known = |pad: &&Pad| pad.rail.is_some() && pad.broken.is_empty();
    let own: Vec<Pad> = design.pads.iter().map(Arc::as_ref).filter(is_wished).filter(is_known).cloned().collect();
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
    let judged = asked.analysis.judge_supposed(&bare.design, &bare.assessment, asked.like);
    // What the flight itself doesn't say is asked here.
    let is_asked = |f: &Finding| [flight.header, flight.name.place].contains(&f.place);
    let of_the_file = judged.of_the_file.iter().copied().filter(|f| !is_asked(f));
    let of_the_rocket = of_the_file.chain(&judged.findings);
    let name_of = |named: &Option<Named<usize>>| Some(one.motors.get(named.as_ref()?.value)?.name.value.clone());
    let motor = name_of(&flight.motor)?;
    let motor = name_of(&flight.booster_motor).map_or(motor.clone(), |booster| format!("{booster} and then {motor}"));
    let lengths = (!wish.winds.is_empty()).then(|| lengths(asked, own.first(), wish.winds));
    let best = trials.iter().position(|trial| trial.candidate.fits).unwrap_or(0);
    let (mut candidates, mut flown) = (Vec::new(), None);
    for (number, trial) in trials.into_iter().enumerate() {
        candidates.push(trial.candidate);
        flown = if number == best { Some((number, trial.supposed)) } else { flown };
    }
    let comparison = Comparison {
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
        candidates,
        of_the_usual: of_the_usual.into_iter().map(|trial| trial.candidate).collect(),
        lengths,
    };
    Some(Chosen { comparison, flight: flown, like: asked.like })
}

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
