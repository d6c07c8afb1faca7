//! `pad/end-at-eye-level`: a rod whose end stands at eye level without a cap.

use crate::common::used::used;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_grammar::{Place, Span};
use finwright_model::Pad;
use finwright_units::{show, Dimension};

/// Where eyes are: a sitting child's and a tall standing adult's.
pub static EYE_LEVEL_FROM: Threshold =
    Threshold::new("eye_level_from", Dimension::LENGTH, 0.9, "the lowest height above the ground at which eyes are");

/// See [`EYE_LEVEL_FROM`].
pub static EYE_LEVEL_TO: Threshold =
    Threshold::new("eye_level_to", Dimension::LENGTH, 1.9, "the greatest height above the ground at which eyes are");

/// An end where eyes are.
pub static END_AT_EYE_LEVEL: Rule = Rule {
    name: "pad/end-at-eye-level",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a rod whose end stands at eye level, or may, without a cap",
    why: "Somebody who bends over the pad can run the end of a bare rod into an eye.",
    prose: include_str!("end_at_eye_level.md"),
    thresholds: &[&EYE_LEVEL_FROM, &EYE_LEVEL_TO],
    example: Example::new("foot: 400 mm; end: capped", "foot: 400 mm").after(&[(
        "material: steel }; stop: 50 mm; tilt: 2 deg; end: capped",
        "material: steel }; foot: 400 mm; end: capped; stop: 50 mm; tilt: 2 deg",
    )]),
    check: Some(end_at_eye_level),
};

fn end_at_eye_level(cx: &Context, out: &mut Vec<Finding>) {
    let (from, to) = (cx.limit(&EYE_LEVEL_FROM), cx.limit(&EYE_LEVEL_TO));
    for (pad, numbers) in used(cx).into_iter().filter(|(pad, _)| pad.has_rod()) {
        let Some(length) = pad.rail_length() else { continue };
        let capped = pad.end.as_ref().is_some_and(|end| end.word == "capped");
        let upright = length.si * pad.tilt_or_upright().si.cos();
        let height = pad.foot.as_ref().map(|foot| foot.si + upright);
        // Wherever its foot is, an end that is above all eyes on its own is above them.
        let is_clear = height.map_or(upright > to, |height| height < from || height > to);
        if capped || is_clear || is_garbled(pad) {
            continue;
        }
        let name = &pad.name.value;
        let message = match height {
            Some(height) => format!("the end of {name}'s rod stands {} above the ground", show::length(height)),
            None => format!("the end of {name}'s rod may stand at eye level: its foot's height isn't said"),
        };
        let help = match &pad.foot {
            Some(_) => "cap it until everyone stands back, and say so: `end: capped`; or raise its foot",
            None => {
                "cap it until everyone stands back, and say so: `end: capped`; or say how high its foot is: `foot: …`"
            }
        };
        let place = pad.end.as_ref().map_or(length.place, |end| end.place);
        let mut finding = END_AT_EYE_LEVEL.finding(place, message).help(help).of_flight(numbers);
        if let Some(foot) = &pad.foot {
            finding = finding.label(foot.place, "the foot");
        }
        out.push(match (&pad.end, &pad.foot) {
            (Some(end), _) => finding.fix("cap it", end.place, "capped"),
            (None, Some(foot)) => finding.fix("cap it", behind(foot.place), "; end: capped"),
            (None, None) => match pad.tilt.as_ref().or(pad.stop.as_ref()) {
                Some(said) => finding.fix("cap it", behind(said.place), "; end: capped"),
                None => finding,
            },
        });
    }
}

/// Whether the pad says what would decide it in words that can't be understood, which is told.
fn is_garbled(pad: &Pad) -> bool {
    pad.broken.iter().any(|field| matches!(*field, "end" | "foot" | "pad"))
}

/// Right behind a value.
fn behind(place: Place) -> Place {
    let end = place.span.end as usize;
    Place { span: Span::new(end, end), ..place }
}
