//! The pad: `pad/tilted-far`, `pad/low-stop`, `pad/end-at-eye-level`.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::threshold::Threshold;
use finwright_assess::flight::rail_length;
use finwright_model::Pad;
use finwright_units::{show, Dimension};
use std::f64::consts::PI;

/// Far from upright.
pub static TILTED_FAR: Rule = Rule {
    name: "pad/tilted-far",
    level: Level::Warning,
    summary: "a rod or rail far from upright",
    why: "A rocket that starts slanted comes down far away, and fast if anything goes wrong.",
    prose: "A few degrees into the wind or away from people are usual. Codes allow 20 degrees from the vertical for high power (19 CCR 1036) and 30 for models (NFPA 1122, reprint); aiming at anything is never allowed.",
    thresholds: &[&TILT],
    example: Example::new("material: steel }; stop: 50 mm; tilt: 2 deg", "material: steel }; stop: 50 mm; tilt: 25 deg"),
    check: Some(tilted_far),
};

/// Little room for the flame.
pub static LOW_STOP: Rule = Rule {
    name: "pad/low-stop",
    level: Level::Note,
    summary: "little room between the rocket and the foot of the rod or rail",
    why: "The flame needs room to spread over the deflector; too close it burns the rocket's own tail, or the igniter's clips hold it.",
    prose: "The rocket rests on a stop some way above the foot: a clothes peg, a clamp, a piece of tube. A few centimetres leave room for the flame, the igniter's wires and the deflector (common practice, no source). Every centimetre of stop is one less of guided travel.",
    thresholds: &[&STOP],
    example: Example::new("material: steel }; stop: 50 mm", "material: steel }; stop: 5 mm"),
    check: Some(low_stop),
};

/// An end where eyes are.
pub static END_AT_EYE_LEVEL: Rule = Rule {
    name: "pad/end-at-eye-level",
    level: Level::Note,
    summary: "a rod whose end stands at eye level without a cap",
    why: "Somebody who bends over the pad can run the end of a bare rod into an eye.",
    prose: "The end of a rod stands above eye level or has a cap on it that comes off for the launch (NFPA 1122, reprint). The height counts from the ground: the foot's height, and the rod's length upright. Where `foot` isn't said nothing is found; cap every rod.",
    thresholds: &[&EYE_LEVEL_FROM, &EYE_LEVEL_TO],
    example: Example::new("foot: 400 mm; end: capped", "foot: 400 mm").after(&[(
        "material: steel }; stop: 50 mm",
        "material: steel }; foot: 400 mm; end: capped; stop: 50 mm",
    )]),
    check: Some(end_at_eye_level),
};

/// The greatest tilt.
pub static TILT: Threshold =
    Threshold::new("tilt", Dimension::ANGLE, 20.0 * PI / 180.0, "how far the rod or rail may lean from the vertical")
        .beginners(15.0 * PI / 180.0);
/// The least stop.
pub static STOP: Threshold =
    Threshold::new("stop", Dimension::LENGTH, 20e-3, "the least height of the stop above the foot of the rod or rail");
/// Where eyes are: a sitting child's and a tall standing adult's.
pub static EYE_LEVEL_FROM: Threshold =
    Threshold::new("eye_level_from", Dimension::LENGTH, 0.9, "the lowest height above the ground at which eyes are");
/// See [`EYE_LEVEL_FROM`].
pub static EYE_LEVEL_TO: Threshold =
    Threshold::new("eye_level_to", Dimension::LENGTH, 1.9, "the greatest height above the ground at which eyes are");

fn tilted_far(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&TILT);
    for pad in used(cx) {
        let Some(tilt) = pad.tilt.as_ref().filter(|tilt| tilt.si > most + 1e-9) else { continue };
        let text = format!("{} deg", show::trimmed(most.to_degrees(), 1));
        out.push(
            TILTED_FAR
                .finding(tilt.place, format!("{} leans {} from the vertical", pad.name.value, show::angle(tilt.si)))
                .help(format!("{} or less; your code may ask for less", show::angle(most)))
                .fix(format!("lean it {text}"), tilt.place, text),
        );
    }
}

fn low_stop(cx: &Context, out: &mut Vec<Finding>) {
    let least = cx.limit(&STOP);
    for pad in used(cx) {
        let Some(stop) = pad.stop.as_ref().filter(|stop| stop.si < least) else { continue };
        let text = format!("{} mm", (least * 1e3).ceil());
        out.push(
            LOW_STOP
                .finding(
                    stop.place,
                    format!("on {} the rocket rests {} above the foot", pad.name.value, show::length(stop.si)),
                )
                .help(format!("{text} or more leave room for flame, wires and deflector"))
                .fix(format!("rest it on a stop of {text}"), stop.place, text),
        );
    }
}

fn end_at_eye_level(cx: &Context, out: &mut Vec<Finding>) {
    for pad in used(cx).filter(|pad| pad.has_rod()) {
        let (Some(foot), Some(length)) = (&pad.foot, rail_length(pad)) else { continue };
        let height = foot.si + length.si * pad.tilt.as_ref().map_or(0.0, |t| t.si).cos();
        let capped = pad.end.as_ref().is_some_and(|end| end.word == "capped");
        let eyes = cx.limit(&EYE_LEVEL_FROM)..=cx.limit(&EYE_LEVEL_TO);
        if capped || !eyes.contains(&height) {
            continue;
        }
        let place = pad.end.as_ref().map_or(length.place, |end| end.place);
        let finding = END_AT_EYE_LEVEL
            .finding(
                place,
                format!("the end of {}'s rod stands {} above the ground", pad.name.value, show::length(height)),
            )
            .help("cap it until everyone stands back, and say so: `end: capped`; or raise its foot")
            .label(foot.place, "the foot");
        out.push(match &pad.end {
            Some(end) => finding.fix("cap it", end.place, "capped"),
            None => {
                let end = finwright_grammar::Span::new(foot.place.span.end as usize, foot.place.span.end as usize);
                let behind = finwright_grammar::Place { span: end, ..foot.place };
                finding.fix("cap it", behind, "; end: capped")
            }
        });
    }
}

/// The pads that flights use, each once.
fn used<'a>(cx: &Context<'a>) -> impl Iterator<Item = &'a Pad> {
    let mut numbers: Vec<usize> = cx.design.flights.iter().filter_map(|f| Some(f.pad.as_ref()?.value)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let design = cx.design;
    numbers.into_iter().filter_map(move |number| design.pads.get(number))
}
