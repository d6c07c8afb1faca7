//! The floors that flights are judged by, how likely they are met, and the room above them that advice aims at.

use super::deferred::METHODS_DIFFER;
use super::limits::{EXIT_SPEED, MARGIN, RELEASE_ANGLE, THRUST_TO_WEIGHT};
use crate::rule::Context;
use crate::settings::Settings;
use finwright_assess::chances::Floors;
use finwright_assess::likelihood::Input;
use finwright_assess::{likelihood, Assessment, FlightNumbers, Likelihood};
use finwright_model::Design;

/// The floors that a design's flights are judged by.
pub fn floors(settings: &Settings, design: &Design, assessment: &Assessment) -> Floors {
    Floors {
        doubt: doubt_of(settings.is_off(METHODS_DIFFER), design, assessment),
        exit_speed: settings.limit(&EXIT_SPEED),
        margin: settings.limit(&MARGIN),
        push: settings.limit(&THRUST_TO_WEIGHT),
        angle: settings.limit(&RELEASE_ANGLE),
    }
}

/// How likely a flight meets its floors; `None` where that can't be told.
pub(crate) fn likely(cx: &Context, numbers: &FlightNumbers) -> Option<Likelihood> {
    cx.lacks.likely(numbers.flight, || {
        let spreads = cx.assessment.spreads(cx.design).get(numbers.flight).copied().flatten()?;
        likelihood(numbers, &spreads, &floors(cx.settings, cx.design, cx.assessment))
    })
}

/// Standard deviations over a floor that advice aims at: what is advised should do in nearly all flights, not in every
/// other.
pub(crate) const ROOM: f64 = 2.0;

/// A floor of the exit speed with room above it for what a flight's inputs are off, m/s.
pub(crate) fn speed_with_room(cx: &Context, numbers: &FlightNumbers, floor: f64) -> f64 {
    let speed = numbers.run.as_ref().and_then(|run| run.last()).map(|last| last.speed);
    match likely(cx, numbers).zip(speed) {
        // The spread is a share of the speed, and the floor is another speed than this one.
        Some((likely, speed)) => floor * (1.0 + ROOM * likely.exit_speed_sd / speed),
        None => floor,
    }
}

/// A floor of the margin with room above it, also by a second method, calibres.
pub(crate) fn margin_with_room(cx: &Context, numbers: &FlightNumbers, floor: f64) -> f64 {
    floor + doubt(cx) + likely(cx, numbers).map_or(0.0, |likely| ROOM * likely.margin_sd)
}

/// A floor of the thrust to weight with room above it.
pub(crate) fn push_with_room(cx: &Context, numbers: &FlightNumbers, floor: f64) -> f64 {
    let push = numbers.run.as_ref().and_then(|run| run.push);
    match likely(cx, numbers).zip(push) {
        Some((likely, push)) => floor * (1.0 + ROOM * likely.push_sd / push),
        None => floor,
    }
}

/// An input in words.
pub fn input_in_words(input: Input) -> &'static str {
    match input {
        Input::Thrust => "the motor's thrust",
        Input::Mass => "the rocket's mass",
        Input::Balance => "the balance point",
        Input::Drag => "the drag",
        Input::Friction => "the guides' friction",
    }
}

/// What the second method takes off every margin of a design, in calibres; nothing where the rule is off.
pub fn doubt(cx: &Context) -> f64 {
    doubt_of(cx.settings.is_off(METHODS_DIFFER), cx.design, cx.assessment)
}

/// The same without a context.
pub(crate) fn doubt_of(is_off: bool, design: &Design, assessment: &Assessment) -> f64 {
    if is_off {
        return 0.0;
    }
    assessment.second(design).map_or(0.0, |second| second.doubt())
}
