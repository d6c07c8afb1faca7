//! Ordinary differential equations: the Tsitouras 5(4) pair with dense output.

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
    k: [[f64; N]; STAGES],
    /// The slope at its end.
    slope1: [f64; N],
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
    /// Source: Tsitouras, Computers & Mathematics with Applications 62 (2011), 770–775 (from memory; the tests hold its
    /// coefficients to the conditions of order).
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
                self.slope = step.slope1;
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

    /// Back to a time within a step that was just taken, on its curve; for where f changes, so that to take it again
    /// would be for nothing. Where f goes on as it was [`Solver::restart`] makes the slope exact.
    pub fn cut(&mut self, step: &mut Step<N>, t: f64) {
        *step = step.until(t);
        (self.t, self.y, self.slope) = (t, step.y1, step.slope1);
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
        *step = Step { t0: self.t, t1: end, y0: self.y, y1: self.y, ..Step::NONE };
        self.t = end;
    }
}

impl<const N: usize> Step<N> {
    /// No step yet.
    pub const NONE: Self =
        Self { t0: 0.0, t1: 0.0, y0: [0.0; N], y1: [0.0; N], h: 0.0, k: [[0.0; N]; STAGES], slope1: [0.0; N] };

    /// The state at `t` within the step, to fourth order.
    pub fn at(&self, t: f64) -> [f64; N] {
        let u = if self.h > 0.0 { (t - self.t0) / self.h } else { 1.0 };
        let weights = DENSE.map(|[a, b, c, d]| self.h * u * ((a + u * b) + u * u * (c + u * d)));
        let rise = weighted(&weights, &self.k);
        let mut y = self.y0;
        for (y, rise) in y.iter_mut().zip(rise) {
            *y += rise;
        }
        y
    }

    /// The slope of [`Step::at`] at `t` within the step.
    pub fn slope_at(&self, t: f64) -> [f64; N] {
        if self.h <= 0.0 {
            return self.slope1;
        }
        let u = (t - self.t0) / self.h;
        let weights = DENSE.map(|[a, b, c, d]| (a + 2.0 * u * b) + u * u * (3.0 * c + 4.0 * u * d));
        weighted(&weights, &self.k)
    }

    /// The slopes at the step's start and end.
    pub fn slopes(&self) -> (&[f64; N], &[f64; N]) {
        (&self.k[0], &self.slope1)
    }

    /// The same step ended at `t` within it.
    pub fn until(&self, t: f64) -> Self {
        Self { t1: t, y1: self.at(t), slope1: self.slope_at(t), ..*self }
    }

    /// The time within the step at which `event` of time and state changes sign, if its values at
    /// the step's ends do; to the accuracy of [`Step::at`], which is coarser than [`ROOT`].
    pub fn root(&self, event: impl Fn(f64, &[f64; N]) -> f64) -> Option<f64> {
        self.root_within(ROOT, self.t1, event)
    }

    /// The same up to a time within the step, and to a `share` of that stretch, for what needs fewer digits.
    pub fn root_within(&self, share: f64, until: f64, event: impl Fn(f64, &[f64; N]) -> f64) -> Option<f64> {
        bracketed_within(share * (until - self.t0), self.t0, until, |t| event(t, &self.at(t)))
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
        let (mut y, slope) = (again.y1, again.slope1);
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
        let y1 = ahead(y, h, [k0, k1, k2, k3, k4, k5], B);
        (self.t0, self.t1, self.h, self.y0, self.y1) = (t, t + h, h, *y, y1);
        self.slope1 = f(t + h, &y1);
        self.k = [*k0, *k1, *k2, *k3, *k4, *k5, self.slope1];
    }

    fn error(&self, tolerance: &Tolerance<N>) -> f64 {
        let error = weighted(&ERROR, &self.k);
        let mut sum = 0.0;
        for (i, error) in error.iter().enumerate() {
            let scale = tolerance.absolute[i] + tolerance.relative * self.y0[i].abs().max(self.y1[i].abs());
            let e = self.h * error / scale;
            sum += e * e;
        }
        (sum * (1.0 / N as f64)).sqrt()
    }
}

/// y + h Σ w_j k_j. The last slope comes in last and by itself: all else is summed while it's still being worked out.
#[inline(always)]
fn ahead<const N: usize, const S: usize>(y: &[f64; N], h: f64, k: [&[f64; N]; S], weights: [f64; S]) -> [f64; N] {
    let mut at = *y;
    for i in 0..N {
        let mut sum = 0.0;
        for j in 0..S - 1 {
            sum += weights[j] * k[j][i];
        }
        at[i] = (at[i] + h * sum) + (h * weights[S - 1]) * k[S - 1][i];
    }
    at
}

/// Σ w_j k_j over all stages.
#[inline(always)]
fn weighted<const N: usize>(weights: &[f64; STAGES], k: &[[f64; N]; STAGES]) -> [f64; N] {
    let mut sum = [0.0; N];
    for i in 0..N {
        for j in 0..STAGES {
            sum[i] += weights[j] * k[j][i];
        }
    }
    sum
}

/// How near a root is sought, as a share of the step.
const ROOT: f64 = 1e-7;

const LEAST_ERROR: f64 = 0.1;

/// Those of a step, the slope at its end among them.
const STAGES: usize = 7;
const C: [f64; 4] = [0.161, 0.327, 0.9, 0.980_025_540_904_509_7];
const A1: [f64; 1] = [0.161];
const A2: [f64; 2] = [-0.008_480_655_492_356_989, 0.335_480_655_492_357];
const A3: [f64; 3] = [2.897_153_057_105_493_5, -6.359_448_489_975_075, 4.362_295_432_869_581_5];
const A4: [f64; 4] =
    [5.325_864_828_439_257, -11.748_883_564_062_828, 7.495_539_342_889_836_5, -0.092_495_066_361_755_25];
const A5: [f64; 5] = [
    5.861_455_442_946_42,
    -12.920_969_317_847_11,
    8.159_367_898_576_159,
    -0.071_584_973_281_401,
    -0.028_269_050_394_068_383,
];
/// Fifth-order weights.
const B: [f64; 6] = [
    0.096_460_766_818_065_23,
    0.01,
    0.479_889_650_414_499_6,
    1.379_008_574_103_742,
    -3.290_069_515_436_081,
    2.324_710_524_099_774,
];
/// Fifth-order weights less fourth-order ones.
const ERROR: [f64; STAGES] = [
    -0.001_780_011_052_225_777,
    -0.000_816_434_459_656_746_9,
    0.007_880_878_010_261_995,
    -0.144_711_007_173_262_9,
    0.582_357_165_452_555_2,
    -0.458_082_105_929_186_97,
    0.015_151_515_151_515_152,
];
/// Weights of the dense output by powers of the share of the step, from the first on.
const DENSE: [[f64; 4]; STAGES] = [
    [1.0, -2.763_706_197_274_826, 2.913_255_461_821_912_6, -1.053_088_497_729_021_6],
    [0.0, 0.1317, -0.2234, 0.1017],
    [0.0, 3.930_296_236_894_751_6, -5.941_033_872_131_505, 2.490_627_285_651_253],
    [0.0, -12.411_077_166_933_676, 30.338_188_630_282_32, -16.548_102_889_244_902],
    [0.0, 37.509_313_416_511_04, -88.178_904_894_766_4, 47.379_521_962_819_28],
    [0.0, -27.896_526_289_197_286, 65.091_894_674_793_66, -34.870_657_861_496_61],
    [0.0, 1.5, -4.0, 2.5],
];

#[cfg(test)]
mod tests {
    use super::*;

    /// The share of the step at which each stage is taken.
    const NODES: [f64; STAGES] = [0.0, C[0], C[1], C[2], C[3], 1.0, 1.0];

    /// A stage's own weights.
    fn stage(i: usize) -> [f64; STAGES] {
        let rows: [&[f64]; STAGES] = [&[], &A1, &A2, &A3, &A4, &A5, &B];
        let mut row = [0.0; STAGES];
        row[..rows[i].len()].copy_from_slice(rows[i]);
        row
    }

    fn sum(weights: [f64; STAGES], of: [f64; STAGES]) -> f64 {
        weights.iter().zip(of).map(|(weight, of)| weight * of).sum()
    }

    /// The trees up to the fifth order with a share of a step `u`, each with what it has to come to. Source: Butcher's
    /// conditions of order, Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I, II.2 (from memory).
    fn off(weights: [f64; STAGES], u: f64) -> [f64; 5] {
        let c = NODES;
        let square = c.map(|c| c * c);
        let through = |of: [f64; STAGES]| std::array::from_fn(|i| sum(stage(i), of));
        let times = |a: [f64; STAGES], b: [f64; STAGES]| -> [f64; STAGES] { std::array::from_fn(|i| a[i] * b[i]) };
        let worst = |trees: &[([f64; STAGES], f64)], order: i32| {
            let off = trees.iter().map(|(tree, density)| (sum(weights, *tree) - u.powi(order) / density).abs());
            off.fold(0.0, f64::max)
        };
        let (ac, ac2) = (through(c), through(square));
        let (aac, ac3, acac) = (through(ac), through(times(c, square)), through(times(c, ac)));
        let (aac2, aaac) = (through(ac2), through(aac));
        [
            worst(&[([1.0; STAGES], 1.0)], 1),
            worst(&[(c, 2.0)], 2),
            worst(&[(square, 3.0), (ac, 6.0)], 3),
            worst(&[(times(c, square), 4.0), (times(c, ac), 8.0), (ac2, 12.0), (aac, 24.0)], 4),
            worst(
                &[
                    (times(square, square), 5.0),
                    (times(square, ac), 10.0),
                    (times(c, ac2), 15.0),
                    (times(c, aac), 30.0),
                    (times(ac, ac), 20.0),
                    (ac3, 20.0),
                    (acac, 40.0),
                    (aac2, 60.0),
                    (aaac, 120.0),
                ],
                5,
            ),
        ]
    }

    #[test]
    fn coefficients_meet_the_conditions_of_order() {
        for (i, node) in NODES.iter().enumerate() {
            assert!((stage(i).iter().sum::<f64>() - node).abs() < 2e-15, "stage {i}");
        }
        let fifth = stage(LAST);
        let fourth = std::array::from_fn(|i| fifth[i] - ERROR[i]);
        assert!(off(fifth, 1.0).iter().all(|off| *off < 2e-15), "{:?}", off(fifth, 1.0));
        assert!(off(fourth, 1.0)[..4].iter().all(|off| *off < 2e-15), "{:?}", off(fourth, 1.0));
        assert!(off(fourth, 1.0)[4] > 1e-4, "no error to tell");
        for u in [0.1, 0.3, 0.5, 0.8, 1.0] {
            let dense = DENSE.map(|[a, b, c, d]| u * (a + u * (b + u * (c + u * d))));
            assert!(off(dense, u)[..4].iter().all(|off| *off < 1e-14), "{u}: {:?}", off(dense, u));
        }
    }

    /// The last stage is taken at the new state.
    const LAST: usize = STAGES - 1;
}
