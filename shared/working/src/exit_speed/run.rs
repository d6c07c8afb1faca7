//! From lift-off to the end of the rod or rail, a line of a table for each moment.

use super::forces::{Burn, HoldsBack};
use super::moment::{renamed, Moment};
use crate::page::{Cell, Table};
use crate::term::Term;
use crate::{Lack, Number};
use finwright_physics::motor::ThrustCurve;

/// The lines of the table, and the piece on which the last guide leaves.
pub(super) struct Along {
    pub table: Table,
    pub end: Piece,
}

/// The last piece of the run.
pub(super) enum Piece {
    /// Between two moments under thrust.
    Pushed { from: Box<Moment>, to: Box<Moment> },
    /// After the motor is out.
    Coasting { from: Box<Moment> },
}

pub(super) fn along(
    curve: &ThrustCurve,
    rest: &HoldsBack,
    burn: &Burn,
    travel: &Term,
    start: &Moment,
) -> Result<Along, Lack> {
    let mut table = Table::new(
        "From lift-off to the end of the rod or rail",
        &[
            ("time t, s", "t"),
            ("thrust F, N", "F"),
            ("impulse I, N.s", "I"),
            ("mass m, kg", "m"),
            ("acceleration a, m/s2", "a"),
            ("speed v, m/s", "v"),
            ("travel s, m", "s"),
        ],
    );
    let all = |m: &Moment| {
        [&m.time, &m.thrust, &m.impulse, &m.mass, &m.acceleration, &m.speed, &m.travel].map(|t| t.number().cloned())
    };
    table.rows.push(all(start).into_iter().flatten().map(Cell::Given).collect());
    let mut here = renamed(start);
    for (time, thrust) in moments(curve, burn, start) {
        let before = here.above();
        let (t, f) = (Number::given(time, "s"), Number::given(thrust, "N"));
        let (time, thrust) = (Term::known("t", &t), Term::known("F", &f));
        let span = || &time - &before.time;
        let impulse = table.work("I", &(&before.impulse + (&before.thrust + &thrust) / 2.0 * span()), "N.s");
        let impulse = Term::known("I", &impulse);
        let mass = Term::known("m", &table.work("m", &burn.left(&impulse), "kg"));
        let a = Term::known("a", &table.work("a", &rest.acceleration(&thrust, &mass), "m/s2"));
        let v = table.work("v", &(&before.speed + (&before.acceleration + &a) / 2.0 * span()), "m/s");
        let s = &before.travel + &before.speed * span() + (2.0 * &before.acceleration + &a) / 6.0 * span().power(2);
        let s = table.work("s", &s, "m");
        let now = Moment {
            time,
            thrust,
            impulse,
            mass,
            acceleration: a,
            speed: Term::known("v", &v),
            travel: Term::known("s", &s),
        };
        let mut row: Vec<Cell> = vec![Cell::Given(t), Cell::Given(f)];
        row.extend(all(&now).into_iter().skip(2).flatten().map(Cell::Worked));
        table.rows.push(row);
        if s.value() >= travel.value() {
            return Ok(Along { table, end: Piece::Pushed { from: Box::new(here), to: Box::new(now) } });
        }
        if v.value() <= 0.0 {
            return Err(Lack("a run that doesn't stop on the way".to_string()));
        }
        here = now;
    }
    Ok(Along { table, end: Piece::Coasting { from: Box::new(here) } })
}

/// The curve's points after lift-off, and the moments halfway where much burns away between two of them: times and
/// thrusts.
fn moments(curve: &ThrustCurve, burn: &Burn, start: &Moment) -> Vec<(f64, f64)> {
    let mut before = (start.time.value(), start.thrust.value());
    let mut all = Vec::new();
    let began = before.0;
    for point in curve.points().iter().filter(|(t, _)| *t > began) {
        let halfway = (0.5 * (before.0 + point.0), 0.5 * (before.1 + point.1));
        let share = halfway.1 * (point.0 - before.0) / burn.impulse.value();
        if burn.propellant.value() * share > MUCH * burn.mass.value() {
            all.push(halfway);
        }
        all.push(*point);
        before = *point;
    }
    all
}

/// Where more than this share of the rocket's mass burns away between two points of the curve, a straight line of the
/// acceleration is too rough.
const MUCH: f64 = 0.01;
