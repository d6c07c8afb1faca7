//! `balance/shifts-far`: a balance point that moves far as the motor burns.

use crate::common::named::motor_name;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// How far the balance point may move.
pub static BALANCE_SHIFT: Threshold = Threshold::new(
    "balance_shift",
    Dimension::CALIBRES,
    2.5,
    "how far the balance point may move while the motor burns",
);

/// A balance point that moves far while the motor burns.
pub static SHIFTS_FAR: Rule = Rule {
    name: "balance/shifts-far",
    family: Family::Balance,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Note,
    summary: "a balance point that moves far as the motor burns",
    why: "A rocket whose balance point moves far flies like another rocket once the motor is spent: its margin grows, \
        and the wind turns it more.",
    prose: include_str!("shifts_far.md"),
    thresholds: &[&BALANCE_SHIFT],
    example: Example::new("propellant: 5.6 g", "propellant: 18 g").settings("[thresholds]\nbalance_shift = 1.2"),
    check: Some(shifts_far),
};

fn shifts_far(cx: &Context, out: &mut Vec<Finding>) {
    let Some(calibre) = cx.assessment.airframe.calibre else { return };
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(loaded), Some(burnt)) = (numbers.loaded(), numbers.burnt()) else { continue };
        let shift = (loaded.x - burnt.x) / calibre;
        let motor = flight.motor.as_ref().map(|m| m.value);
        if shift.abs() <= cx.limit(&BALANCE_SHIFT) || told.contains(&motor) {
            continue;
        }
        told.push(motor);
        out.push(
            SHIFTS_FAR
                .finding(
                    flight.motor.as_ref().map_or(flight.name.place, |m| m.place),
                    format!(
                        "while {} burns, the balance point moves from {} to {} from the tip: {} calibres",
                        motor_name(cx, flight),
                        show::station(loaded.x),
                        show::station(burnt.x),
                        show::number(shift.abs())
                    ),
                )
                .help("a lighter motor, or a heavier nose, moves it less"),
        );
    }
}
