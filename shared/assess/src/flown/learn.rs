//! What all flights together say of the drag and of each motor's thrust.

use super::vary::{Cause, Expected, Varied};
use super::Case;
use finwright_physics::linear::solve;

/// Factors as all flights together show them.
#[derive(Clone, Debug, PartialEq)]
pub struct Learned {
    /// Of the drag.
    pub drag: Factor,
    /// Of each motor's thrust, by its number in the design.
    pub thrust: Vec<(usize, Factor)>,
    /// From how many flights.
    pub flights: usize,
}

/// A factor with its standard deviation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factor {
    /// The factor.
    pub value: f64,
    /// How far it may be off.
    pub sd: f64,
}

/// The factors that the flights show, beginning from 1 with the spread that is usual, whatever the file says of them: what
/// was concluded from these flights before mustn't count as another one.
///
/// Bayes' rule for normally distributed values, linear about the answer (Gauss and Newton's method, three rounds): with
/// the prior's precision P, each flight's slopes J, its residual r and the covariance S of its measurements together with
/// what mass and wind make of it, the factors are (P + Σ JᵀS⁻¹J)⁻¹ (P·1 + Σ JᵀS⁻¹(r + J·θ)), with that inverse for their
/// covariance. Every flight adds to it, so that they're known better with each. `None` without a flight that can be used.
pub(crate) fn learn(cases: &[Case]) -> Option<Learned> {
    let cases: Vec<&Case> = cases.iter().filter(|case| !case.is_staged).collect();
    let first = cases.first()?;
    let mut motors: Vec<usize> = cases.iter().map(|case| case.motor).collect();
    motors.sort_unstable();
    motors.dedup();
    let n = 1 + motors.len();
    let mut priors = vec![first.usual.drag];
    priors.extend(motors.iter().map(|motor| {
        let own = cases.iter().find(|case| case.motor == *motor);
        own.map_or(first.usual.thrust, |case| case.usual.thrust)
    }));
    let mut theta = vec![1.0; n];
    let mut covariance = Vec::new();
    for _ in 0..ROUNDS {
        let mut a = vec![0.0; n * n];
        let mut b = vec![0.0; n];
        for (i, sd) in priors.iter().enumerate() {
            let precision = 1.0 / (sd * sd);
            *a.get_mut(i * n + i)? += precision;
            *b.get_mut(i)? += precision;
        }
        for case in &cases {
            let own = 1 + motors.iter().position(|motor| *motor == case.motor)?;
            add(case, (0, own), &theta, (&mut a, &mut b))?;
        }
        theta = solve(a.clone(), b)?;
        let unit = |i: usize| (0..n).map(|j| if i == j { 1.0 } else { 0.0 }).collect::<Vec<f64>>();
        covariance = (0..n).map(|i| solve(a.clone(), unit(i))).collect::<Option<Vec<_>>>()?;
    }
    let factor = |i: usize| Some(Factor { value: *theta.get(i)?, sd: covariance.get(i)?.get(i)?.sqrt() });
    let thrust = motors.iter().enumerate().map(|(i, motor)| Some((*motor, factor(i + 1)?))).collect::<Option<_>>()?;
    Some(Learned { drag: factor(0)?, thrust, flights: cases.len() })
}

const ROUNDS: u32 = 3;

/// Adds a flight to the normal equations; its drag and thrust are these of the factors.
fn add(case: &Case, (drag, thrust): (usize, usize), theta: &[f64], (a, b): (&mut [f64], &mut [f64])) -> Option<()> {
    let n = theta.len();
    let at = Varied { drag: *theta.get(drag)?, thrust: *theta.get(thrust)?, ..case.now };
    let expected = case.expected(&at)?;
    let slopes: Vec<Expected> = Varied::ALL.iter().map(|cause| case.slope(&at, *cause)).collect::<Option<_>>()?;
    let slope = |cause: Cause, i: usize| {
        let which = Varied::ALL.iter().position(|other| *other == cause)?;
        Some(slopes.get(which)?.of(case.measured.get(i)?.quantity))
    };
    let m = case.measured.len();
    let mut s = vec![0.0; m * m];
    for i in 0..m {
        for j in 0..m {
            let shared = |cause: Cause| Some(slope(cause, i)? * slope(cause, j)? * case.sds.of(cause).powi(2));
            let own = if i == j { case.measured.get(i)?.sd.powi(2) } else { 0.0 };
            *s.get_mut(i * m + j)? = own + shared(Cause::Mass)? + shared(Cause::Wind)?;
        }
    }
    let columns = [(drag, Cause::Drag), (thrust, Cause::Thrust)];
    let of = |cause: Cause| (0..m).map(|i| slope(cause, i)).collect::<Option<Vec<f64>>>();
    let target: Vec<f64> = (0..m)
        .map(|i| {
            let measured = case.measured.get(i)?;
            let linear = slope(Cause::Drag, i)? * at.drag + slope(Cause::Thrust, i)? * at.thrust;
            Some(measured.measured - expected.of(measured.quantity) + linear)
        })
        .collect::<Option<_>>()?;
    for (row, cause) in columns {
        // S is symmetric, so that Jᵀ S⁻¹ is the transpose of S⁻¹ J.
        let weighted = solve(s.clone(), of(cause)?)?;
        let with = |values: &[f64]| weighted.iter().zip(values).map(|(w, v)| w * v).sum::<f64>();
        for (column, other) in columns {
            *a.get_mut(row * n + column)? += with(&of(other)?);
        }
        *b.get_mut(row)? += with(&target);
    }
    Some(())
}
