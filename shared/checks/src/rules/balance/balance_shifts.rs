//! `balance/ballast-behind` and `balance/shifts-far`: weight where it harms, and a balance point that wanders.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::rules::guide::lone_guide_off_balance::motor_name;
use crate::threshold::Threshold;
use finwright_model::PartKind;
use finwright_units::{show, Dimension};

/// Ballast behind the balance point.
pub static BALLAST_BEHIND: Rule = Rule {
    name: "balance/ballast-behind",
    level: Level::Warning,
    summary: "ballast behind the balance point",
    why: "Weight behind the balance point draws it towards the tail, which takes margin away: the opposite of what ballast is for.",
    prose: "Ballast moves the balance point towards itself, the more the further it is away. In the tip of the nose a gram does most; behind the balance point it does harm.",
    thresholds: &[],
    example: Example::new(
        "ballast { mass: 1 g; at: 50 mm from front }",
        "ballast { mass: 1 g; at: 250 mm from tip }",
    ),
    check: Some(ballast_behind),
};

/// A balance point that moves far while the motor burns.
pub static SHIFTS_FAR: Rule = Rule {
    name: "balance/shifts-far",
    level: Level::Note,
    summary: "a balance point that moves far as the motor burns",
    why: "A rocket whose balance point moves far flies as another rocket when the motor is spent: its margin grows, and the wind turns it more.",
    prose: "The propellant sits at the tail, so burning it moves the balance point forward. Guides are placed for the rocket with its motor unlit; after burnout a margin that was right may be too much.",
    thresholds: &[&BALANCE_SHIFT],
    example: Example::new("propellant: 5.6 g", "propellant: 18 g").settings("[thresholds]\nbalance_shift = 1.2"),
    check: Some(shifts_far),
};

/// How far the balance point may move.
pub static BALANCE_SHIFT: Threshold = Threshold::new(
    "balance_shift",
    Dimension::CALIBRES,
    2.5,
    "how far the balance point may move while the motor burns",
);

fn ballast_behind(cx: &Context, out: &mut Vec<Finding>) {
    // The motor that draws the balance point furthest back judges mildest; ballast behind even that one only harms.
    let Some((flight, loaded)) = cx
        .flights()
        .filter_map(|(flight, numbers)| Some((flight, numbers.loaded?)))
        .max_by(|a, b| a.1.x.total_cmp(&b.1.x))
    else {
        return;
    };
    for (id, part) in cx.design.parts.iter().enumerate() {
        let Some(place) = cx.assessment.extents.get(id).copied().flatten() else { continue };
        let Some(mass) = part.mass.as_ref().filter(|_| matches!(part.kind, PartKind::Ballast)) else { continue };
        let behind = place.middle() - loaded.x;
        if behind <= 0.0 {
            continue;
        }
        out.push(
            BALLAST_BEHIND
                .finding(
                    crate::rules::guide::not_straddling::value_place(part),
                    format!(
                        "{} of {} sits {} behind the balance point ({} from the tip with {} in)",
                        part.label(),
                        show::mass(mass.si),
                        show::station(behind),
                        show::station(loaded.x),
                        motor_name(cx, flight)
                    ),
                )
                .help("put it as near the tip as it fits, or leave it out"),
        );
    }
}

fn shifts_far(cx: &Context, out: &mut Vec<Finding>) {
    let Some(calibre) = cx.assessment.calibre else { return };
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(loaded), Some(burnt)) = (numbers.loaded, numbers.burnt) else { continue };
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
