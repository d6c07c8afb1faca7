//! `mount/motor-too-wide`, `mount/motor-too-long`, `mount/motor-loose`: a motor and a mount that don't fit.

use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use finwright_assess::balance::mount;
use finwright_model::{Amount, Motor, Named, Part, PartKind, Stage};
use finwright_units::show;

/// Wider than the bore.
pub static MOTOR_TOO_WIDE: Rule = Rule {
    name: "mount/motor-too-wide",
    level: Level::Error,
    summary: "a motor wider than its mount's bore",
    why: "It doesn't go in; a mount sanded out until it does may not hold the thrust.",
    prose: "Motors come in a few standard diameters, and a mount's bore is made for one of them.",
    check: Some(|cx, out| each(cx, &MOTOR_TOO_WIDE, out)),
};

/// Longer than the mount.
pub static MOTOR_TOO_LONG: Rule = Rule {
    name: "mount/motor-too-long",
    level: Level::Warning,
    summary: "a motor longer than its mount",
    why: "The front of the motor stands free ahead of the mount, where nothing takes its thrust or keeps it off the parachute.",
    prose: "What is inside must fit: the motor's length less what sticks out at the back should not be more than the mount's length.",
    check: Some(|cx, out| each(cx, &MOTOR_TOO_LONG, out)),
};

/// Narrower than the bore.
pub static MOTOR_LOOSE: Rule = Rule {
    name: "mount/motor-loose",
    level: Level::Warning,
    summary: "a motor much narrower than its mount's bore",
    why: "A loose motor points where it likes and can be thrown out at ejection.",
    prose: "A motor should slide in with little play. A smaller motor needs an adapter, whose mass counts too.",
    check: Some(|cx, out| each(cx, &MOTOR_LOOSE, out)),
};

fn each(cx: &Context, rule: &'static Rule, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for flight in &cx.design.flights {
        for (named, stage) in [(&flight.booster_motor, Stage::Booster), (&flight.motor, Stage::Upper)] {
            let Some((_, part)) = mount(cx.design, stage) else { continue };
            let PartKind::Mount { length, bore, sticks_out, .. } = &part.kind else { continue };
            let Some(named) = named else { continue };
            let Some(motor) = cx.design.motors.get(named.value) else { continue };
            // Two flights with one motor say the same about one mount.
            if told.contains(&(named.value, stage)) {
                continue;
            }
            told.push((named.value, stage));
            out.extend(match rule.name {
                "mount/motor-too-wide" => too_wide(rule, part, motor, named, bore.as_ref()),
                "mount/motor-too-long" => too_long(rule, part, motor, named, length.as_ref(), sticks_out.as_ref()),
                _ => loose(cx, rule, part, motor, named, bore.as_ref()),
            });
        }
    }
}

fn too_wide(
    rule: &'static Rule,
    part: &Part,
    motor: &Motor,
    named: &Named<usize>,
    bore: Option<&Amount>,
) -> Option<Finding> {
    let (bore, diameter) = (bore?, motor.diameter.as_ref()?);
    (diameter.si > bore.si + 1e-9).then(|| {
        rule.finding(
            named.place,
            format!(
                "{} is {} wide and {}'s bore is {}",
                motor.name.value,
                show::length(diameter.si),
                part.label(),
                show::length(bore.si)
            ),
        )
        .help(format!("a motor of {} or less, or a wider mount", show::length(bore.si)))
        .label(bore.place, "the bore")
        .label(diameter.place, "the motor's diameter")
    })
}

fn too_long(
    rule: &'static Rule,
    part: &Part,
    motor: &Motor,
    named: &Named<usize>,
    length: Option<&Amount>,
    sticks_out: Option<&Amount>,
) -> Option<Finding> {
    let (length, motor_length) = (length?, motor.length.as_ref()?);
    let inside = motor_length.si - sticks_out.map_or(0.0, |a| a.si);
    (inside > length.si + 1e-9).then(|| {
        let least = format!("{} mm", show::trimmed((inside * 1e3).ceil(), 0));
        rule.finding(
            named.place,
            format!(
                "{} is {} long, {} of it inside, and {} is {} long",
                motor.name.value,
                show::length(motor_length.si),
                show::length(inside),
                part.label(),
                show::length(length.si)
            ),
        )
        .help(format!("a mount of {least} or more, or a shorter motor"))
        .label(length.place, "the mount's length")
        .label(motor_length.place, "the motor's length")
        .fix(format!("make the mount {least} long"), length.place, least)
    })
}

fn loose(
    cx: &Context,
    rule: &'static Rule,
    part: &Part,
    motor: &Motor,
    named: &Named<usize>,
    bore: Option<&Amount>,
) -> Option<Finding> {
    let (bore, diameter) = (bore?, motor.diameter.as_ref()?);
    let play = bore.si - diameter.si;
    (play > cx.limits.motor_play).then(|| {
        rule.finding(
            named.place,
            format!("{} is {} narrower than {}'s bore", motor.name.value, show::length(play), part.label()),
        )
        .help(format!("use an adapter and add its mass, or a motor of {}", show::length(bore.si)))
        .label(bore.place, "the bore")
        .label(diameter.place, "the motor's diameter")
    })
}
