//! The settled part of a descent under a canopy, by quadrature over the height.
//!
//! A canopy follows the air within a second; after that an explicit method still has to take steps as short as that
//! second to stay stable, all the way down. Once the fall has settled its velocity is a known function of the height,
//! and time and drift are two integrals. Derived here from Newton's law by expanding in ℓ = V²/g, the height over which
//! the fall settles, against the height itself; no published source.

use super::rocket::Falling;
use super::sky::Sky;
use crate::air::G0;
use crate::quadrature::integrate;

/// A body that falls and only drags.
pub(crate) struct Settled<'a> {
    pub mass: f64,
    pub drag_area: f64,
    pub sky: &'a Sky<'a>,
}

/// Where the settled part ends: its time in s and state.
pub(crate) struct Lower {
    pub time: f64,
    pub state: Falling,
}

/// How many ℓ above the ground it ends: nearer to it the wind changes too fast to be followed closely.
const END: f64 = 6.0;
/// In how many pieces, of equal height, whoever watches sees it.
const WATCHED: u32 = 32;
/// How far the velocity may be off the settled one, as a share of the fall's.
const CLOSE: f64 = 1e-2;

/// The beginning of the settled part: what is left of the unsettled velocity is counted in its place.
struct Begun {
    time: f64,
    drift: f64,
    height: f64,
    /// The relative change of density per m below it.
    thinning: f64,
}

impl Settled<'_> {
    /// If the fall has settled at time `t` and state `y` and there is a long way down: the state at the settled part's
    /// end, above `down_to` m. Some moments on the way are shown to `watch`, where there is one.
    pub fn skip(&self, t: f64, y: &Falling, down_to: f64, watch: Option<impl FnMut(f64, &Falling)>) -> Option<Lower> {
        let low = down_to + self.end(y[1]);
        let begun = self.begun(t, y, low, down_to)?;
        if let Some(mut watch) = watch {
            for piece in 1..WATCHED {
                let share = f64::from(piece) / f64::from(WATCHED);
                let Lower { time, state } = self.fallen(&begun, begun.height + share * (low - begun.height));
                watch(time, &state);
            }
        }
        Some(self.fallen(&begun, low))
    }

    /// Whether the ground is too near for a settled part, and it falls fast enough to tell the time by the height.
    pub fn is_low(&self, [_, height, _, vz]: &Falling) -> bool {
        !self.is_long(*height, 0.0) && -vz >= 0.5 * self.fall(*height)
    }

    /// Whether it's long enough down to a height, m, for a settled part.
    fn is_long(&self, height: f64, down_to: f64) -> bool {
        height - down_to >= 2.0 * self.end(height)
    }

    fn begun(&self, t: f64, [drift, height, vx, vz]: &Falling, low: f64, down_to: f64) -> Option<Begun> {
        let fall = self.fall(*height);
        // Written so that numbers that aren't sound never pass.
        let has_way = low > 0.0 && self.is_long(*height, down_to) && *vz < 0.0;
        if !has_way {
            return None;
        }
        let thinning = (self.sky.density(*height) / self.sky.density(low)).ln() / (height - low);
        let (wx, wz) = self.velocity(*height, thinning);
        let has_settled = (vx - wx).abs() <= CLOSE * fall && (vz - wz).abs() <= CLOSE * fall;
        // What is left of the unsettled velocity dies away at a rate of g/V across and of 2 g/V along the fall; the way
        // that it still makes is counted here.
        has_settled.then(|| Begun {
            time: t,
            drift: drift + (vx - wx) * fall / G0,
            height: height + 0.5 * (vz - wz) * fall / G0,
            thinning,
        })
    }

    /// Down to a height, in m, of the settled part.
    fn fallen(&self, begun: &Begun, low: f64) -> Lower {
        // Over the logarithm of the height, in which a wind by a power law is smooth.
        let [time, way] = integrate(low.ln(), begun.height.ln(), 1, |s| {
            let z = s.exp();
            let (vx, vz) = self.velocity(z, begun.thinning);
            [-z / vz, -z * vx / vz]
        });
        let (vx, vz) = self.velocity(low, begun.thinning);
        Lower { time: begun.time + time, state: [begun.drift + way, low, vx, vz] }
    }

    /// How far above the ground it ends, in m, for a steady fall as at a height.
    pub fn end(&self, height: f64) -> f64 {
        let fall = self.fall(height);
        END * fall * fall / G0
    }

    /// Steady fall in m/s in still air: √(2 m g/(ρ Cd S)).
    fn fall(&self, height: f64) -> f64 {
        (2.0 * self.mass * G0 / (self.sky.density(height) * self.drag_area)).sqrt()
    }

    /// Velocity of the settled fall, for a relative change of density per m of `thinning`.
    ///
    /// The body lags behind a wind that falls off below it by ℓ w′ + ℓ² w″ + ℓ³ w‴, sinks a little slower for that, and
    /// a little faster for coming from thinner air.
    pub fn velocity(&self, height: f64, thinning: f64) -> (f64, f64) {
        let fall = self.fall(height);
        let l = fall * fall / G0;
        let (wind, first, second, third) = self.sky.sheared(height);
        let lag = l * (first + l * (second + l * third));
        let share = lag / fall;
        let sink = fall * (1.0 - 0.25 * share * share - 0.25 * l * thinning);
        (wind + lag, -sink)
    }
}
