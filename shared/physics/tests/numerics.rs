//! The numerical methods underneath, against textbook values.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assert_near};
use finwright_physics::ode::{Solver, Step, StepFailed, Tolerance};
use finwright_physics::quadrature::integrate;
use finwright_physics::roots::{bracketed, highest};

/// [mem] 16 Gauss–Legendre points integrate polynomials exactly up to degree 31.
#[test]
fn quadrature_is_exact_for_polynomials() {
    let [low, high] = integrate(0.0, 1.0, 1, |x: f64| [x.powi(30), x.powi(31)]);
    assert_close(low, 1.0 / 31.0, 1e-14);
    assert_close(high, 1.0 / 32.0, 1e-14);
    let [sine] = integrate(0.0, std::f64::consts::PI, 2, |x: f64| [x.sin()]);
    assert_close(sine, 2.0, 1e-15);
    let [back] = integrate(1.0, 0.0, 1, |x: f64| [x]);
    assert_close(back, -0.5, 1e-15);
}

/// [mem] cos x = x at 0.739085133215160642 (Dottie's number); hard brackets too.
#[test]
fn roots() {
    let root = bracketed(0.0, 1.0, |x: f64| x.cos() - x).unwrap();
    assert_near(root, 0.739_085_133_215_160_6, 1e-15);
    // Flat almost everywhere, with the root in a corner.
    let root = bracketed(0.0, 1.0, |x: f64| x.powi(25) - 1e-20).unwrap();
    assert_close(root, 1e-20f64.powf(1.0 / 25.0), 1e-12);
    // A jump counts as a root.
    assert_near(bracketed(-1.0, 5.0, |x| if x < 2.0 { -1.0 } else { 1e6 }).unwrap(), 2.0, 1e-12);
    assert_eq!(bracketed(1.0, 2.0, |x| x), None);
    assert_eq!(bracketed(-1.0, 2.0, |_| f64::NAN), None);
    assert_eq!(bracketed(0.0, 2.0, |x| x), Some(0.0));
}

/// x e^−x peaks at 1.
#[test]
fn peaks() {
    assert_near(highest(0.0, 9.0, |x| x * (-x).exp()), 1.0, 1e-6);
    assert_near(highest(2.0, 5.0, |x| -x), 2.0, 1e-6);
}

fn swing(_: f64, y: &[f64; 2]) -> [f64; 2] {
    [y[1], -y[0]]
}

fn tolerance(size: f64) -> Tolerance<2> {
    Tolerance { relative: size, absolute: [size; 2] }
}

/// Follows y″ = −y from (1, 0) to `end` and shows every step to `watch`.
fn follow(size: f64, end: f64, mut watch: impl FnMut(&Step<2>)) -> [f64; 2] {
    let mut solver = Solver::new(swing, 0.0, [1.0, 0.0], 0.1, tolerance(size));
    while solver.t < end {
        watch(&solver.step_to(swing, end).unwrap());
    }
    assert_eq!(solver.t, end);
    solver.y
}

/// [mem] y = cos t. The error falls with the tolerance, the step's number rises as its fifth root.
#[test]
fn harmonic_swing() {
    let mut last = (f64::INFINITY, 0);
    for size in [1e-4, 1e-6, 1e-8, 1e-10] {
        let mut steps = 0;
        let y = follow(size, 20.0, |_| steps += 1);
        let error = (y[0] - 20f64.cos()).hypot(y[1] + 20f64.sin());
        assert!(error < 200.0 * size, "{error} at {size}");
        assert!(error < last.0 && steps > last.1);
        last = (error, steps);
    }
    assert!(last.1 < 2000);
}

/// Between its ends a step's polynomial is as good as the tolerance asks, and meets both ends.
#[test]
fn dense_output() {
    let mut worst: f64 = 0.0;
    follow(1e-8, 10.0, |step| {
        for i in 0..=4 {
            let t = step.t0 + (step.t1 - step.t0) * f64::from(i) / 4.0;
            worst = worst.max((step.at(t)[0] - t.cos()).abs());
        }
        assert_near(step.at(step.t1)[1], step.y1[1], 1e-14);
    });
    assert!(worst < 1e-6, "{worst}");
}

/// cos t falls through 0 at π/2, found to a step's accuracy though the step is long.
#[test]
fn crossing() {
    let mut found = None;
    follow(1e-7, 3.0, |step| {
        found = found.or_else(|| step.crossing(swing, 0, 0.0));
    });
    let (t, y) = found.unwrap();
    assert_near(t, std::f64::consts::FRAC_PI_2, 1e-6);
    assert_near(y[0], 0.0, 1e-9);
    assert_near(y[1], -1.0, 1e-6);
}

/// A knot is met exactly, a step is never longer than asked, and what isn't finite ends in an error.
#[test]
fn knots_and_failures() {
    let mut solver = Solver::new(swing, 0.0, [1.0, 0.0], 5.0, tolerance(1e-6));
    for knot in [0.1, 0.100_000_000_1, 0.5, 2.0] {
        while solver.t < knot {
            let step = solver.step_to(swing, knot).unwrap();
            assert!(step.t1 <= knot);
        }
        assert_eq!(solver.t, knot);
    }
    let broken = |t: f64, _: &[f64; 2]| [if t > 1.0 { f64::NAN } else { 1.0 }, 0.0];
    let mut solver = Solver::new(broken, 0.0, [0.0, 0.0], 0.5, tolerance(1e-6));
    let failed = loop {
        match solver.step_to(broken, 3.0) {
            Ok(_) => {}
            Err(StepFailed(t)) => break t,
        }
    };
    assert_near(failed, 1.0, 1e-9);
}
