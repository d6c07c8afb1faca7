//! The field: `field/over-limit`, `field/too-small`, `field/people-too-close`, `field/drifts-out`.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::rules::file::not_checked::NOT_CHECKED;
use finwright_assess::field_rules::{limits, Facts, Jurisdiction, Limit, CHECK_YOUR_CODE, JURISDICTIONS};
use finwright_assess::{path, FlightNumbers};
use finwright_grammar::Place;
use finwright_model::{Flight, Site};
use finwright_units::{show, Dimension};

/// Beyond what a code allows.
pub static OVER_LIMIT: Rule = Rule {
    name: "field/over-limit",
    level: Level::Error,
    summary: "a flight beyond what the chosen code allows",
    why: "The code holds for the field, and the range safety officer won't let it fly.",
    prose: "Which code holds depends on where you are; choose one by `code` in finwright.toml. Limits are kept here as data with the source that was read; codes change, so check your local code.",
    thresholds: &[],
    example: Example::new("material: steel }; stop: 50 mm; tilt: 2 deg", "material: steel }; stop: 50 mm; tilt: 32 deg")
        .after(ROOM)
        .settings("code = \"us-model\""),
    check: Some(over_limit),
};

/// Too small a field.
pub static TOO_SMALL: Rule = Rule {
    name: "field/too-small",
    level: Level::Error,
    summary: "a field smaller than the chosen code asks for",
    why: "On a small field the rocket comes down among roads, houses and people.",
    prose: "Codes ask for a field by the motor's total impulse, or by the height that is expected; what counts is its smallest dimension.",
    thresholds: &[],
    example: Example::new("across: 300 m", "across: 50 m").after(ROOM).settings("code = \"us-model\""),
    check: Some(too_small),
};

/// People too near.
pub static PEOPLE_TOO_CLOSE: Rule = Rule {
    name: "field/people-too-close",
    level: Level::Error,
    summary: "people nearer to the pad than the chosen code asks for",
    why: "A motor that bursts or a rocket that turns reaches people who stand too near before they can move.",
    prose: "Codes ask for a distance by the motor's total impulse, and a greater one for clusters and stages. Stand back as far as the code says, and further for a first flight.",
    thresholds: &[],
    example: Example::new("people: 12 m", "people: 3 m").after(ROOM).settings("code = \"us-model\""),
    check: Some(people_too_close),
};

/// Beyond the field's edge.
pub static DRIFTS_OUT: Rule = Rule {
    name: "field/drifts-out",
    level: Level::Warning,
    summary: "a flight that drifts off the field",
    why: "What lands outside the field lands on roads, roofs and other people's land.",
    prose: "Under its parachute a rocket drifts as far as the wind blows in that time. From the middle of the field there is half its smallest dimension. A smaller parachute, a streamer, less height or less wind bring it nearer; so does a pad near the upwind edge.",
    thresholds: &[],
    example: Example::new("across: 300 m", "across: 120 m").after(ROOM),
    check: Some(drifts_out),
};

const ROOM: &[(&str, &str)] =
    &[("site meadow { elevation: 20 m;", "site meadow { across: 300 m; people: 12 m; elevation: 20 m;")];

/// What [`Limit::what`] is about.
const FIELD: &str = "the field's smallest dimension";

fn over_limit(cx: &Context, out: &mut Vec<Finding>) {
    each_exceeded(cx, |flight, site, limit, code| {
        if limit.what == FIELD || limit.what.starts_with("distance") {
            return;
        }
        let tilt = cx.design.pad_of(flight).and_then(|pad| pad.tilt.as_ref());
        let place = match limit.what {
            "tilt of the pad" => tilt.map(|tilt| tilt.place),
            "wind" => site.and_then(|site| site.wind.as_ref()).map(|wind| wind.place),
            _ => flight.motor.as_ref().map(|motor| motor.place),
        };
        out.push(told(&OVER_LIMIT, flight, place, limit, code));
    });
}

fn too_small(cx: &Context, out: &mut Vec<Finding>) {
    each_exceeded(cx, |flight, site, limit, code| {
        let across = site.and_then(|site| site.across.as_ref());
        if limit.what == FIELD {
            out.push(told(&TOO_SMALL, flight, across.map(|a| a.place), limit, code));
        }
    });
    not_known(cx, out);
}

fn people_too_close(cx: &Context, out: &mut Vec<Finding>) {
    each_exceeded(cx, |flight, site, limit, code| {
        let people = site.and_then(|site| site.people.as_ref());
        if limit.what.starts_with("distance") {
            let finding = told(&PEOPLE_TOO_CLOSE, flight, people.map(|p| p.place), limit, code);
            let least = format!("{} m", (limit.limit * 10.0 - 1e-6).ceil() / 10.0);
            out.push(finding.fix_amount(format!("stand back {least}"), people, least));
        }
    });
}

fn drifts_out(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(across) = site_of(cx, flight).and_then(|site| site.across.as_ref()) else { continue };
        let Some(drift) = path(cx.design, cx.assessment, numbers).ok().and_then(|flown| flown.drift()) else {
            continue;
        };
        let key = (flight.motor.as_ref().map(|m| m.value), across.place);
        if drift.abs() <= across.si / 2.0 || told.contains(&key) {
            continue;
        }
        told.push(key);
        out.push(
            DRIFTS_OUT
                .finding(
                    flight.name.place,
                    format!(
                        "{} drifts {}, and from the middle of the field there are {}",
                        flight.name.value,
                        show::length(drift.abs()),
                        show::length(across.si / 2.0)
                    ),
                )
                .help("less wind, a smaller parachute or a streamer, a smaller motor, or a pad near the upwind edge")
                .label(across.place, "the field"),
        );
    }
}

fn told(rule: &Rule, flight: &Flight, place: Option<Place>, limit: &Limit, code: Jurisdiction) -> Finding {
    let value = limit.value.map_or(String::new(), |value| in_words(limit, value));
    let (beyond, side) = if limit.is_most { ("more", "at most") } else { ("less", "at least") };
    let place = place.unwrap_or(flight.name.place);
    let finding = rule
        .finding(
            place,
            format!(
                "the {} is {value}, {beyond} than the {} of {}",
                limit.what.trim_start_matches("the "),
                in_words(limit, limit.limit),
                name_of(code)
            ),
        )
        .help(format!("{side} {} ({}); {CHECK_YOUR_CODE}", in_words(limit, limit.limit), limit.source));
    if place == flight.name.place {
        finding
    } else {
        finding.label(flight.name.place, "in this flight")
    }
}

fn in_words(limit: &Limit, value: f64) -> String {
    let dimension = match limit.unit {
        "kg" => Dimension::MASS,
        "N.s" => Dimension::IMPULSE,
        "rad" => Dimension::ANGLE,
        "m/s" => return show::speed_for_reader(value),
        "m" => Dimension::LENGTH,
        _ => Dimension::NUMBER,
    };
    show::quantity(value, dimension)
}

fn name_of(code: Jurisdiction) -> &'static str {
    JURISDICTIONS.iter().find(|(_, known, _)| *known == code).map_or("the code", |(_, _, text)| text)
}

fn site_of<'a>(cx: &Context<'a>, flight: &Flight) -> Option<&'a Site> {
    cx.design.sites.get(flight.site.as_ref()?.value)
}

/// What is known about a flight, with what its site says of the field.
fn facts(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Facts {
    let site = site_of(cx, flight);
    let flown = path(cx.design, cx.assessment, numbers).ok();
    Facts {
        field: site.and_then(|site| site.across.as_ref()).map(|across| across.si),
        standoff: site.and_then(|site| site.people.as_ref()).map(|people| people.si),
        ..Facts::of(cx.design, numbers, flown)
    }
}

/// Every limit that a flight exceeds; flights that exceed it by the same value say the same.
fn each_exceeded(cx: &Context, mut visit: impl FnMut(&Flight, Option<&Site>, &Limit, Jurisdiction)) {
    let Some(code) = cx.settings.code else { return };
    let mut told: Vec<Limit> = Vec::new();
    for (flight, numbers) in cx.flights() {
        for limit in limits(code, &facts(cx, flight, numbers)).iter().filter(|limit| limit.is_exceeded()) {
            if told.contains(limit) {
                continue;
            }
            told.push(limit.clone());
            visit(flight, site_of(cx, flight), limit, code);
        }
    }
}

/// Where a code is chosen, what it limits and the file doesn't say isn't checked, and that is said.
fn not_known(cx: &Context, out: &mut Vec<Finding>) {
    let Some(code) = cx.settings.code else { return };
    let mut told: Vec<(&str, Option<usize>)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        for limit in limits(code, &facts(cx, flight, numbers)).iter().filter(|limit| limit.value.is_none()) {
            let key = (limit.what, flight.site.as_ref().map(|site| site.value));
            let needs = match limit.what {
                FIELD => "`across` in its site",
                what if what.starts_with("distance") => "`people` in its site",
                _ => continue,
            };
            if told.contains(&key) {
                continue;
            }
            told.push(key);
            let mut finding = NOT_CHECKED
                .finding(flight.name.place, format!("not checked: {} by {}", limit.what, name_of(code)))
                .help(format!("it needs {needs}; at least {} is asked for", in_words(limit, limit.limit)));
            finding.level = Level::Note;
            out.push(finding);
        }
    }
}
