//! What the chosen code limits, held against each flight.

use crate::finding::Finding;
use crate::rule::{Context, Rule};
use finwright_assess::field_rules::{
    limits, Facts, Jurisdiction, Limit, Limited, Standing, CHECK_YOUR_CODE, JURISDICTIONS,
};
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
        Limited::MotorImpulse => "total impulse of a motor",
        Limited::MotorThrust => "average thrust of a motor",
        Limited::MotorPropellant => "propellant of a motor",
        Limited::Metal => "densest of nose, body and fins",
        Limited::Tilt => "tilt of the pad",
        Limited::Wind => "wind",
        Limited::ThrustToWeight => "average thrust over the weight",
        Limited::People => "distance of people",
        Limited::UninvolvedPeople => "distance of uninvolved people",
        Limited::Field => "field's smallest dimension",
    }
}

/// A flight with a limit of the chosen code that it doesn't meet.
pub(crate) struct Against<'a> {
    pub flight: &'a Flight,
    pub numbers: &'a FlightNumbers,
    pub site: Option<&'a Site>,
    pub code: Jurisdiction,
    pub limit: Limit,
}

impl Against<'_> {
    /// A finding about it, at the place that sets the value, else at the flight.
    pub(crate) fn told(&self, rule: &'static Rule, place: Option<Place>) -> Finding {
        let limit = &self.limit;
        let value = if limit.is_most { limit.value.least } else { limit.value.most };
        let (beyond, side) = if limit.is_most { ("more", "at most") } else { ("less", "at least") };
        let message = format!(
            "the {} is {}, {beyond} than the {} of {}",
            limited_in_words(limit.what),
            in_words(limit, value),
            in_words(limit, limit.asked),
            short_name_of(self.code)
        );
        let help =
            format!("{side} {}{} ({}); {CHECK_YOUR_CODE}", in_words(limit, limit.asked), besides(limit), limit.source);
        let name = self.flight.name.place;
        let place = place.unwrap_or(name);
        let finding = rule.finding(place, message).help(help).of_flight(self.numbers);
        let finding = match limit.is_most {
            true => finding.beyond(value / limit.asked),
            false => finding.beyond(limit.asked / value),
        };
        if place == name {
            finding
        } else {
            finding.label(name, "in this flight")
        }
    }
}

/// What belongs behind a limit's number: that there may be more, or what the number stands for.
pub fn besides(limit: &Limit) -> &'static str {
    match limit.what {
        Limited::Metal => ", denser is taken for metal",
        _ if limit.is_most || limit.limit.most.is_finite() => "",
        _ => ", and more where the rocket flies higher or holds more than is known",
    }
}

/// A value of what a code limits, in words.
pub fn in_words(limit: &Limit, value: f64) -> String {
    match limit.what {
        Limited::Wind => show::speed_for_reader(value),
        Limited::Impulse | Limited::MotorImpulse => format!("{} N s", show::number(value)),
        what => show::quantity(value, what.dimension()),
    }
}

/// A code's title.
pub fn name_of(code: Jurisdiction) -> &'static str {
    JURISDICTIONS.iter().find(|(_, known, _)| *known == code).map_or("the code", |(_, _, text)| text)
}

/// What a code is called in a first line, which is short.
pub(crate) fn short_name_of(code: Jurisdiction) -> &'static str {
    match code {
        Jurisdiction::UsClass1 | Jurisdiction::UsClass2 => "14 CFR 101",
        Jurisdiction::UsModel => "NFPA 1122",
        Jurisdiction::UsHighPower => "NFPA 1127",
        Jurisdiction::CaliforniaExperimental => "19 CCR 1036",
    }
}

pub(crate) fn site_of<'a>(cx: &Context<'a>, flight: &Flight) -> Option<&'a Site> {
    cx.design.sites.get(flight.site.as_ref()?.value)
}

/// What is known about a flight.
fn facts(cx: &Context, numbers: &FlightNumbers) -> Facts {
    Facts::of(cx.design, numbers, path(cx.design, &cx.assessment.airframe, numbers).ok())
}

/// Every limit against which flights stand like this; flights that stand alike say the same.
pub(crate) fn each<'a>(cx: &Context<'a>, standing: Standing, mut visit: impl FnMut(Against<'a>)) {
    let Some(code) = cx.settings.code else { return };
    let mut told: Vec<(Limit, Option<usize>)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let site = flight.site.as_ref().map(|site| site.value);
        for limit in limits(code, &facts(cx, numbers)).into_iter().filter(|limit| limit.standing() == standing) {
            let key = (limit.clone(), site.filter(|_| standing == Standing::NotKnown));
            if told.contains(&key) {
                continue;
            }
            told.push(key);
            visit(Against { flight, numbers, site: site_of(cx, flight), code, limit });
        }
    }
}
