//! `field/limit-not-checked`: a limit of the chosen code that a flight can't be held against.

use crate::common::code::{besides, each, in_words, limited_in_words, short_name_of, Against, ROOM};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::field_rules::{density, structural, Limited, Standing, CHECK_YOUR_CODE};
use finwright_assess::needed::open;

/// A limit that can't be compared.
pub static LIMIT_NOT_CHECKED: Rule = Rule {
    name: "field/limit-not-checked",
    family: Family::Field,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a limit of the chosen code that a flight can't be held against",
    why: "What isn't known meets no limit: somebody would stand too near because nobody said where.",
    prose: include_str!("limit_not_checked.md"),
    thresholds: &[],
    example: Example::new("across: 300 m; people: 12 m", "across: 300 m").after(ROOM).settings("code = \"us-model\""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    each(cx, Standing::NotKnown, |against| {
        // Where the rocket itself isn't known, that is told, and the flight isn't checked.
        let lacks = says_the_site(against.limit.what) && against.limit.value.known().is_none();
        if lacks || open(cx.design, &cx.assessment.airframe, against.numbers).is_empty() {
            out.push(told(cx, &against));
        }
    });
}

fn told(cx: &Context, against: &Against) -> Finding {
    let limit = &against.limit;
    let message = format!("the {} isn't held against {}", limited_in_words(limit.what), short_name_of(against.code));
    let side = if limit.is_most { "at most" } else { "at least" };
    let asked =
        format!("{side} {}{} ({}); {CHECK_YOUR_CODE}", in_words(limit, limit.asked), besides(limit), limit.source);
    let needs = match limit.value.known() {
        Some(value) => format!("{} may not be enough", in_words(limit, value)),
        None => format!("say {}", needed(limit.what)),
    };
    let mut finding = LIMIT_NOT_CHECKED
        .finding(against.flight.name.place, message)
        .help(format!("{needs}: {asked}"))
        .of_flight(against.numbers);
    if limit.what == Limited::Metal {
        let bare = structural(cx.design).filter(|(_, part)| density(cx.design, part).is_none());
        for (_, part) in bare.take(3) {
            finding = finding.label(part.header, "what it's made of isn't said");
        }
    }
    match against.site {
        Some(site) if says_the_site(limit.what) => finding.label(site.name.place, "the site"),
        _ => finding,
    }
}

/// Whether a site says it.
fn says_the_site(what: Limited) -> bool {
    what.is_of_people() || matches!(what, Limited::Field | Limited::Wind)
}

/// What would say a value.
pub fn needed(what: Limited) -> &'static str {
    match what {
        Limited::Field => "`across` in its site",
        Limited::People | Limited::UninvolvedPeople => "`people` in its site",
        Limited::Wind => "`wind` in its site",
        Limited::Tilt => "`tilt` in its pad",
        Limited::Metal => "the `material` of nose, body and fins",
        Limited::Mass => "what the rocket weighs",
        Limited::ThrustToWeight => "the motor's `curve` and what the rocket weighs",
        Limited::Propellant | Limited::MotorPropellant => "the motor's `propellant`",
        Limited::Impulse | Limited::MotorImpulse | Limited::MotorThrust => "the motor's `curve`",
    }
}
