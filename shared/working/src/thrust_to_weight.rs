//! The motor's average thrust over the rocket's weight.

use crate::air::gravity;
use crate::page::{Cell, Page, Table};
use crate::sources::{IMPULSE, WEIGHT};
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::stage::cluster;
use finwright_assess::stage::motors;
use finwright_assess::FlightNumbers;
use finwright_physics::motor::ThrustCurve;

/// The steps.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let (Some(loaded), Some(curve), Some(ratio)) = (numbers.loaded(), &numbers.curve, numbers.thrust_to_weight())
    else {
        return Err(lacks(of, numbers, "the rocket's mass and the motor's curve"));
    };
    say_cluster(page, of, numbers);
    let impulse = impulse(page, curve);
    let (start, end) = curve.burn();
    let start = page.know("t0", "when thrust first rises above zero", Number::given(start, "s"), "the curve");
    let end = page.know("t1", "when it last falls to zero", Number::given(end, "s"), "the curve");
    let time = page.step("The burn time", "t", &(end - start), "the trade's burn time, from first to last thrust", "s");
    let average = page.step("The average thrust", "F", &(impulse / time), "impulse over time", "N");
    let mass = Number::result(loaded.mass * 1e3, "g");
    let m = page.know("m", "mass on the pad", mass, "see the working of balance").moved(-3, "kg");
    let g = gravity(page);
    let weight = page.step("The weight on the pad", "W", &(m * g), WEIGHT, "N");
    let result = page.step("Thrust to weight", "n", &(average / weight), "a ratio of two forces", "");
    page.note(
        "This is the average over the whole burn, the trade's number. On the rod or rail only the first tenths \
        of a second count: see the working of exit-speed.",
    );
    page.end("thrust to weight", &result, ratio);
    Ok(())
}

/// That the curve is of several motors at once.
pub(crate) fn say_cluster(page: &mut Page, of: &Subject, numbers: &FlightNumbers) {
    let flight = of.design.flights.get(numbers.flight);
    let first = flight.and_then(|f| motors(of.design, f).into_iter().next());
    let count = first.map_or(1.0, |(_, stage)| cluster(of.design, stage).0);
    if count > 1.0 {
        page.note(format!("{count} motors burn side by side: each thrust below is {count} times one motor's."));
    }
}

/// The total impulse, as areas under the curve.
fn impulse(page: &mut Page, curve: &ThrustCurve) -> Term {
    let mut table = Table::new(
        "The thrust curve, and the area under each of its pieces",
        &[("time t, s", "t"), ("thrust F, N", "F"), ("area since the line above, N.s", "A")],
    );
    let mut before: Option<(Number, Number)> = None;
    for (time, thrust) in curve.points() {
        let (t, f) = (Number::given(*time, "s"), Number::given(*thrust, "N"));
        let area = match &before {
            None => Cell::Given(Number::given(0.0, "N.s")),
            Some((t0, f0)) => {
                let (t0, f0) = (Term::known("t'", t0), Term::known("F'", f0));
                let area = (f0 + Term::known("F", &f)) / 2.0 * (Term::known("t", &t) - t0);
                Cell::Worked(table.work("A", &area, "N.s"))
            }
        };
        table.rows.push(vec![Cell::Given(t.clone()), Cell::Given(f.clone()), area]);
        before = Some((t, f));
    }
    let sum = table.sum("A");
    let words = |text: &str| Cell::Words(text.to_string());
    table.rows.push(vec![words("sum"), words(""), Cell::Sum(sum.clone())]);
    page.table(table);
    page.note(format!("The sum of the areas is the total impulse, {sum} ({IMPULSE})."));
    Term::known("ΣA", &sum)
}
