//! Median and least time of a guided run, of a whole flight and of a vortex lattice on one core; never part of the
//! tests.
//!
//! `cargo run --release -p finwright-physics --example timing`; with a number, only so many whole flights, for a count
//! of their instructions: `valgrind --tool=callgrind target/release/examples/timing 100`.
#![allow(clippy::print_stdout)]

use std::error::Error;
use std::f64::consts::PI;
use std::hint::black_box;
use std::time::Instant;

use finwright_physics::aerodynamics::{Aerodynamics, Drag};
use finwright_physics::air::{Atmosphere, Wind};
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::drag::{DragModel, Edge, FinDrag};
use finwright_physics::fins::FinShape;
use finwright_physics::flight::{Flight, Release};
use finwright_physics::friction::{BARE, PAINTED};
use finwright_physics::guided::{GuidedOutcome, GuidedRun};
use finwright_physics::lattice;
use finwright_physics::mass::MassProps;
use finwright_physics::motor::{BurningMass, ThrustCurve};
use finwright_physics::normal_force::{body, FinCountRule, FinSet};
use finwright_physics::nose::NoseShape;
use finwright_physics::section::Section;

fn main() -> Result<(), Box<dyn Error>> {
    // Twenty points, a spike and a plateau; invented.
    let thrust = [0.0, 5.0, 11.0, 13.5, 9.0, 6.4, 5.6, 5.3, 5.2, 5.1, 5.1, 5.0, 5.0, 4.9, 4.9, 4.8, 4.8, 4.6, 2.5, 0.0];
    let points = thrust.iter().enumerate();
    let points = points.map(|(i, f)| (1.8 * i as f64 / 19.0, 2.0 * f)).collect();
    let curve = ThrustCurve::new(points).map_err(|e| format!("{e:?}"))?;
    let run = GuidedRun {
        curve: &curve,
        mass: 0.15,
        propellant: 0.012,
        tilt: 0.05,
        friction: 0.2,
        side_force: 0.3,
        side_slope: 0.0,
        drag: 4e-4,
        front_leaves: 0.7,
        last_leaves: 1.0,
    };
    let flights = std::env::args().nth(1).and_then(|count| count.parse::<u32>().ok());
    if flights.is_none() {
        println!("guided run     {}", timed(|| run.run()));
    }

    let GuidedOutcome::Leaves { last, .. } = run.run() else {
        return Err("stays on the guide".into());
    };
    let aerodynamics = aerodynamics()?;
    let rated = |mass, x| MassProps { mass, x, i_axial: 1e-5, i_transverse: 1.2e-3 };
    let flight = Flight {
        curve: &curve,
        mass: BurningMass {
            dry: rated(0.138, 0.31),
            propellant: MassProps { i_transverse: 1e-5, ..rated(0.012, 0.52) },
        },
        nozzle: 0.563,
        aerodynamics: &aerodynamics,
        atmosphere: &Atmosphere::standard(100.0).with_temperature(290.0),
        wind: &Wind::over_open_land(4.0, 6.0),
        release: Release { time: last.time, height: last.travel, speed: last.speed, tilt: 0.05, rate: 0.02 },
        canopies: &[Canopy { drag_area: 0.127, opens: Opens::AfterBurnout(5.0) }],
        hung: None,
    };
    if let Some(count) = flights {
        for _ in 0..count {
            black_box(flight.fly()).map_err(|e| format!("{e:?}"))?;
        }
        return Ok(());
    }
    for count in [3, 4, 8] {
        let shape = FinShape::Trapezoid { root: 0.07, tip: 0.04, span: 0.048, sweep: 0.038 };
        println!("lattice, {count} fins {}", timed(|| lattice::lift(&shape, count, 0.0208, 0.3, 0.49, 1.0)));
    }

    let mut steps = 0;
    let path = flight.fly_with(|_| steps += 1).map_err(|e| format!("{e:?}"))?;
    println!("whole flight   {}, {steps} steps", timed(|| flight.fly()));
    println!("{path:?}");
    let bare = Flight { canopies: &[], ..flight };
    println!("without canopy {}", timed(|| bare.fly()));
    let constant = Aerodynamics { drag: Drag::Constant(0.7), ..aerodynamics.clone() };
    let plain = Flight { aerodynamics: &constant, ..flight };
    println!("constant Cd    {}", timed(|| plain.fly()));
    Ok(())
}

fn aerodynamics() -> Result<Aerodynamics, Box<dyn Error>> {
    let failed = |e| format!("{e:?}");
    let nose = Section::nose(NoseShape::Ogive, 0.133, 0.0208).map_err(failed)?;
    let tube = Section::cylinder(0.43, 0.0208).map_err(failed)?;
    let fin = FinShape::Trapezoid { root: 0.07, tip: 0.04, span: 0.048, sweep: 0.038 };
    let fin = fin.geometry().map_err(|e| format!("{e:?}"))?;
    let area = PI * 0.0208 * 0.0208;
    let mut drag = DragModel::of_body(&[(nose, BARE), (tube, PAINTED)], area);
    drag.jet_area = 0.3 * drag.base_area;
    drag.fins.push(FinDrag {
        fin,
        count: 3,
        thickness: 0.0024,
        roughness: PAINTED,
        leading: Edge::Rounded,
        trailing: Edge::Blunt,
    });
    let (front, back) = (nose.geometry(), tube.geometry());
    Ok(Aerodynamics {
        reference_area: area,
        body: vec![body(&nose, &front, 0.0, area), body(&tube, &back, 0.133, area)],
        fins: vec![FinSet { fin, count: 3, body_radius: 0.0208, x: 0.49, rule: FinCountRule::default() }],
        planform_area: front.planform_area + back.planform_area,
        planform_centroid: 0.32,
        body_lift_k: 1.1,
        drag: Drag::BuildUp(drag),
    })
}

/// Median and least microseconds of a call; the least tells what a busy machine hides.
fn timed<T>(mut call: impl FnMut() -> T) -> String {
    let mut times: Vec<f64> = (0..2000)
        .map(|_| {
            let start = Instant::now();
            black_box(call());
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    format!("{:8.2} us median, {:8.2} us least", times[times.len() / 2], times[0])
}
