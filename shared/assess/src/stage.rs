//! The stages' mounts and the motors in them.

use crate::motor::points;
use finwright_model::{Design, Flight, Motor, Named, Part, PartId, PartKind, Stage};
use finwright_physics::mass::MassProps;
use finwright_physics::motor::ThrustCurve;
use finwright_physics::section::Section;
use std::f64::consts::PI;

/// Both stages.
pub const WHOLE: &[Stage] = &[Stage::Upper, Stage::Booster];

/// A stage's mount, which holds its motor, with its number.
pub fn mount(design: &Design, stage: Stage) -> Option<(PartId, &Part)> {
    design.parts.iter().enumerate().find(|(_, p)| p.stage == stage && matches!(p.kind, PartKind::Mount { .. }))
}

/// How many motors a stage's mount holds side by side, and the radius of the circle on which their middles lie, m.
pub fn cluster(design: &Design, stage: Stage) -> (f64, f64) {
    match mount(design, stage).map(|(_, part)| &part.kind) {
        Some(PartKind::Mount { motors: Some(motors), circle, .. }) => {
            (motors.si, circle.as_ref().map_or(0.0, |c| c.si / 2.0))
        }
        _ => (1.0, 0.0),
    }
}

/// The diameter in m of the circle on which a cluster's mounts of a width in m touch, two or more: neighbours' middles lie
/// a chord apart. One of them may stand in the middle of the others.
pub fn touching_circle(outer: f64, count: f64) -> f64 {
    let ring = |count: f64| outer / (PI / count).sin();
    ring(count).min(ring(count - 1.0).max(2.0 * outer))
}

/// A flight's motors in their stages, the one that burns on the pad first.
pub fn motors<'d>(design: &'d Design, flight: &Flight) -> Vec<(&'d Motor, Stage)> {
    let of = |named: &Option<Named<usize>>| named.as_ref().and_then(|m| design.motors.get(m.value));
    let booster = of(&flight.booster_motor).map(|motor| (motor, Stage::Booster));
    booster.into_iter().chain(of(&flight.motor).map(|motor| (motor, Stage::Upper))).collect()
}

/// What the motors of a stage's mount weigh before ignition and their propellant, each as an even cylinder from the
/// motor's front edge; a cluster's stand on their circle.
///
/// That the propellant lies evenly along the case is an estimate; where it lies is not in a motor's usual data.
pub fn motor_mass(design: &Design, motor: &Motor, stage: Stage) -> Option<(MassProps, MassProps)> {
    let (length, diameter) = (motor.length.as_ref()?.si, motor.diameter.as_ref()?.si);
    // A motor lighter than its propellant is reported by a rule, and no number may rest on it.
    if motor.propellant.as_ref()?.si >= motor.mass.as_ref()?.si {
        return None;
    }
    let shape = Section::cylinder(length, diameter / 2.0).ok()?.solid(1.0);
    let (count, radius) = cluster(design, stage);
    let of = |mass: f64| shape.scaled(mass / shape.mass).off_axis(radius).scaled(count);
    Some((of(motor.mass.as_ref()?.si), of(motor.propellant.as_ref()?.si)))
}

/// The thrust of all motors of a stage's mount together, lit at once, as flights have shown it where the file says that.
pub fn thrust(design: &Design, motor: &Motor, stage: Stage) -> Option<ThrustCurve> {
    let (count, _) = cluster(design, stage);
    let factor = motor.thrust_factor_or_one();
    let points = points(motor)?.into_iter().map(|(t, f)| (t, f * count * factor)).collect();
    ThrustCurve::new(points).ok()
}

/// The time from burnout to the charge of a flight's motor that burns last, s.
pub(crate) fn delay(design: &Design, flight: &Flight) -> Option<f64> {
    Some(design.motors.get(flight.motor.as_ref()?.value)?.delay.as_ref()?.si)
}
