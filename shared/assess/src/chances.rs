//! How likely a flight meets its floors when its values vary: many runs from a seed.

pub use crate::floors::Floors;

use crate::airflow::Airflow;
use crate::flight::release::angle_at_release;
use crate::flight::run::RunInputs;
use crate::flight::FlightNumbers;
use crate::spread::{Sd, Spreads};
use crate::Assessment;
use finwright_model::Design;
use finwright_physics::air::{Wind, G0};
use finwright_physics::guided::GuidedOutcome;
use finwright_physics::monte_carlo::{Random, Summary};
use serde::Serialize;
use std::f64::consts::FRAC_PI_2;

/// How likely the floors are met.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Chances {
    /// The flight's name.
    pub flight: String,
    /// How many runs.
    pub runs: u64,
    /// The seed: the same seed gives the same runs.
    pub seed: u64,
    /// What was varied, and by how much.
    pub varied: Vec<Varied>,
    /// Each floor.
    pub floors: Vec<Chance>,
    /// Share of the runs that meet the floors of exit speed, margin and thrust to weight, whatever the wind, 0 to 1:
    /// what a verdict works out without drawing.
    pub floors_met: f64,
    /// Share of the runs that meet all of it, the angle in the wind too, 0 to 1.
    pub all_met: f64,
}

/// A value that was varied, normally distributed about the file's.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Varied {
    /// What.
    pub what: &'static str,
    /// Its standard deviation, in `unit`.
    pub sd: f64,
    /// The unit.
    pub unit: &'static str,
    /// Whether the spread is a default, for want of a tolerance in the file.
    pub is_default: bool,
}

/// One floor.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Chance {
    /// The number's stable name.
    pub name: &'static str,
    /// The floor, or the ceiling of an angle.
    pub floor: f64,
    /// Share of the runs that meet it, 0 to 1.
    pub met: f64,
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// One run in twenty lies below.
    pub low: f64,
    /// The middle run.
    pub median: f64,
    /// One run in twenty lies above.
    pub high: f64,
}

/// Many runs of a flight; `None` where it has no run along its guide or no margin to vary.
///
/// A run that doesn't leave its guide has a speed of 0 and an angle of a quarter turn, and meets no floor but the
/// margin's.
pub fn chances(
    design: &Design,
    assessment: &Assessment,
    numbers: &FlightNumbers,
    floors: &Floors,
    runs: u64,
    seed: u64,
) -> Option<Chances> {
    let airflow = assessment.airframe.airflow.as_ref()?;
    let spreads = assessment.spreads(design).get(numbers.flight).copied().flatten()?;
    let scene = Scene { airflow, numbers, spreads: &spreads, doubt: floors.doubt };
    let count = runs as usize;
    let mut values: [Vec<f64>; 4] = std::array::from_fn(|_| Vec::with_capacity(count));
    let (mut all, mut without_wind) = (0_u64, 0_u64);
    for run in 0..runs {
        let drawn = scene.draw(&mut Random::for_run(seed, run))?;
        let found = [drawn.exit_speed, drawn.margin, drawn.push, drawn.angle];
        let is_met: Vec<bool> = met(floors).iter().zip(found).map(|(is_met, value)| is_met(value)).collect();
        all += u64::from(is_met.iter().all(|met| *met));
        without_wind += u64::from(is_met.iter().take(3).all(|met| *met));
        for (list, value) in values.iter_mut().zip(found) {
            list.push(value);
        }
    }
    let names = ["exit_speed_m_s", "margin_cal", "guided_thrust_to_weight", "angle_of_attack_rad"];
    let limits = [floors.exit_speed, floors.margin, floors.push, floors.angle];
    let mut found = Vec::new();
    for (((name, floor), list), is_met) in names.into_iter().zip(limits).zip(&values).zip(met(floors)) {
        let summary = Summary::of(list)?;
        let share = list.iter().filter(|value| is_met(**value)).count() as f64 / runs as f64;
        let Summary { mean, sd, low, median, high, .. } = summary;
        found.push(Chance { name, floor, met: share, mean, sd, low, median, high });
    }
    Some(Chances {
        flight: numbers.name(design).to_string(),
        runs,
        seed,
        varied: list(&spreads),
        floors: found,
        floors_met: without_wind as f64 / runs as f64,
        all_met: all as f64 / runs as f64,
    })
}

fn met(floors: &Floors) -> [Box<dyn Fn(f64) -> bool>; 4] {
    let Floors { exit_speed, margin, push, angle, doubt: _ } = *floors;
    [
        Box::new(move |v| v >= exit_speed),
        Box::new(move |v| v >= margin),
        Box::new(move |v| v >= push),
        Box::new(move |v| v <= angle),
    ]
}

/// What is varied, for the reader.
fn list(spreads: &Spreads) -> Vec<Varied> {
    let varied = |what, sd: Sd, unit| Varied { what, sd: sd.value, unit, is_default: sd.is_default };
    vec![
        varied("thrust", spreads.thrust, "of its value"),
        varied("mass", spreads.mass, "kg"),
        varied("margin, by the balance point", spreads.margin, "calibres"),
        varied("wind", spreads.wind, "m/s"),
        varied("drag", spreads.drag, "of its value"),
        varied("friction", spreads.friction, ""),
    ]
}

struct Scene<'a> {
    airflow: &'a Airflow,
    numbers: &'a FlightNumbers,
    spreads: &'a Spreads,
    doubt: f64,
}

struct Drawn {
    exit_speed: f64,
    margin: f64,
    push: f64,
    angle: f64,
}

impl Scene<'_> {
    /// One run. The draws come in a fixed order, so that a seed stands for the same runs in every version that varies
    /// the same values.
    fn draw(&self, random: &mut Random) -> Option<Drawn> {
        let (run, curve, air) = (self.numbers.run.as_ref()?, self.numbers.curve.as_ref()?, self.numbers.air?);
        let spreads = self.spreads;
        let mut normal = |mean: f64, sd: f64| mean + sd * random.normal();
        let thrust = normal(1.0, spreads.thrust.value).max(0.05);
        let mass = normal(run.inputs.mass, spreads.mass.value).max(1.001 * run.inputs.propellant);
        let margin = normal(self.numbers.margin()? - self.doubt, spreads.margin.value);
        let wind = normal(air.wind, spreads.wind.value).max(0.0);
        let drag = normal(1.0, spreads.drag.value).max(0.0);
        let friction = normal(run.inputs.friction, spreads.friction.value).max(0.0);
        let curve = curve.scaled(thrust)?;
        let inputs = RunInputs {
            mass,
            friction,
            drag: run.inputs.drag * drag,
            ..run.inputs.in_wind(self.airflow, air.density, wind)
        };
        let (exit_speed, push, angle) = match inputs.on(&curve, run.front_travel, run.travel).run() {
            GuidedOutcome::Leaves { lift_off, last, .. } => {
                let impulse = curve.impulse_to(last.time) - curve.impulse_to(lift_off);
                let push = impulse / (last.time - lift_off) / (mass * G0);
                let height = last.travel * run.inputs.tilt.cos();
                let wind = Wind::over_open_land(wind, wind).at(height);
                (last.speed, push, angle_at_release(wind, last.speed, run.inputs.lean))
            }
            GuidedOutcome::Stays(_) => (0.0, 0.0, FRAC_PI_2),
        };
        Some(Drawn { exit_speed, margin, push, angle })
    }
}
