//! `fins/flutter`: fins that the flight's top speed may tear off.

use crate::common::flown::flown;
use crate::common::limits::FLUTTER_NOTE;
use crate::common::rounded::{mm, up, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_assess::field_rules::{Facts, MODEL_IMPULSE};
use finwright_assess::sold::sheet_at_least;
use finwright_assess::{FlightNumbers, Flutter};
use finwright_model::{Flight, Part, PartKind, Stage};
use finwright_physics::air::Air;
use finwright_units::{show, Dimension};

/// How close the top speed may come to the estimate; for high power four fifths of it, where a lost fin does most harm.
pub static FLUTTER_SHARE: Threshold = Threshold::new(
    "flutter_share",
    Dimension::NUMBER,
    1.0,
    "the greatest top speed, as a share of the estimated flutter speed",
)
.high_power(0.8);
/// From where on it's an error for high power. The form of the formula that is passed around counts the taper's half
/// twice and gives √2 times as much; beyond that no reading of it is left.
pub static FLUTTER_ERROR_SHARE: Threshold = Threshold::new(
    "flutter_error_share",
    Dimension::NUMBER,
    1.41,
    "top speed over the estimated flutter speed from which on it's an error, for motors above 160 N s",
)
.high_power(1.0);
/// However slow the rocket, at twice the estimate no reading of the formula is left ([`FLUTTER_ERROR_SHARE`]); a round
/// number of our own.
pub static FLUTTER_NOTE_SHARE: Threshold = Threshold::new(
    "flutter_note_share",
    Dimension::NUMBER,
    2.0,
    "top speed over the estimated flutter speed up to which slow fins that may flutter are only noted",
);

/// The rule.
pub static FLUTTER: Rule = Rule {
    name: "fins/flutter",
    family: Family::Fins,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "fins too thin for the flight's top speed",
    why: "Above that speed a fin swings and twists faster and faster until it breaks off, and the rocket tumbles.",
    prose: include_str!("flutter.md"),
    thresholds: &[&FLUTTER_SHARE, &FLUTTER_NOTE, &FLUTTER_NOTE_SHARE, &FLUTTER_ERROR_SHARE],
    example: Example::new("thickness: 1.6 mm; material: balsa", "thickness: 1.2 mm; material: balsa"),
    check: Some(check),
};

/// A set of fins in the flight that comes closest to its flutter speed or goes furthest beyond.
struct Worst<'a> {
    flight: &'a Flight,
    part: &'a Part,
    flutter: Flutter,
    top: f64,
    air: Air,
    /// Whether it flies on more impulse than a model's motor has, or on one that isn't known.
    is_high_power: bool,
    numbers: &'a FlightNumbers,
}

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut worst: Vec<Worst> = Vec::new();
    for (flight, numbers, path) in flown(cx) {
        let Some(air) = numbers.air else { continue };
        let is_high_power = Facts::of(cx.design, numbers, None).impulse.most > MODEL_IMPULSE;
        for flutter in &numbers.flutter {
            let Some(part) = cx.design.parts.get(flutter.part) else { continue };
            // A booster's fins are off before the upper stage is at its fastest.
            let top = match (part.stage, path.boost_speed) {
                (Stage::Booster, Some(boost)) => boost,
                _ => path.moments.fastest.speed,
            };
            let this =
                Worst { flight, part, flutter: *flutter, top, air: air.atmosphere.at(0.0), is_high_power, numbers };
            match worst.iter_mut().find(|w| w.flutter.part == flutter.part) {
                Some(other) if other.share() < this.share() => *other = this,
                Some(_) => {}
                None => worst.push(this),
            }
        }
    }
    let most = cx.limit(&FLUTTER_SHARE);
    for worst in worst.into_iter().filter(|w| w.share() > most) {
        out.push(told(cx, &worst, most));
    }
}

impl Worst<'_> {
    /// The top speed over the flutter speed.
    fn share(&self) -> f64 {
        self.top / self.flutter.speed
    }
}

fn told(cx: &Context, worst: &Worst, most: f64) -> Finding {
    let PartKind::Fins(fins) = &worst.part.kind else { return FLUTTER.finding(worst.part.header, "") };
    let Some(thickness) = &fins.thickness else { return FLUTTER.finding(worst.part.header, "") };
    let least = up(worst.flutter.plate.thickness_for(worst.top / most, &worst.air), TENTH);
    let wanted = sheet_at_least(least).unwrap_or(least);
    let [from, top] = show::speeds_apart(worst.flutter.speed, worst.top);
    let message = format!(
        "{} may flutter from about {from} on, and {} reaches {top}",
        worst.part.label(),
        worst.flight.name.value
    );
    let mut finding = FLUTTER
        .finding(thickness.place, message)
        .help(format!(
            "a sheet of {} of the same material would do; so would a stiffer one, or a shorter span",
            mm(wanted)
        ))
        .label(worst.flight.name.place, format!("the fastest for these fins, {}", show::speed_for_reader(worst.top)));
    finding = finding.of_flight(worst.numbers).beyond(worst.share() / most);
    if let Some(material) = &worst.part.material {
        let shear = show::number(worst.flutter.plate.shear / 1e9);
        finding = finding.label(material.place, format!("shear modulus {shear} GPa, for a typical piece"));
    }
    let is_cautious = worst.top <= cx.limit(&FLUTTER_NOTE) && worst.share() <= cx.limit(&FLUTTER_NOTE_SHARE);
    finding.level = if is_cautious {
        Level::Note
    } else if worst.is_high_power && worst.share() > cx.limit(&FLUTTER_ERROR_SHARE) {
        Level::Error
    } else {
        Level::Warning
    };
    finding.fix(format!("make the fins {} thick", mm(wanted)), thickness.place, mm(wanted))
}
