//! Ordinary differential equations: the Dormand–Prince 5(4) pair with dense output.

use crate::roots::bracketed_within;

/// How exact each step must be: |error| <= absolute + relative·|y|, root mean square over y.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerance<const N: usize> {
    /// Relative part, positive.
    pub relative: f64,
    /// Absolute part, each in the units of its component, positive.
    pub absolute: [f64; N],
}

/// An integration under way: y' = f(t, y).
///
/// The caller asks for one step at a time, each ending no later than a given knot. At a knot where
/// f jumps or bends, call [`Solver::restart`] and go on.
#[derive(Debug, Clone, Copy)]
pub struct Solver<const N: usize> {
    /// Time reached.
    pub t: f64,
    /// State there.
    pub y: [f64; N],
    slope: [f64; N],
    step: f64,
    /// The error of the step before, as a share of the tolerance.
    before: f64,
    tolerance: Tolerance<N>,
}

/// A step that was taken, with the polynomial through it.
#[derive(Debug, Clone, Copy)]
pub struct Step<const N: usize> {
    /// Time at its start.
    pub t0: f64,
    /// Time at its end.
    pub t1: f64,
    /// State at its start.
    pub y0: [f64; N],
    /// State at its end.
    pub y1: [f64; N],
    /// Length of the step the polynomial belongs to; [`Step::until`] leaves it as it was.
    h: f64,
    end: [f64; N],
    k: [[f64; N]; 6],
}

/// The step had to shrink to nothing: f isn't finite or jumps where no knot was given. The time
/// reached.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StepFailed(pub f64);

impl<const N: usize> Solver<N> {
    /// Starts at time `t` and state `y`; `step` is a first guess of the step's length.
    pub fn new(
        f: impl Fn(f64, &[f64; N]) -> [f64; N],
        t: f64,
        y: [f64; N],
        step: f64,
        tolerance: Tolerance<N>,
    ) -> Self {
        Self { t, y, slope: f(t, &y), step, before: LEAST_ERROR, tolerance }
    }

    /// Looks at f anew: after a knot, or after the caller changed `t` or `y`.
    pub fn restart(&mut self, f: impl Fn(f64, &[f64; N]) -> [f64; N]) {
        self.slope = f(self.t, &self.y);
    }

    /// Takes one step that ends at `end` or before it.
    ///
    /// Source: Dormand & Prince, J. Comp. Appl. Math. 6 (1980); dense output by Hairer, Nørsett &
    /// Wanner, Solving Ordinary Differential Equations I, II.6 (both from memory).
    pub fn step_to(&mut self, f: impl Fn(f64, &[f64; N]) -> [f64; N], end: f64) -> Result<Step<N>, StepFailed> {
        let mut step = Step::NONE;
        self.step_into(f, end, &mut step)?;
        Ok(step)
    }

    /// The same into a `step` that the caller keeps: a step is long, and to move it about costs as much as an
    /// evaluation.
    #[inline]
    pub fn step_into(
        &mut self,
        f: impl Fn(f64, &[f64; N]) -> [f64; N],
        end: f64,
        step: &mut Step<N>,
    ) -> Result<(), StepFailed> {
        let mut rejected = false;
        loop {
            let left = end - self.t;
            // A step that would leave a sliver before the knot is stretched to reach it.
            let last = self.step * 1.05 >= left;
            let h = if last { left } else { self.step };
            let least = 4.0 * f64::EPSILON * self.t.abs().max(f64::MIN_POSITIVE);
            if h.is_nan() || h <= least {
                if last && left >= 0.0 {
                    self.stand_still(end, step);
                    return Ok(());
                }
                return Err(StepFailed(self.t));
            }
            step.take(&f, self.t, &self.y, &self.slope, h);
            let error = step.error(&self.tolerance);
            if error <= 1.0 {
                if last {
                    step.t1 = end;
                }
                let growth = self.growth(error).clamp(0.2, if rejected { 1.0 } else { 5.0 });
                // A step cut short by the knot says nothing against the longer one in hand.
                let next = h * growth;
                self.step = if last { next.max(self.step) } else { next };
                self.slope = step.k[LAST];
                self.t = step.t1;
                self.y = step.y1;
                return Ok(());
            }
            // A NaN error fails the comparison above and shrinks the step most. Where a shorter step fails too f bends
            // sharply, and the error falls much more slowly than the formula expects.
            let most = if rejected { 0.4 } else { 0.9 };
            rejected = true;
            self.step = h * (0.9 * exp2_about(-0.2 * log2_about(error))).clamp(0.1, most);
            if !error.is_finite() {
                self.step = 0.1 * h;
            }
        }
    }

    /// Back to where a step began that was just taken.
    pub fn back(&mut self, step: &Step<N>) {
        (self.t, self.y, self.slope, self.step) = (step.t0, step.y0, step.k[0], step.h);
    }

    /// By how much the next step may be longer. The step before has a say, so that lengths don't swing about where
    /// stability bounds them: proportional and integral control, after Hairer & Wanner, Solving Ordinary Differential
    /// Equations II, IV.2, with the constants of their code (from memory).
    fn growth(&mut self, error: f64) -> f64 {
        let growth = 0.9 * exp2_about(0.04 * log2_about(self.before) - 0.2 * log2_about(error));
        self.before = error.max(LEAST_ERROR);
        growth
    }

    /// The length that the next step is going to have.
    pub fn length(&self) -> f64 {
        self.step
    }

    /// The empty step between two knots closer than the clock can tell apart.
    fn stand_still(&mut self, end: f64, step: &mut Step<N>) {
        *step = Step { t0: self.t, t1: end, y0: self.y, y1: self.y, end: self.y, ..Step::NONE };
        self.t = end;
    }
}

impl<const N: usize> Step<N> {
    /// No step yet.
    pub const NONE: Self =
        Self { t0: 0.0, t1: 0.0, y0: [0.0; N], y1: [0.0; N], h: 0.0, end: [0.0; N], k: [[0.0; N]; 6] };

    /// The state at `t` within the step, to fourth order.
    pub fn at(&self, t: f64) -> [f64; N] {
        let u = if self.h > 0.0 { (t - self.t0) / self.h } else { 1.0 };
        let v = 1.0 - u;
        let last = weighted(&D, &self.k);
        let mut y = [0.0; N];
        for i in 0..N {
            let rise = self.end[i] - self.y0[i];
            let bend = self.h * self.k[0][i] - rise;
            let third = rise - self.h * self.k[LAST][i] - bend;
            y[i] = self.y0[i] + u * (rise + v * (bend + u * (third + v * self.h * last[i])));
        }
        y
    }

    /// The slope of [`Step::at`] at `t` within the step.
    pub fn slope_at(&self, t: f64) -> [f64; N] {
        if self.h <= 0.0 {
            return self.k[LAST];
        }
        let u = (t - self.t0) / self.h;
        let v = 1.0 - u;
        let last = weighted(&D, &self.k);
        let mut slope = [0.0; N];
        for i in 0..N {
            let rise = self.end[i] - self.y0[i];
            let bend = self.h * self.k[0][i] - rise;
            let fourth = self.h * last[i];
            let third = rise - self.h * self.k[LAST][i] - bend;
            let inner = bend + u * (third + v * fourth);
            slope[i] = (rise + (v - u) * inner + u * v * (third + (v - u) * fourth)) / self.h;
        }
        slope
    }

    /// The slopes at the step's start and end.
    pub fn slopes(&self) -> (&[f64; N], &[f64; N]) {
        (&self.k[0], &self.k[LAST])
    }

    /// The same step ended at `t` within it.
    pub fn until(&self, t: f64) -> Self {
        Self { t1: t, y1: self.at(t), ..*self }
    }

    /// The time within the step at which `event` of time and state changes sign, if its values at
    /// the step's ends do; to the accuracy of [`Step::at`], which is coarser than [`ROOT`].
    pub fn root(&self, event: impl Fn(f64, &[f64; N]) -> f64) -> Option<f64> {
        self.root_within(ROOT, event)
    }

    /// The same to a `share` of the step, for what needs fewer digits.
    pub fn root_within(&self, share: f64, event: impl Fn(f64, &[f64; N]) -> f64) -> Option<f64> {
        bracketed_within(share * (self.t1 - self.t0), self.t0, self.t1, |t| event(t, &self.at(t)))
    }

    /// Time and state at which one `component` of y passes `value`, if it does between the step's
    /// ends. The time is found on the polynomial; the step is then taken again up to it, so that
    /// the state is as exact as a step's end.
    pub fn crossing(
        &self,
        f: impl Fn(f64, &[f64; N]) -> [f64; N],
        component: usize,
        value: f64,
    ) -> Option<(f64, [f64; N])> {
        let t = self.root(|_, y| y[component] - value)?;
        let mut again = Self::NONE;
        again.take(&f, self.t0, &self.y0, &self.k[0], t - self.t0);
        let (mut y, slope) = (again.y1, again.k[LAST]);
        // What the polynomial was off by is made good along the slope.
        let late = (value - y[component]) / slope[component];
        let late = if late.is_finite() { late.clamp(self.t0 - t, self.t1 - t) } else { 0.0 };
        for (y, slope) in y.iter_mut().zip(slope) {
            *y += late * slope;
        }
        Some((t + late, y))
    }
}

/// The binary logarithm to a twentieth, straight between powers of two: a step's length needs no digits.
#[inline]
fn log2_about(x: f64) -> f64 {
    x.to_bits() as f64 * (-52_f64).exp2() - 1022.957
}

/// Two to the power of `x`, to a thirtieth.
#[inline]
fn exp2_about(x: f64) -> f64 {
    f64::from_bits(((x.clamp(-1000.0, 1000.0) + 1022.957) * 52_f64.exp2()) as u64)
}

impl<const N: usize> Step<N> {
    /// One evaluation of the pair: the new state and all slopes.
    #[inline]
    fn take(&mut self, f: &impl Fn(f64, &[f64; N]) -> [f64; N], t: f64, y: &[f64; N], slope: &[f64; N], h: f64) {
        // Written out stage by stage, so that every sum has a length known beforehand.
        let k0 = slope;
        let k1 = &f(t + C[0] * h, &ahead(y, h, [k0], A1));
        let k2 = &f(t + C[1] * h, &ahead(y, h, [k0, k1], A2));
        let k3 = &f(t + C[2] * h, &ahead(y, h, [k0, k1, k2], A3));
        let k4 = &f(t + C[3] * h, &ahead(y, h, [k0, k1, k2, k3], A4));
        let k5 = &f(t + h, &ahead(y, h, [k0, k1, k2, k3, k4], A5));
        // The last stage is taken at the new state itself.
        let y1 = ahead(y, h, [k0, k2, k3, k4, k5], B);
        (self.t0, self.t1, self.h, self.y0, self.y1, self.end) = (t, t + h, h, *y, y1, y1);
        self.k[..LAST].copy_from_slice(&[*k0, *k2, *k3, *k4, *k5]);
        self.k[LAST] = f(t + h, &y1);
    }

    fn error(&self, tolerance: &Tolerance<N>) -> f64 {
        let error = weighted(&E, &self.k);
        let mut sum = 0.0;
        for (i, error) in error.iter().enumerate() {
            let scale = tolerance.absolute[i] + tolerance.relative * self.y0[i].abs().max(self.y1[i].abs());
            let e = self.h * error / scale;
            sum += e * e;
        }
        (sum * (1.0 / N as f64)).sqrt()
    }
}

/// y + h Σ w_j k_j.
#[inline(always)]
fn ahead<const N: usize, const S: usize>(y: &[f64; N], h: f64, k: [&[f64; N]; S], weights: [f64; S]) -> [f64; N] {
    let mut at = *y;
    for i in 0..N {
        let mut sum = 0.0;
        for j in 0..S {
            sum += weights[j] * k[j][i];
        }
        at[i] += h * sum;
    }
    at
}

/// Σ w_j k_j over all slopes.
#[inline(always)]
fn weighted<const N: usize>(weights: &[f64; 6], k: &[[f64; N]; 6]) -> [f64; N] {
    let mut sum = [0.0; N];
    for i in 0..N {
        for j in 0..6 {
            sum[i] += weights[j] * k[j][i];
        }
    }
    sum
}

/// How near a root is sought, as a share of the step.
const ROOT: f64 = 1e-7;

const LEAST_ERROR: f64 = 0.1;

/// Index of the slope at a step's end among those kept.
const LAST: usize = 5;

const C: [f64; 4] = [0.2, 0.3, 0.8, 8.0 / 9.0];
const A1: [f64; 1] = [0.2];
const A2: [f64; 2] = [3.0 / 40.0, 9.0 / 40.0];
const A3: [f64; 3] = [44.0 / 45.0, -56.0 / 15.0, 32.0 / 9.0];
const A4: [f64; 4] = [19372.0 / 6561.0, -25360.0 / 2187.0, 64448.0 / 6561.0, -212.0 / 729.0];
const A5: [f64; 5] = [9017.0 / 3168.0, -355.0 / 33.0, 46732.0 / 5247.0, 49.0 / 176.0, -5103.0 / 18656.0];
/// Fifth-order weights; the second stage has none, here and below.
const B: [f64; 5] = [35.0 / 384.0, 500.0 / 1113.0, 125.0 / 192.0, -2187.0 / 6784.0, 11.0 / 84.0];
/// Fifth-order weights minus fourth-order weights.
const E: [f64; 6] = [71.0 / 57600.0, -71.0 / 16695.0, 71.0 / 1920.0, -17253.0 / 339200.0, 22.0 / 525.0, -1.0 / 40.0];
/// Weights of the dense output's fourth term.
const D: [f64; 6] = [
    -12715105075.0 / 11282082432.0,
    87487479700.0 / 32700410799.0,
    -10690763975.0 / 1880347072.0,
    701980252875.0 / 199316789632.0,
    -1453857185.0 / 822651844.0,
    69997945.0 / 29380423.0,
];
