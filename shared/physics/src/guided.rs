//! The guided run: from ignition along the rod or rail until the last guide leaves it.

mod leg;

use leg::{Along, Leg, Taken};

use crate::air::G0;
use crate::motor::ThrustCurve;
use crate::roots::{bracketed, highest};

/// Everything that decides the run along the guide.
#[derive(Debug, Clone, Copy)]
pub struct GuidedRun<'a> {
    /// Thrust against time from ignition.
    pub curve: &'a ThrustCurve,
    /// Lift-off mass in kg with all propellant, positive.
    pub mass: f64,
    /// Propellant in kg, less than the mass; burnt in proportion to the impulse given.
    pub propellant: f64,
    /// Tilt of the guide from the vertical in rad, 0 to below π/2.
    pub tilt: f64,
    /// Friction coefficient of the guides, 0 or more.
    pub friction: f64,
    /// Side force of the wind in N, 0 or more, added to the weight's side load m g sin(tilt).
    pub side_force: f64,
    /// What the air's side force grows by with the speed, N s/m, 0 or more: see [`side_slope`].
    pub side_slope: f64,
    /// k = ρ Cd A / 2 in kg/m: drag is k v².
    pub drag: f64,
    /// Travel in m at which the front guide leaves, 0 or more.
    pub front_leaves: f64,
    /// Travel in m at which the last guide leaves, at least `front_leaves`.
    pub last_leaves: f64,
}

/// How the run ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GuidedOutcome {
    /// The rocket leaves the guide.
    Leaves {
        /// When thrust first exceeds what holds the rocket, in s from ignition.
        lift_off: f64,
        /// The moment the front guide leaves.
        front: Passage,
        /// The moment the last guide leaves.
        last: Passage,
    },
    /// It never does, and why.
    Stays(StayReason),
}

/// The moment a guide leaves the rod or rail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passage {
    /// Time in s from ignition.
    pub time: f64,
    /// Travel along the guide in m.
    pub travel: f64,
    /// Speed in m/s.
    pub speed: f64,
    /// Acceleration along the guide in m/s².
    pub acceleration: f64,
    /// Mass in kg.
    pub mass: f64,
    /// Thrust in N.
    pub thrust: f64,
}

/// Why a rocket stays on its guide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StayReason {
    /// Thrust never exceeds weight along the guide and friction.
    TooHeavy {
        /// Greatest thrust in N.
        peak: f64,
        /// What holds the rocket at that moment in N.
        holds: f64,
    },
    /// It moves, stops before the end and falls back.
    FallsBack {
        /// How far it got in m.
        travel: f64,
        /// When it stopped, in s from ignition.
        time: f64,
    },
    /// The given numbers allow no run: a mass that isn't above the propellant, a negative friction,
    /// drag or side force, a tilt outside 0..π/2, guides that leave in the wrong order, or forces that
    /// change too fast to follow.
    BadNumbers,
}

/// What the force of the air across the guide grows by with the speed along it, N s/m: ρ A CNα w/2, from the normal
/// force ρ v²/2 · A · CNα · α at the small angle α = w/v of a wind of w m/s.
pub fn side_slope(density: f64, reference_area: f64, cna: f64, wind: f64) -> f64 {
    0.5 * density * reference_area * cna * wind
}

impl GuidedRun<'_> {
    /// Runs it. Steps end on every point of the thrust curve, so that neither a spike nor a long
    /// wait before the thrust comes is stepped over.
    pub fn run(&self) -> GuidedOutcome {
        self.run_past(|_| {})
    }

    /// Runs it, and tells the greatest acceleration in m/s² until the last guide leaves; `None` where the rocket never
    /// moves.
    pub fn run_and_push(&self) -> (GuidedOutcome, Option<f64>) {
        let mut greatest = 0.0_f64;
        let outcome = self.run_past(|taken| greatest = greatest.max(taken.greatest_acceleration()));
        // A rocket that stops on the way was accelerated all the same.
        let moves =
            matches!(outcome, GuidedOutcome::Leaves { .. } | GuidedOutcome::Stays(StayReason::FallsBack { .. }));
        (outcome, moves.then_some(greatest))
    }

    /// Runs it and shows every step to `see`, the last one up to where the last guide leaves or the rocket stops.
    fn run_past(&self, mut see: impl FnMut(&Taken)) -> GuidedOutcome {
        if !self.is_sound() {
            return GuidedOutcome::Stays(StayReason::BadNumbers);
        }
        let Some(lift_off) = self.lift_off() else {
            return GuidedOutcome::Stays(self.too_heavy());
        };
        let mut front = None;
        let end = self.follow(lift_off, |taken| {
            front = front.or_else(|| taken.passes_travel(self.front_leaves));
            let last = taken.passes_travel(self.last_leaves);
            if let Some(last) = &last {
                taken.cut(last.time);
            }
            see(taken);
            last
        });
        match (end, front) {
            (Ok(last), Some(front)) => GuidedOutcome::Leaves { lift_off, front, last },
            (Err(reason), _) => GuidedOutcome::Stays(reason),
            (Ok(_), None) => GuidedOutcome::Stays(StayReason::BadNumbers),
        }
    }

    /// The travel in m at which the rocket first reaches `speed` m/s on an endless guide; `None`
    /// where it never does.
    pub fn travel_for_speed(&self, speed: f64) -> Option<f64> {
        if !self.is_sound() || speed.is_nan() || speed <= 0.0 {
            return None;
        }
        let passes = |taken: &mut Taken| {
            taken.rise();
            taken.passes_speed(speed)
        };
        self.follow(self.lift_off()?, passes).ok().map(|passage| passage.travel)
    }

    /// The greatest lift-off mass in kg, propellant unchanged, that still has `speed` m/s when it
    /// has travelled `travel` m; `None` where none does.
    pub fn mass_for_speed(&self, speed: f64, travel: f64) -> Option<f64> {
        let excess = |dry: f64| {
            let mass = self.propellant + dry;
            let run = GuidedRun { mass, front_leaves: travel, last_leaves: travel, ..*self };
            match run.run() {
                GuidedOutcome::Leaves { last, .. } => last.speed - speed,
                GuidedOutcome::Stays(_) => -speed,
            }
        };
        if !self.is_sound() || speed.is_nan() || speed <= 0.0 {
            return None;
        }
        // Even without drag and gravity the impulse bounds the dry mass: m v <= J.
        let mut heavy = 1.001 * self.curve.total_impulse() / speed;
        let mut below = excess(heavy);
        let mut heavier = heavy;
        // From there down in strides: a rocket light enough may be slower again, stopped by its
        // drag, so the least mass is no end to start from. Where the speed peaks between strides
        // the peak itself is looked at.
        while heavy > LEAST_MASS {
            let light = 0.9 * heavy;
            let now = excess(light);
            if now >= 0.0 {
                return bracketed(light, heavy, excess).map(|dry| self.propellant + dry);
            }
            if now < below {
                let best = highest(light, heavier, excess);
                if excess(best) >= 0.0 {
                    return bracketed(best, heavier, excess).map(|dry| self.propellant + dry);
                }
            }
            heavier = heavy;
            heavy = light;
            below = now;
        }
        None
    }

    /// The greatest tilt in rad up to which every tilt from the vertical on gives `speed` m/s after `travel` m; `most`
    /// where all up to there do, `None` where the vertical doesn't. Friction takes speed as a guide leans; further
    /// over, less weight along it gives some back, so what lies beyond the first loss isn't looked for.
    pub fn tilt_for_speed(&self, speed: f64, travel: f64, most: f64) -> Option<f64> {
        let excess = |tilt: f64| self.excess(speed, travel, GuidedRun { tilt, ..*self });
        if excess(0.0) < 0.0 {
            return None;
        }
        let mut sound = 0.0;
        for stride in 1..=TILT_STRIDES {
            let next = most * f64::from(stride) / f64::from(TILT_STRIDES);
            if excess(next) < 0.0 {
                return bracketed(sound, next, excess);
            }
            sound = next;
        }
        Some(most)
    }

    /// The greatest side force in N that still leaves `speed` m/s after `travel` m; `None` where none is too great, for
    /// want of friction, or where even no force at all is.
    pub fn side_force_for_speed(&self, speed: f64, travel: f64) -> Option<f64> {
        let excess = |side_force: f64| self.excess(speed, travel, GuidedRun { side_force, ..*self });
        if self.friction <= 0.0 || excess(0.0) < 0.0 {
            return None;
        }
        // Friction of this force alone holds the greatest thrust.
        let enough = self.curve.peak().1 / self.friction;
        bracketed(0.0, enough, excess)
    }

    /// How much faster than `speed` a run is after `travel` m.
    fn excess(&self, speed: f64, travel: f64, run: GuidedRun) -> f64 {
        match (GuidedRun { front_leaves: travel, last_leaves: travel, ..run }).run() {
            GuidedOutcome::Leaves { last, .. } => last.speed - speed,
            GuidedOutcome::Stays(_) => -speed,
        }
    }

    /// When thrust first exceeds what holds the rocket, in s from ignition.
    pub fn lift_off(&self) -> Option<f64> {
        let points = self.curve.points();
        let per_impulse = self.propellant / self.curve.total_impulse();
        let (along, fixed) = self.weight_shares();
        for pair in points.windows(2) {
            let ((t0, f0), (t1, f1)) = (pair[0], pair[1]);
            let excess = f0 - (self.mass_at(t0) * along + fixed);
            if excess > 0.0 {
                return Some(t0);
            }
            // Thrust is linear and the burnt mass quadratic in time: excess + b τ + a τ² = 0.
            let rise = (f1 - f0) / (t1 - t0);
            let lighter = per_impulse * along;
            let (a, b) = (0.5 * lighter * rise, rise + lighter * f0);
            if let Some(tau) = first_rise(a, b, excess) {
                if tau < t1 - t0 {
                    return Some(t0 + tau);
                }
            }
        }
        None
    }

    fn is_sound(&self) -> bool {
        let numbers = [
            self.mass,
            self.propellant,
            self.tilt,
            self.friction,
            self.side_force,
            self.side_slope,
            self.drag,
            self.front_leaves,
            self.last_leaves,
        ];
        numbers.iter().all(|n| n.is_finite() && *n >= 0.0)
            && self.mass > self.propellant
            && self.tilt < std::f64::consts::FRAC_PI_2
            && self.front_leaves <= self.last_leaves
    }

    fn too_heavy(&self) -> StayReason {
        let (time, peak) = self.curve.peak();
        StayReason::TooHeavy { peak, holds: self.holds(self.mass_at(time)) }
    }

    fn mass_at(&self, time: f64) -> f64 {
        self.mass - self.propellant * self.curve.burnt_share(time)
    }

    /// Force in N per kg and force in N that holds the rocket back while it moves up.
    fn weight_shares(&self) -> (f64, f64) {
        let (sin, cos) = self.tilt.sin_cos();
        (G0 * (cos + self.friction * sin), self.friction * self.side_force)
    }

    fn holds(&self, mass: f64) -> f64 {
        let (along, fixed) = self.weight_shares();
        mass * along + fixed
    }

    /// Follows it from lift-off until `done` gives a value, or the rocket stops.
    fn follow<T>(&self, lift_off: f64, mut done: impl FnMut(&mut Taken) -> Option<T>) -> Result<T, StayReason> {
        let points = self.curve.points();
        let first = points.partition_point(|point| point.0 <= lift_off);
        let shares = self.weight_shares();
        let mut at = Along { time: lift_off, travel: 0.0, speed: 0.0 };
        for i in first..=points.len() {
            // Past the last point the motor is out and the rocket coasts on.
            let end = points.get(i).map_or(f64::INFINITY, |point| point.0);
            let leg = self.leg(shares, at.time);
            let mut steps = 0;
            while at.time < end {
                let mut taken = Taken::from(&leg, at, end.min(at.time + LONGEST_STEP)).ok_or(StayReason::BadNumbers)?;
                steps += 1;
                if steps > MOST_STEPS {
                    return Err(StayReason::BadNumbers);
                }
                at = taken.end;
                if let Some(stop) = taken.stop() {
                    // A guide may still leave between the step's start and the stop.
                    taken.cut(stop);
                    let travel = taken.end.travel;
                    return done(&mut taken).ok_or(StayReason::FallsBack { travel, time: stop });
                }
                if let Some(value) = done(&mut taken) {
                    return Ok(value);
                }
            }
        }
        Err(StayReason::BadNumbers)
    }

    /// The forces from `time` s to the next point of the curve; `along` and `fixed` are the weight's shares.
    fn leg(&self, (along, fixed): (f64, f64), time: f64) -> Leg {
        let piece = self.curve.piece_at(time);
        let burnt = piece.as_ref().map_or_else(|| self.curve.burnt_share(time), |piece| piece.burnt);
        Leg {
            start: time,
            thrust: piece.as_ref().map_or(0.0, |piece| piece.thrust),
            rise: piece.as_ref().map_or(0.0, |piece| piece.rise),
            mass: self.mass - self.propellant * burnt,
            per_impulse: self.propellant / self.curve.total_impulse(),
            along,
            fixed,
            linear: self.friction * self.side_slope,
            drag: self.drag,
        }
    }
}

/// The travel in m from rest to the moment a guide leaves the end of a rod or rail.
///
/// `guide_length` is the whole length of the rod or rail, `rest_height` how high above its foot
/// the rocket's aft end rests, and `guide_above_aft` how far the guide's aft edge (lug or button)
/// lies ahead of the aft end, all in m. Negative where the guide starts beyond the end.
pub fn travel(guide_length: f64, rest_height: f64, guide_above_aft: f64) -> f64 {
    guide_length - rest_height - guide_above_aft
}

/// Steps in which the tilt is looked through before it's narrowed down.
const TILT_STRIDES: u32 = 30;
const LONGEST_STEP: f64 = 1.0;
/// Lighter rockets than this, in kg without propellant, aren't looked for.
const LEAST_MASS: f64 = 1e-6;
/// Between two points of the curve; a sound run takes a few.
const MOST_STEPS: u32 = 10_000;

/// The least τ >= 0 at which c + b τ + a τ² rises through 0, for c <= 0.
fn first_rise(a: f64, b: f64, c: f64) -> Option<f64> {
    if a == 0.0 {
        return (b > 0.0).then(|| -c / b);
    }
    let discriminant = b * b - 4.0 * a * c;
    if discriminant < 0.0 {
        return None;
    }
    // With c <= 0 the rising root is (−b + √D) / 2a for either sign of a, in the form that doesn't
    // cancel.
    let root = discriminant.sqrt();
    let tau = if b > 0.0 { -2.0 * c / (b + root) } else { (root - b) / (2.0 * a) };
    (tau >= 0.0).then_some(tau)
}
