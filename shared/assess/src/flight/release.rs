//! The moment of release: the angle at which the air meets the rocket, how it swings after it, and the turn that its
//! last guide gives it.

use super::air::Air;
use super::pad::OnPad;
use super::run::Run;
use super::weighed::Weighed;
use crate::airflow::Airflow;
use finwright_physics::mass::MassProps;
use finwright_physics::motor::ThrustCurve;
use finwright_physics::reactions::{Lean, OnLastGuide, TipOff};
use finwright_physics::stability::{
    aerodynamic_damping, corrective_moment, jet_damping, normal_slope, Stream, Swing, Swinging,
};

/// The rocket when its last guide leaves. Angles in rad.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtRelease {
    /// Mass properties at that moment; stations from the tip.
    pub mass: MassProps,
    /// Angle of attack in the steady wind at the height of the release: see [`angle_at_release`].
    pub angle: f64,
    /// Angle of attack in a gust.
    pub gust_angle: f64,
    /// How the rocket swings about its path; `None` where it's unstable and turns over.
    pub swing: Option<Swing>,
    /// The turn that it has from the time on its last guide alone, in the steady wind, into which the guide leans.
    pub tip_off: TipOff,
    /// The same in a gust.
    pub gust_tip_off: TipOff,
    /// Margin at the steady wind's angle of attack, where the body's own lift moves the centre of pressure forward, in
    /// calibres.
    pub margin: Option<f64>,
    /// The same in a gust.
    pub gust_margin: Option<f64>,
}

/// The release of a flight that has a run along its guide and leaves it.
///
/// Sources: Mandell, Caporaso & Bengen, Topics in Advanced Model Rocketry, 1973 (from memory); the tip-off is derived
/// in [`finwright_physics::reactions`].
pub(crate) fn at_release(
    (airflow, air): (&Airflow, &Air),
    calibre: Option<f64>,
    (curve, nozzle): (&ThrustCurve, f64),
    (weighed, on_pad, run): (&Weighed, &OnPad, &Run),
) -> Option<AtRelease> {
    let (front, last) = (run.front()?, run.last()?);
    let burning = weighed.burning_on_guide();
    let mass = burning.at(curve.burnt_share(last.time));
    let stream = Stream { density: air.density, speed: last.speed, reference_area: airflow.reference_area };
    let flow = burning.propellant.mass * last.thrust / curve.total_impulse();
    let swinging = Swinging {
        corrective: corrective_moment(&stream, airflow.total, mass.x),
        damping: aerodynamic_damping(&stream, airflow.parts.iter().map(|(_, share)| *share), mass.x)
            + jet_damping(flow, nozzle, mass.x),
        inertia: mass.i_transverse,
        normal: normal_slope(&stream, airflow.total),
        mass: mass.mass,
        speed: last.speed,
    };
    let at_front = burning.at(curve.burnt_share(front.time));
    let pivot = on_pad.pivot()?;
    let lean = run.inputs.lean;
    let tip_off = |wind: f64| {
        OnLastGuide {
            mass: at_front.mass,
            balance: at_front.x,
            inertia: at_front.i_transverse,
            last_guide: pivot,
            reference_area: airflow.reference_area,
            cna: airflow.total.cna,
            pressure: airflow.total.x().unwrap_or(pivot),
            time: last.time - front.time,
            speed: front.speed,
            acceleration: if last.time > front.time {
                (last.speed - front.speed) / (last.time - front.time)
            } else {
                0.0
            },
            wind,
            density: air.density,
            lean,
        }
        .tip_off()
    };
    let margin = |angle: f64| {
        let pressure = airflow.aerodynamics.normal_force(0.0, angle).ok()?.x()?;
        Some((pressure - mass.x) / calibre?)
    };
    let profile = air.profile();
    let height = last.travel * run.inputs.tilt.cos();
    let angle = angle_at_release(profile.at(height), last.speed, lean);
    let gust_angle = angle_at_release(profile.gust_at(height), last.speed, lean);
    Some(AtRelease {
        mass,
        angle,
        gust_angle,
        margin: margin(angle),
        gust_margin: margin(gust_angle),
        swing: Swing::of(&swinging),
        tip_off: tip_off(air.wind),
        gust_tip_off: tip_off(air.gust),
    })
}

/// The angle in rad at which the air meets a rocket that leaves at a speed along a guide that leans: the part of the
/// wind across the guide, over the speed and the part of the wind along it, from the difference of the two velocities.
/// Into the wind the air meets it more from ahead, away from it more from behind.
pub fn angle_at_release(wind: f64, speed: f64, lean: Lean) -> f64 {
    let (sin, cos) = lean.into_wind.sin_cos();
    (wind * cos).atan2(speed + wind * sin)
}

/// The wind in m/s that meets a rocket at an angle in rad as it leaves at a speed, the other way round; infinite where
/// none does.
pub fn wind_for_angle(angle: f64, speed: f64, lean: Lean) -> f64 {
    let (sin, cos) = lean.into_wind.sin_cos();
    let across = cos - angle.tan() * sin;
    if across > 0.0 {
        speed * angle.tan() / across
    } else {
        f64::INFINITY
    }
}

/// The speed in m/s at which a wind meets a rocket at an angle in rad.
pub fn speed_for_angle(angle: f64, wind: f64, lean: Lean) -> f64 {
    let (sin, cos) = lean.into_wind.sin_cos();
    (wind * (cos / angle.tan() - sin)).max(0.0)
}
