//! `recovery/mistimed`: the parachute opens long before or after the highest point.

use crate::common::charge::lacks_delay;
use crate::common::flown::flown;
use crate::common::limits::OPENING_SPEED;
use crate::common::named::motor_name;
use crate::example::Example;
use crate::finding::{Edit, Finding, Fix, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_grammar::FileId;
use finwright_model::Motor;
use finwright_units::{show, Dimension};

/// The most time between the opening and the highest point.
pub static OPENING_OFF: Threshold =
    Threshold::new("opening_off", Dimension::TIME, 2.0, "the most time between the opening and the highest point");

/// The rule.
pub static MISTIMED: Rule = Rule {
    name: "recovery/mistimed",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "a delay that opens the parachute far from the highest point",
    why: "At speed the opening tears a parachute off or the cord through the tube, and what is torn off falls.",
    prose: include_str!("mistimed.md"),
    thresholds: &[&OPENING_SPEED, &OPENING_OFF],
    example: Example::new(
        "code: \"B8-4\"; diameter: 18 mm; length: 70 mm; mass: 19 g; propellant: 5.6 g; delay: 4 s",
        "code: \"B8-8\"; diameter: 18 mm; length: 70 mm; mass: 19 g; propellant: 5.6 g; delay: 8 s",
    ),
    check: Some(check),
};

/// One flight that opens badly.
struct Mistimed {
    /// The motor whose delay it is, and the booster's, which decides how high that one starts.
    motors: (usize, Option<usize>),
    /// How bad it is: the speed at the opening in m/s, or infinite where the ground comes first.
    speed: f64,
    /// The whole-second delay nearest to the coast.
    wanted: f64,
    finding: Finding,
}

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut found: Vec<Mistimed> = Vec::new();
    // Every flight's best delay by motor: a delay that mends one flight may spoil another.
    let mut best: Vec<(usize, f64)> = Vec::new();
    for (flight, numbers, path) in flown(cx).into_iter().filter(|(flight, ..)| !lacks_delay(cx, flight)) {
        let (Some(descent), Some(named)) = (&path.descent, &flight.motor) else { continue };
        // What opens by a clock or a height of its own doesn't hang on the delay.
        let Some(charge) = descent.delay else { continue };
        let Some(motor) = cx.design.motors.get(named.value) else { continue };
        let Some(delay) = &motor.delay else { continue };
        let coast = path.free_coast;
        best.push((named.value, coast));
        let off = charge - coast;
        let opening = descent.by_delay().map(|opening| opening.air_speed);
        let speed = opening.unwrap_or(f64::INFINITY);
        // A delay that fits and still opens fast is told as that: another delay wouldn't help.
        let fits = off.abs() <= 0.5 * cx.limit(&OPENING_OFF) || speed <= cx.limit(&OPENING_SPEED);
        if fits && off.abs() <= cx.limit(&OPENING_OFF) {
            continue;
        }
        let side = if off > 0.0 { "after" } else { "before" };
        let message = match opening {
            Some(speed) => format!(
                "{} opens {} {side} the highest point, at {}",
                flight.name.value,
                show::time(show_tenths(off.abs())),
                show::speed_for_reader(speed)
            ),
            None => format!(
                "{} is on the ground before anything opens: the highest point comes {} after burnout, the opening {}",
                flight.name.value,
                show::time(show_tenths(coast)),
                show::time(charge)
            ),
        };
        let wanted = coast.round().max(0.0);
        let also = match &motor.code {
            Some(_) => "; its code then ends in that number too",
            None => "",
        };
        let name = &flight.name.value;
        let help = if coast >= 0.0 {
            format!(
                "{name} coasts for {}: take a motor with a delay of about {} s{also}",
                show::time(show_tenths(coast)),
                show::trimmed(wanted, 0)
            )
        } else {
            let early = show::time(show_tenths(-coast));
            format!("{name} is at its highest point {early} before burnout, which no delay fits: the motor is too weak")
        };
        let mut finding = MISTIMED
            .finding(delay.place, message)
            .help(help)
            .label(flight.name.place, format!("flown with {}", motor_name(cx, flight)))
            .of_flight(numbers)
            .beyond(speed / cx.limit(&OPENING_SPEED));
        if opening.is_none() {
            finding.level = Level::Error;
        }
        let motors = (named.value, flight.booster_motor.as_ref().map(|m| m.value));
        let this = Mistimed { motors, speed, wanted, finding };
        // Flights of the same motors share the cause; the one that opens fastest tells it.
        match found.iter_mut().find(|other| other.motors == motors) {
            Some(other) if other.speed < this.speed => *other = this,
            Some(_) => {}
            None => found.push(this),
        }
    }
    for mut mistimed in found {
        let fits = |(motor, coast): &(usize, f64)| {
            *motor != mistimed.motors.0 || (coast - mistimed.wanted).abs() < 0.5 * cx.limit(&OPENING_OFF)
        };
        if best.iter().all(fits) && mistimed.wanted > 0.0 {
            let motor = cx.design.motors.get(mistimed.motors.0);
            mistimed.finding.fixes.extend(motor.and_then(|motor| another_delay(motor, mistimed.wanted)));
        }
        out.push(mistimed.finding);
    }
}

/// The motor's delay and the number behind its code's dash, changed together.
fn another_delay(motor: &Motor, delay: f64) -> Option<Fix> {
    let seconds = show::trimmed(delay, 0);
    let own = motor.delay.as_ref().filter(|d| d.place.file == FileId(0))?;
    let mut edits = vec![Edit { place: own.place, text: format!("{seconds} s") }];
    let mut title = format!("take a motor with a delay of {seconds} s");
    if let Some(code) = motor.code.as_ref().filter(|code| code.place.file == FileId(0)) {
        if let Some((front, old)) = code.value.rsplit_once('-') {
            if old.chars().all(|c| c.is_ascii_digit()) {
                edits.push(Edit { place: code.place, text: format!("\"{front}-{seconds}\"") });
                title = format!("take a motor with a delay of {seconds} s, {front}-{seconds}");
            }
        }
    }
    Some(Fix { title, edits })
}

/// A time to the tenth of a second: no delay is more exact.
fn show_tenths(time: f64) -> f64 {
    (time * 10.0).round() / 10.0
}
