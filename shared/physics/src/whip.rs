//! The rod or rail swinging in a gust: its first mode as a damped oscillator that the gust drives.

use std::f64::consts::PI;

/// What a gust makes of a bend, beside the bend of the same wind if it blew for ever.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Whip {
    /// The greatest bend over the steady one.
    pub amplification: f64,
    /// The greatest rate of that bend over the steady bend, 1/s.
    pub rate: f64,
    /// How long the gust lasts that does it, s.
    pub duration: f64,
}

/// Damping of a welded or clamped metal rod as a share of the critical (from memory: 0.005 to 0.02). What the air takes
/// besides is left out.
pub const DAMPING: f64 = 0.01;

/// How a mode of `frequency` in Hz and `damping` as a share of the critical answers the worst gust that comes and goes as
/// (1 − cos(2πt/T))/2 and lasts from `shortest` to `longest` s.
///
/// x″ + 2ζω x′ + ω² x = ω² f(t) from rest, by steps that are exact where f is straight between them; the worst of forty
/// lengths, evenly spaced by their logarithm. An oscillator of next to no damping in a gust as long as its period comes
/// to 1.7 times the steady bend.
pub fn whip(frequency: f64, damping: f64, (shortest, longest): (f64, f64)) -> Option<Whip> {
    let is_sound = frequency > 0.0 && frequency.is_finite() && (0.0..1.0).contains(&damping) && shortest > 0.0;
    if !is_sound || longest < shortest {
        return None;
    }
    let of = |step: u32| {
        let share = f64::from(step) / f64::from(LENGTHS);
        answer(frequency, damping, shortest * (longest / shortest).powf(share))
    };
    (0..=LENGTHS).map(of).max_by(|a, b| a.amplification.total_cmp(&b.amplification))
}

const LENGTHS: u32 = 40;
/// Steps in a period of the oscillator and in a gust, whichever is shorter.
const STEPS: f64 = 60.0;
/// A stiff rod follows a slow gust; more steps than this would show nothing.
const MOST_STEPS: f64 = 4000.0;

fn answer(frequency: f64, damping: f64, duration: f64) -> Whip {
    let period = 1.0 / frequency;
    // The greatest bend comes within a period after the gust.
    let whole = duration + period;
    let steps = (STEPS * whole / period.min(duration)).ceil().min(MOST_STEPS);
    let step = whole / steps;
    let force = |time: f64| if time < duration { 0.5 * (1.0 - (2.0 * PI * time / duration).cos()) } else { 0.0 };
    let mode = Mode::new(2.0 * PI * frequency, damping, step);
    let (mut x, mut v) = (0.0, 0.0);
    let mut found = Whip { amplification: 0.0, rate: 0.0, duration };
    for i in 0..steps as u32 {
        let time = step * f64::from(i);
        (x, v) = mode.step((x, v), force(time), force(time + step));
        found.amplification = found.amplification.max(x);
        found.rate = found.rate.max(v.abs());
    }
    found
}

/// A step of an oscillator, exact for a force that changes evenly (the recurrence of Nigam and Jennings, 1969, from
/// memory; derived again here).
struct Mode {
    omega: f64,
    damping: f64,
    step: f64,
    decay: f64,
    sin: f64,
    cos: f64,
    damped: f64,
}

impl Mode {
    fn new(omega: f64, damping: f64, step: f64) -> Mode {
        let damped = omega * (1.0 - damping * damping).sqrt();
        let (sin, cos) = (damped * step).sin_cos();
        Mode { omega, damping, step, decay: (-damping * omega * step).exp(), sin, cos, damped }
    }

    fn step(&self, (x, v): (f64, f64), from: f64, to: f64) -> (f64, f64) {
        // A force f0 + k t has the particular solution f0 + k t − 2ζk/ω.
        let k = (to - from) / self.step;
        let lag = 2.0 * self.damping * k / self.omega;
        let (a, b) = (x - (from - lag), v - k);
        let rate = self.damping * self.omega;
        let c = (b + rate * a) / self.damped;
        let free = self.decay * (a * self.cos + c * self.sin);
        let free_rate =
            self.decay * ((c * self.damped - rate * a) * self.cos - (a * self.damped + rate * c) * self.sin);
        (free + to - lag, free_rate + k)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// The undamped oscillator in one such pulse, in closed form: within it x = (1 − (r² − cos ωt·… ))/2.
    #[test]
    fn without_damping_as_the_closed_form() {
        for ratio in [0.6_f64, 1.3, 2.5, 6.0] {
            // With the pulse's frequency p and the oscillator's ω = 1: x = ½(1 − cos t) − ½ (cos pt − cos t)/(1 − p²).
            let duration = ratio * 2.0 * PI;
            let p = 1.0 / ratio;
            let within = |t: f64| 0.5 * (1.0 - t.cos()) - 0.5 * ((p * t).cos() - t.cos()) / (1.0 - p * p);
            let rate = |t: f64| 0.5 * t.sin() - 0.5 * (t.sin() - p * (p * t).sin()) / (1.0 - p * p);
            let (end, end_rate) = (within(duration), rate(duration));
            let inside = (0..=20_000).map(|i| within(duration * f64::from(i) / 20_000.0)).fold(0.0, f64::max);
            let expected = inside.max(end.hypot(end_rate));
            let found = answer(1.0 / (2.0 * PI), 0.0, duration).amplification;
            assert!((found / expected - 1.0).abs() < 2e-3, "{ratio}: {found} for {expected}");
        }
    }

    #[test]
    fn a_stiff_rod_follows_and_a_slow_one_is_driven() {
        let stiff = whip(30.0, DAMPING, (0.5, 3.0)).unwrap();
        assert!((1.0..1.02).contains(&stiff.amplification), "{stiff:?}");
        let slow = whip(1.0, DAMPING, (0.5, 3.0)).unwrap();
        assert!((1.6..1.72).contains(&slow.amplification), "{slow:?}");
        assert!(whip(0.0, DAMPING, (0.5, 3.0)).is_none());
    }
}
