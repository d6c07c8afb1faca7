//! What the chosen code limits, held against each flight.

use crate::finding::Finding;
use crate::rule::{Context, Rule};
use crate::rules::file::not_made::NotMade;
use finwright_assess::field_rules::{limits, Facts, Jurisdiction, Limit, Limited, CHECK_YOUR_CODE, JURISDICTIONS};
use finwright_assess::{path, FlightNumbers};
use finwright_grammar::Place;
use finwright_model::{Flight, Site};
use finwright_units::show;

/// What an example needs of the field to be checked by a code.
pub(crate) const ROOM: &[(&str, &str)] =
    &[("site meadow { elevation: 20 m;", "site meadow { across: 300 m; people: 12 m; elevation: 20 m;")];

/// What a code limits, in words.
pub fn limited_in_words(what: Limited) -> &'static str {
    match what {
        Limited::Mass => "mass on the pad",
        Limited::Propellant => "propellant",
        Limited::Impulse => "total impulse",
        Limited::Tilt => "tilt of the pad",
        Limited::Wind => "wind",
        Limited::ThrustToWeight => "average thrust over the weight",
        Limited::People => "distance of people from the pad",
        Limited::UninvolvedPeople => "distance of uninvolved people from the pad",
        Limited::Field => "field's smallest dimension",
    }
}

/// A finding about a limit, at the place that sets the value, else at the flight.
pub(crate) fn told(
    rule: &'static Rule,
    flight: &Flight,
    place: Option<Place>,
    limit: &Limit,
    code: Jurisdiction,
) -> Finding {
    let value = limit.value.map_or(String::new(), |value| in_words(limit, value));
    let (beyond, side) = if limit.is_most { ("more", "at most") } else { ("less", "at least") };
    let place = place.unwrap_or(flight.name.place);
    let finding = rule
        .finding(
            place,
            format!(
                "the {} is {value}, {beyond} than the {} of {}",
                limited_in_words(limit.what),
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

/// A value of what a code limits, in words.
pub fn in_words(limit: &Limit, value: f64) -> String {
    match limit.what {
        Limited::Wind => show::speed_for_reader(value),
        what => show::quantity(value, what.dimension()),
    }
}

/// A code's title.
pub fn name_of(code: Jurisdiction) -> &'static str {
    JURISDICTIONS.iter().find(|(_, known, _)| *known == code).map_or("the code", |(_, _, text)| text)
}

pub(crate) fn site_of<'a>(cx: &Context<'a>, flight: &Flight) -> Option<&'a Site> {
    cx.design.sites.get(flight.site.as_ref()?.value)
}

/// What is known about a flight.
fn facts(cx: &Context, numbers: &FlightNumbers) -> Facts {
    Facts::of(cx.design, numbers, path(cx.design, cx.assessment, numbers).ok())
}

/// The field that says what a limit is held against, where a site says it.
pub fn needed(limit: &Limit) -> Option<&'static str> {
    match limit.what {
        Limited::Field => Some("`across` in its site"),
        what if what.is_of_people() => Some("`people` in its site"),
        _ => None,
    }
}

/// Every limit that a flight exceeds; flights that exceed it by the same value say the same.
pub(crate) fn each_exceeded(cx: &Context, mut visit: impl FnMut(&Flight, Option<&Site>, &Limit, Jurisdiction)) {
    let Some(code) = cx.settings.code else { return };
    let mut told: Vec<Limit> = Vec::new();
    for (flight, numbers) in cx.flights() {
        for limit in limits(code, &facts(cx, numbers)).iter().filter(|limit| limit.is_exceeded()) {
            if told.contains(limit) {
                continue;
            }
            told.push(limit.clone());
            visit(flight, site_of(cx, flight), limit, code);
        }
    }
}

/// Where a code is chosen, what it limits and the site doesn't say isn't compared: told once a site.
pub(crate) fn not_held<'a>(cx: &Context<'a>) -> Vec<NotMade<'a>> {
    let mut made: Vec<NotMade> = Vec::new();
    let Some(code) = cx.settings.code else { return made };
    let mut told: Vec<(Limited, Option<usize>)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        for limit in limits(code, &facts(cx, numbers)).iter().filter(|limit| limit.value.is_none()) {
            let key = (limit.what, flight.site.as_ref().map(|site| site.value));
            let needs = match limit.what {
                Limited::Field => "`across` in its site",
                what if what.is_of_people() => "`people` in its site",
                _ => continue,
            };
            if told.contains(&key) {
                continue;
            }
            told.push(key);
            made.push(NotMade {
                what: format!("the {} held against {}", limited_in_words(limit.what), name_of(code)),
                needs: format!("it needs {needs}; at least {} is asked for", in_words(limit, limit.limit)),
                place: flight.name.place,
                numbers,
            });
        }
    }
    made
}
