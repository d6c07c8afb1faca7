//! `fins/flutter`: fins that the flight's top speed may tear off.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::rules::recovery::flown::flown;
use crate::rules::rounded::{mm, up, TENTH};
use crate::threshold::Threshold;
use finwright_assess::sold::sheet_at_least;
use finwright_assess::Flutter;
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
/// From where on it's an error. The form of the formula that is passed around counts the taper's half twice and gives √2
/// times as much; beyond that no reading of it is left.
pub static FLUTTER_ERROR_SHARE: Threshold = Threshold::new(
    "flutter_error_share",
    Dimension::NUMBER,
    1.41,
    "top speed over the estimated flutter speed from which on it is an error",
)
.high_power(1.0);

/// The rule.
pub static FLUTTER: Rule = Rule {
    name: "fins/flutter",
    family: Family::Fins,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "fins too thin for the flight's top speed",
    why: "Above that speed a fin swings and twists faster and faster until it breaks off, and the rocket tumbles.",
    prose: "A fin that twists a little meets the air at an angle; the air's push bends it; bending twists it again. Below a certain speed each swing is smaller than the one before, above it larger: that is flutter, and it takes a fraction of a second to break a fin. What holds against it is stiffness in twisting: the shear modulus G of the material and the thickness t, which counts with its third power. The flutter speed is a √(G / (2.67 p · A³/((t/c)³ (A + 2)) · (λ + 1)/2)), with the speed of sound a, the air's pressure p, the aspect ratio A = span²/area, the root chord c and the ratio λ of tip to root (D. J. Martin, NACA TN 4197, 1958, from memory). So speed grows with t to the 3/2, and a short span helps most. It's an estimate for a flat plate alike in all directions: fillets and paper skins stiffen a fin, a soft piece of wood or a cracked root weakens it, and balsa varies twofold. Estimates of this kind lie on the cautious side for small rockets; for high power the rule speaks from four fifths of it on (common practice, no source).",
    thresholds: &[&FLUTTER_SHARE, &FLUTTER_ERROR_SHARE],
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
}

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut worst: Vec<Worst> = Vec::new();
    for (flight, numbers, path) in flown(cx) {
        let Some(air) = numbers.air else { continue };
        for flutter in &numbers.flutter {
            let Some(part) = cx.design.parts.get(flutter.part) else { continue };
            // A booster's fins are off before the upper stage is at its fastest.
            let top = match (part.stage, path.boost_speed) {
                (Stage::Booster, Some(boost)) => boost,
                _ => path.moments.fastest.speed,
            };
            let this = Worst { flight, part, flutter: *flutter, top, air: air.atmosphere.at(0.0) };
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
    let message = format!(
        "{} reaches {}; {}, {} thick, may flutter from about {} on",
        worst.flight.name.value,
        show::speed_for_reader(worst.top),
        worst.part.label(),
        show::length(thickness.si),
        show::speed(worst.flutter.speed)
    );
    let mut finding = FLUTTER
        .finding(thickness.place, message)
        .help(format!("a sheet of {} of the same material would do; so would a stiffer one, or a shorter span", mm(wanted)))
        .label(worst.flight.name.place, format!("the fastest for these fins, {}", show::speed(worst.top)));
    if let Some(material) = &worst.part.material {
        let shear = show::number(worst.flutter.plate.shear / 1e9);
        finding = finding.label(material.place, format!("shear modulus {shear} GPa, for a typical piece"));
    }
    if worst.share() > cx.limit(&FLUTTER_ERROR_SHARE) {
        finding.level = Level::Error;
    }
    finding.fix(format!("make the fins {} thick", mm(wanted)), thickness.place, mm(wanted))
}
