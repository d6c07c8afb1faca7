//! `mount/motor-too-wide`, `mount/motor-too-long`, `mount/motor-loose`: a motor and a mount that don't fit. Motors are
//! called by their millimetres wherever they are flown, so these sizes are in SI for every reader.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::stage::mount;
use finwright_model::fit::SAME;
use finwright_model::{Amount, Motor, Named, Part, PartKind, Stage};
use finwright_units::{show, Dimension};

/// The most play of a motor in its mount.
pub static MOTOR_PLAY: Threshold = Threshold::new(
    "motor_play",
    Dimension::LENGTH,
    1.0e-3,
    "the most play of a motor in its mount, across the diameter",
);

/// Wider than the bore.
pub static MOTOR_TOO_WIDE: Rule = Rule {
    name: "mount/motor-too-wide",
    family: Family::Mount,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a motor wider than its mount's bore",
    why: "It doesn't go in; a mount sanded out until it does may not hold the thrust.",
    prose: include_str!("motor_too_wide.md"),
    thresholds: &[],
    example: Example::new("diameter: 18 mm", "diameter: 24 mm"),
    check: Some(|cx, out| each(cx, out, too_wide)),
};

/// Longer than the mount.
pub static MOTOR_TOO_LONG: Rule = Rule {
    name: "mount/motor-too-long",
    family: Family::Mount,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a motor longer than its mount",
    why: "The front of the motor stands free ahead of the mount, where nothing takes its thrust or keeps it off the \
        parachute.",
    prose: include_str!("motor_too_long.md"),
    thresholds: &[],
    example: Example::new("diameter: 18 mm; length: 70 mm", "diameter: 18 mm; length: 95 mm"),
    check: Some(|cx, out| each(cx, out, too_long)),
};

/// Narrower than the bore.
pub static MOTOR_LOOSE: Rule = Rule {
    name: "mount/motor-loose",
    family: Family::Mount,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a motor much narrower than its mount's bore",
    why: "A loose motor points where it likes and can be thrown out at ejection.",
    prose: include_str!("motor_loose.md"),
    thresholds: &[&MOTOR_PLAY],
    example: Example::new("diameter: 18 mm", "diameter: 13 mm"),
    check: Some(|cx, out| each(cx, out, loose)),
};

/// A motor as it stands in the mount that a flight puts it in.
struct Fit<'a> {
    part: &'a Part,
    motor: &'a Motor,
    named: &'a Named<usize>,
    bore: Option<&'a Amount>,
    length: Option<&'a Amount>,
    sticks_out: Option<&'a Amount>,
}

fn each(cx: &Context, out: &mut Vec<Finding>, check: fn(&Context, &Fit) -> Option<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        for (named, stage) in [(&flight.booster_motor, Stage::Booster), (&flight.motor, Stage::Upper)] {
            let Some((_, part)) = mount(cx.design, stage) else { continue };
            let PartKind::Mount { length, bore, sticks_out, .. } = &part.kind else { continue };
            let Some(named) = named else { continue };
            let Some(motor) = cx.design.motors.get(named.value) else { continue };
            if misfit::has_no_room(numbers, named.value) {
                continue;
            }
            // Two flights with one motor say the same about one mount.
            if told.contains(&(named.value, stage)) {
                continue;
            }
            told.push((named.value, stage));
            let (bore, length, sticks_out) = (bore.as_ref(), length.as_ref(), sticks_out.as_ref());
            out.extend(check(cx, &Fit { part, motor, named, bore, length, sticks_out }));
        }
    }
}

fn too_wide(_: &Context, fit: &Fit) -> Option<Finding> {
    let (bore, diameter) = (fit.bore?, fit.motor.diameter.as_ref()?);
    (diameter.si > bore.si + SAME).then(|| {
        let [wide, room] = show::si::lengths_apart(diameter.si, bore.si);
        MOTOR_TOO_WIDE
            .finding(
                fit.named.place,
                format!("{} is {wide} wide and {}'s bore is {room}", fit.motor.name.value, fit.part.label()),
            )
            .help(format!("a motor of {room} or less, or a wider mount"))
            .label(bore.place, "the bore")
            .label(diameter.place, "the motor's diameter")
    })
}

fn too_long(_: &Context, fit: &Fit) -> Option<Finding> {
    let (length, motor_length) = (fit.length?, fit.motor.length.as_ref()?);
    let inside = motor_length.si - fit.sticks_out.map_or(0.0, |a| a.si);
    (inside > length.si + SAME).then(|| {
        let [within, long] = show::si::lengths_apart(inside, length.si);
        let least = format!("{} mm", show::trimmed((inside * 1e3).ceil(), 0));
        MOTOR_TOO_LONG
            .finding(
                fit.named.place,
                format!(
                    "{} is {} long, {within} of it inside, and {} is {long} long",
                    fit.motor.name.value,
                    show::si::length(motor_length.si),
                    fit.part.label(),
                ),
            )
            .help(format!("a mount of {least} or more, or a shorter motor"))
            .label(length.place, "the mount's length")
            .label(motor_length.place, "the motor's length")
            .fix(format!("make the mount {least} long"), length.place, least)
    })
}

fn loose(cx: &Context, fit: &Fit) -> Option<Finding> {
    let (bore, diameter) = (fit.bore?, fit.motor.diameter.as_ref()?);
    let play = bore.si - diameter.si;
    (play > cx.limit(&MOTOR_PLAY)).then(|| {
        MOTOR_LOOSE
            .finding(
                fit.named.place,
                format!(
                    "{} is {} narrower than {}'s bore",
                    fit.motor.name.value,
                    show::si::length(play),
                    fit.part.label()
                ),
            )
            .help(format!("use an adapter and add its mass, or a motor of {}", show::si::length(bore.si)))
            .label(bore.place, "the bore")
            .label(diameter.place, "the motor's diameter")
    })
}
