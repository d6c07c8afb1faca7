//! One rocket with one motor, from the best pad at hand.

use crate::guides::asked::Asked;
use finwright_advice::words::floor;
use finwright_advice::{choose, Candidate, Ceiling, Chosen, Wish};
use finwright_assess::field_rules::Limited;
use finwright_assess::{path, Needed};
use finwright_checks::common::code::{in_words, name_of};
use finwright_checks::lacking::needed_in_words;
use finwright_checks::{Analysis, Judgement, Reason, Verdict};
use finwright_draw::sheet::far;
use finwright_draw::subject::Subject;
use std::path::Path;

/// A line of the list. What isn't known is `None`; numbers are SI.
pub struct Line {
    /// What the rocket is called.
    pub rocket: String,
    /// Its file.
    pub file: String,
    /// The motor's code, else its name.
    pub motor: Option<String>,
    /// The letter of its class.
    pub class: Option<&'static str>,
    pub mass: Option<f64>,
    /// Whether that is what the scale says.
    pub is_weighed: bool,
    pub thrust_to_weight: Option<f64>,
    pub margin: Option<f64>,
    /// The pad that it flies from.
    pub pad: Option<String>,
    /// Whether it has guides for it.
    pub fits: bool,
    pub exit: Option<f64>,
    pub exit_sd: Option<f64>,
    /// Wind and gusts that it is judged in.
    pub wind: Option<(f64, f64)>,
    pub ceiling: Option<Ceiling>,
    pub delay: Option<f64>,
    /// Speed through the air and height at the first opening.
    pub opening: Option<(f64, f64)>,
    /// How far away people and the field's edge must be by the code, in words; none where that isn't known.
    pub distances: Option<String>,
    /// The code, where one is chosen.
    pub code: Option<&'static str>,
    pub not_checked: Vec<String>,
    pub allowed: Vec<&'static str>,
    pub verdict: Verdict,
    /// The worst that speaks against it.
    pub reason: Option<Reason>,
}

impl Line {
    /// Whether it may fly in the wind that is asked about, as far as the checks can tell.
    pub fn may_fly(&self) -> bool {
        self.fits && self.verdict.may_pass()
    }

    /// The steady wind in which nothing more is found than in still air, m/s; none where that isn't known, or where
    /// no wind is little enough.
    pub fn bears(&self) -> Option<f64> {
        let ceiling = self.ceiling.as_ref().filter(|ceiling| self.fits && ceiling.in_still_air.is_empty())?;
        Some(floor(ceiling.wind))
    }

    /// Whether a check that hangs on the wind speaks already in the wind that is asked about.
    pub fn is_past(&self) -> bool {
        let beyond = |(wind, _): (f64, f64)| self.bears().is_none_or(|bears| bears < floor(wind));
        self.may_fly() && self.ceiling.is_some() && self.wind.is_some_and(beyond)
    }

    /// The wind that one which may fly bears: above it, it has to stop.
    pub fn stops_at(&self) -> Option<f64> {
        self.bears().filter(|_| self.may_fly())
    }
}

/// The lines of a design: one for each motor and site that it flies.
pub fn lines(asked: &Asked) -> Vec<Line> {
    // How long or how heavy it may be isn't asked, and takes most of the time.
    let wish = Wish { winds: &[], weights: false, ..asked.wish() };
    let chosen = choose(asked.analysis(), &wish);
    let found: Vec<Line> = chosen.into_iter().map(|chosen| line(asked, chosen)).collect();
    match found.is_empty() {
        true => vec![not_compared(asked)],
        false => found,
    }
}

fn line(asked: &Asked, chosen: Chosen) -> Line {
    let Chosen { comparison, flight, like } = chosen;
    let best = flight.and_then(|(number, flown)| Some((flown, comparison.candidates.into_iter().nth(number)?)));
    let Some((flown, best)) = best else {
        return Line { motor: Some(comparison.motor), ..not_compared(asked) };
    };
    let supposed = asked.analysis().supposing(flown.design, flown.assessment, like);
    let subject = Subject::new(&supposed, 0);
    let numbers = subject.numbers;
    let airframe = &supposed.assessment.airframe;
    let flown = numbers.and_then(|numbers| path(subject.design(), airframe, numbers).ok());
    let descent = flown.and_then(|flown| flown.descent.as_ref());
    let opening = descent.and_then(|descent| descent.openings.first());
    let Candidate { pad, fits, exit_speed_m_s, exit_speed_sd_m_s, ceiling, .. } = best;
    Line {
        motor: subject.motor_words(),
        class: subject.class(),
        mass: numbers.and_then(|numbers| numbers.loaded()).map(|loaded| loaded.mass),
        is_weighed: numbers.is_some_and(|numbers| numbers.basis().mass),
        thrust_to_weight: numbers.and_then(|numbers| numbers.thrust_to_weight()),
        margin: numbers.and_then(|numbers| numbers.margin()),
        pad: Some(pad),
        fits,
        exit: exit_speed_m_s,
        exit_sd: exit_speed_sd_m_s,
        wind: Some((comparison.wind_m_s, comparison.gust_m_s)),
        ceiling,
        delay: descent.and_then(|descent| descent.delay),
        opening: opening.map(|opening| (opening.air_speed, opening.moment.height)),
        distances: distances(subject),
        ..judged(asked, &supposed)
    }
}

/// "people 30.5 m, field 457 m".
fn distances(subject: Subject) -> Option<String> {
    let far = far(subject)?;
    let whose = |what: Limited| match what {
        Limited::People => "people",
        Limited::UninvolvedPeople => "uninvolved people",
        _ => "field",
    };
    let said: Vec<String> =
        far.iter().map(|limit| format!("{} {}", whose(limit.what), in_words(limit, limit.asked))).collect();
    Some(if said.is_empty() { "none asked".to_string() } else { said.join(", ") })
}

/// What is said of a rocket whatever its numbers are.
fn judged(asked: &Asked, analysis: &Analysis) -> Line {
    let judgement = analysis.flights.first();
    let unknown = |judgement: &Judgement| match judgement.unknown.len() == Needed::ALL.len() {
        true => vec!["anything that a verdict needs".to_string()],
        false => judgement.unknown.iter().map(|n| needed_in_words(*n).to_string()).collect(),
    };
    Line {
        rocket: Subject::new(analysis, 0).title(),
        file: asked.shown.clone(),
        motor: None,
        class: None,
        mass: None,
        is_weighed: false,
        thrust_to_weight: None,
        margin: None,
        pad: None,
        fits: true,
        exit: None,
        exit_sd: None,
        wind: None,
        ceiling: None,
        delay: None,
        opening: None,
        distances: None,
        code: analysis.settings.code.map(name_of),
        not_checked: judgement.map_or(Vec::new(), unknown),
        allowed: judgement.map_or(Vec::new(), |judgement| judgement.allowed.clone()),
        verdict: analysis.verdict,
        reason: analysis.reason.clone(),
    }
}

/// A rocket for which no pad can be compared: what is known is its verdict as it stands.
fn not_compared(asked: &Asked) -> Line {
    let line = judged(asked, asked.analysis());
    // A rocket that nothing is known to fly from isn't better than one that couldn't be checked.
    Line { verdict: line.verdict.min(Verdict::NotChecked), ..line }
}

/// Rockets of one name in different files are told apart by their files' names.
pub fn tell_apart(lines: &mut [Line]) {
    let names: Vec<(String, String)> = lines.iter().map(|line| (line.rocket.clone(), line.file.clone())).collect();
    for line in lines {
        if names.iter().any(|(rocket, file)| *rocket == line.rocket && *file != line.file) {
            let stem = Path::new(&line.file).file_stem().map(|stem| stem.to_string_lossy().into_owned());
            line.rocket = format!("{} ({})", line.rocket, stem.unwrap_or_default());
        }
    }
}
