//! `pad/end-at-eye-level`: a rod whose end stands at eye level without a cap.

use super::used::used;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::flight::rail_length;
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

fn end_at_eye_level(cx: &Context, out: &mut Vec<Finding>) {
    for (pad, numbers) in used(cx).into_iter().filter(|(pad, _)| pad.has_rod()) {
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
            .label(foot.place, "the foot")
            .of_flight(numbers);
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
