//! What the guides carry: side loads, friction, binding, slop and the tip-off on the last guide.

use crate::air::G0;

/// Loads on a front and an aft guide in N, positive with the side force they balance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reactions {
    /// Load on the front guide.
    pub front: f64,
    /// Load on the aft guide.
    pub aft: f64,
}

impl Reactions {
    /// Friction in N for a coefficient `friction`, whichever way the loads point.
    pub fn friction(&self, friction: f64) -> f64 {
        friction * (self.front.abs() + self.aft.abs())
    }
}

/// Shares a side `force` in N at station `x` m between guides at stations `front` < `aft`, in m;
/// `None` where both lie at one station. Statics.
pub fn two_guides(force: f64, x: f64, front: f64, aft: f64) -> Option<Reactions> {
    if front == aft {
        return None;
    }
    let at_aft = force * (x - front) / (aft - front);
    Some(Reactions { front: force - at_aft, aft: at_aft })
}

/// Loads while a rocket of `mass` kg that balances at station `balance` m hangs level from its
/// guides, as when a lowered pad is raised; `None` where both guides lie at one station. Statics.
pub fn lifted_level(mass: f64, balance: f64, front: f64, aft: f64) -> Option<Reactions> {
    two_guides(mass * G0, balance, front, aft)
}

/// Side force in N of `wind` m/s on a side view of `planform` m²: ρ w²/2 · 1.2 · area.
/// The coefficient is that of a long cylinder (Aeronautical Engineer's Data Book, p. 95).
pub fn wind_side_force(density: f64, wind: f64, planform: f64) -> f64 {
    0.5 * density * wind * wind * crate::beam::ROUND_CD * planform
}

/// The spacing in m, front edge of the front guide to aft edge of the aft one, at or below which
/// guides lock by friction: 2 μ e, for a guide axis `offset` m from the rocket's axis.
/// The drawer rule of statics (from memory).
pub fn binding_spacing(friction: f64, offset: f64) -> f64 {
    2.0 * friction * offset
}

/// The spacing in m that leaves a margin of two against binding: 4 μ e (common practice, no
/// source).
pub fn easy_spacing(friction: f64, offset: f64) -> f64 {
    2.0 * binding_spacing(friction, offset)
}

/// How far in rad the rocket can lean within its guides: atan(c/s) for a `play` (bore less rod,
/// or slot less neck) and a `spacing`, both in m. Geometry.
pub fn slop_angle(play: f64, spacing: f64) -> f64 {
    play.atan2(spacing)
}

/// How a guide leans from the vertical, as a vector whose length is the angle: both parts in rad.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Lean {
    /// Towards where the wind comes from; negative leans downwind.
    pub into_wind: f64,
    /// Across the wind, to either side.
    pub across: f64,
}

impl Lean {
    /// The whole angle in rad.
    pub fn angle(&self) -> f64 {
        self.into_wind.hypot(self.across)
    }

    /// Gravity's share across the guide as a share of the whole, in the same two directions: sin of the angle.
    fn share(&self) -> (f64, f64) {
        let angle = self.angle();
        let scale = if angle > 0.0 { angle.sin() / angle } else { 1.0 };
        (scale * self.into_wind, scale * self.across)
    }
}

/// What decides the tip-off while only the last guide is on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnLastGuide {
    /// Mass in kg.
    pub mass: f64,
    /// Balance point in m.
    pub balance: f64,
    /// Transverse inertia in kg m² about the balance point.
    pub inertia: f64,
    /// Station of the last guide in m.
    pub last_guide: f64,
    /// Reference area in m².
    pub reference_area: f64,
    /// Normal-force slope per rad.
    pub cna: f64,
    /// Centre of pressure in m.
    pub pressure: f64,
    /// Time in s from the front guide's leaving to the last one's.
    pub time: f64,
    /// Speed in m/s when the front guide leaves.
    pub speed: f64,
    /// Acceleration in m/s² along the guide from then on.
    pub acceleration: f64,
    /// Wind across the guide in m/s.
    pub wind: f64,
    /// Air density in kg/m³.
    pub density: f64,
    /// How the guide leans.
    pub lean: Lean,
}

/// The turn a rocket has when its last guide leaves. In the plane of the wind positive turns the nose downwind, across
/// it to the side to which the guide leans with a positive [`Lean::across`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TipOff {
    /// Normal force of the wind in N.
    pub normal_force: f64,
    /// Transverse inertia about the last guide in kg m².
    pub inertia: f64,
    /// Moment about the last guide in N m, in the plane of the wind.
    pub moment: f64,
    /// Angle turned in rad, in the plane of the wind.
    pub angle: f64,
    /// Rate of turn in rad/s, in the plane of the wind.
    pub rate: f64,
    /// Angle turned in rad across the wind.
    pub angle_across: f64,
    /// Rate of turn in rad/s across the wind.
    pub rate_across: f64,
}

impl OnLastGuide {
    /// The tip-off with forces and inertia held as at the front guide's leaving.
    ///
    /// The wind's force N = ρ (v² + w²)/2 · A · CNα · atan(w/v) acts at the centre of pressure, gravity's share across
    /// the guide, m g sin θ, at the balance point; thrust, drag and the acceleration act along the axis and have no
    /// arm. About the guide that is N (x_guide − x_pressure) − m g sin θ (x_guide − x_balance), θ positive where the
    /// guide leans into the wind. Derived here from Newton's second law; no published source. A centre of pressure
    /// ahead of the last guide turns the nose downwind, against the later weathercock; weight turns it further to where
    /// the guide leans.
    ///
    /// What a class can work by hand; [`OnLastGuide::tip_off`] follows the forces as they change.
    pub fn held(&self) -> TipOff {
        let alpha = self.wind.atan2(self.speed);
        let pressure = 0.5 * self.density * (self.speed * self.speed + self.wind * self.wind);
        let normal_force = pressure * self.reference_area * self.cna * alpha;
        let arm = self.last_guide - self.balance;
        let inertia = self.inertia + self.mass * arm * arm;
        let (into_wind, across) = self.lean.share();
        let falling = self.mass * G0 * arm;
        let moment = normal_force * (self.last_guide - self.pressure) - falling * into_wind;
        let turned = |moment: f64| {
            let turning = moment / inertia;
            (0.5 * turning * self.time * self.time, turning * self.time)
        };
        let ((angle, rate), (angle_across, rate_across)) = (turned(moment), turned(falling * across));
        TipOff { normal_force, inertia, moment, angle, rate, angle_across, rate_across }
    }

    /// The tip-off with the forces as they change until the last guide leaves.
    ///
    /// About the guide, which moves along the rod with v = v₀ + a t, r and s being how far ahead of it the balance point
    /// and the centre of pressure lie, I θ″ is N s − m g r sin(λ − θ) and m a r sin θ together. There N is ρ (v² + w²)/2 ·
    /// A · CNα times the angle of attack, atan(w/v) and θ together less s θ′/v. The nose that has turned downwind meets the
    /// air at a larger angle and is thrown further by the guide's acceleration; the turn itself takes from the angle.
    /// Derived here from Newton's second law in the guide's frame; no published source. By Runge and Kutta's fourth order.
    pub fn tip_off(&self) -> TipOff {
        let held = self.held();
        let (r, s) = (self.last_guide - self.balance, self.last_guide - self.pressure);
        let angle = self.lean.angle();
        let upright = angle.cos();
        let (into_wind, across) = self.lean.share();
        let turning = |wind: f64, leans: f64, t: f64, theta: f64, omega: f64| {
            let v = self.speed + self.acceleration * t;
            let pressure = 0.5 * self.density * (v * v + wind * wind) * self.reference_area * self.cna;
            let normal = pressure * (wind.atan2(v) + theta - s * omega / v.max(1e-3));
            let (sin, cos) = theta.sin_cos();
            let weight = self.mass * G0 * r * (leans * cos - upright * sin);
            (normal * s - weight + self.mass * self.acceleration * r * sin) / held.inertia
        };
        let follow = |wind: f64, leans: f64| {
            let (h, f) = (self.time / f64::from(STEPS), |t, y: (f64, f64)| (y.1, turning(wind, leans, t, y.0, y.1)));
            let mut y = (0.0, 0.0);
            for step in 0..STEPS {
                let t = h * f64::from(step);
                let on = |k: (f64, f64), share: f64| (y.0 + share * h * k.0, y.1 + share * h * k.1);
                let a = f(t, y);
                let b = f(t + 0.5 * h, on(a, 0.5));
                let c = f(t + 0.5 * h, on(b, 0.5));
                let d = f(t + h, on(c, 1.0));
                y.0 += h / 6.0 * (a.0 + 2.0 * (b.0 + c.0) + d.0);
                y.1 += h / 6.0 * (a.1 + 2.0 * (b.1 + c.1) + d.1);
            }
            y
        };
        let (angle, rate) = follow(self.wind, into_wind);
        // Across the wind nothing blows; positive is where the guide leans.
        let (angle_across, rate_across) = if across == 0.0 { (0.0, 0.0) } else { follow(0.0, -across) };
        TipOff { angle, rate, angle_across, rate_across, ..held }
    }
}

/// The turn is slow against them: a quarter of them changes the rate by less than a millionth.
const STEPS: u32 = 4;

/// Time in s to travel `distance` m from `speed` m/s at a steady `acceleration` in m/s²; `None`
/// where it never gets there.
pub fn time_over(distance: f64, speed: f64, acceleration: f64) -> Option<f64> {
    let square = speed * speed + 2.0 * acceleration * distance;
    // 2 d/(v + √…) is the form without cancellation; it also holds at no acceleration.
    (square >= 0.0 && speed + square.sqrt() > 0.0).then(|| 2.0 * distance / (speed + square.sqrt()))
}
