//! The first moment: when thrust overcomes what holds the rocket.

use super::forces::{Burn, HoldsBack};
use super::moment::Moment;
use crate::page::Page;
use crate::sources::{IMPULSE, NEWTON};
use crate::term::Term;
use crate::{Lack, Number};
use finwright_physics::motor::ThrustCurve;

/// The first moment: when thrust overcomes what holds the rocket.
pub(super) fn lift_off(page: &mut Page, curve: &ThrustCurve, rest: &HoldsBack, burn: &Burn) -> Result<Moment, Lack> {
    let hold = &burn.mass * &rest.per_mass;
    let hold = match &rest.wind {
        Some(wind) => hold + wind,
        None => hold,
    };
    let hold = page.step("What thrust must overcome before the rocket moves", "F0", &hold, NEWTON, "N");
    let points = curve.points();
    let at = points.iter().position(|(_, thrust)| *thrust > hold.value());
    let after = at.and_then(|at| points.get(at)).ok_or_else(|| Lack("more thrust".to_string()))?;
    let before = at.and_then(|at| points.get(at.checked_sub(1)?));
    let (time, thrust, impulse) = match before {
        Some(before) => between(page, curve, &hold, *before, *after),
        None => {
            page.note("The curve begins above that, so the rocket moves from its first point on.");
            let time = page.know("t0", "the first point of the curve", Number::given(after.0, "s"), "the curve");
            let thrust = page.know("F1", "the thrust there", Number::given(after.1, "N"), "the curve");
            (time, thrust, page.know("I0", "the impulse given by then", Number::given(0.0, "N.s"), "the curve"))
        }
    };
    let source = "propellant burns as the impulse is given (common practice, no source)";
    let mass = page.step("The mass that is left then", "m1", &burn.left(&impulse), source, "kg");
    let acceleration = match before {
        Some(_) => Term::known("a0", &Number::given(0.0, "m/s2")),
        None => page.step("The first acceleration", "a0", &rest.acceleration(&thrust, &mass), NEWTON, "m/s2"),
    };
    let start = |unit| Number::given(0.0, unit);
    Ok(Moment {
        time,
        thrust,
        impulse,
        mass,
        acceleration,
        speed: Term::known("v0", &start("m/s")),
        travel: Term::known("s0", &start("m")),
    })
}

/// Lift-off between two points of the curve: when, at which thrust, and after which impulse.
fn between(page: &mut Page, curve: &ThrustCurve, hold: &Term, a: (f64, f64), b: (f64, f64)) -> (Term, Term, Term) {
    let mut point = |symbol: &str, means: &str, number| page.know(symbol, means, number, "the curve");
    let ta = point("ta", "the last point of the curve before that", Number::given(a.0, "s"));
    let fa = point("Fa", "the thrust there", Number::given(a.1, "N"));
    let tb = point("tb", "the first point after it", Number::given(b.0, "s"));
    let fb = point("Fb", "the thrust there", Number::given(b.1, "N"));
    let given = curve.impulse_to(a.0);
    let earlier = (given > 0.0).then(|| {
        let means = "the impulse given up to the point before, as in the working of thrust-to-weight";
        page.know("Ia", means, Number::result(given, "N.s"), "the curve")
    });
    let time = &ta + (hold - &fa) / (fb - &fa) * (tb - &ta);
    let time = page.step("When that is", "t0", &time, "a straight line between two points of the curve", "s");
    let area = (fa + hold) / 2.0 * (&time - ta);
    let area = match earlier {
        Some(earlier) => earlier + area,
        None => area,
    };
    let impulse = page.step("The impulse given before it moves", "I0", &area, IMPULSE, "N.s");
    (time, hold.clone(), impulse)
}
