//! The last piece of the run: when the last guide leaves, and how fast.

use super::forces::HoldsBack;
use super::moment::Moment;
use crate::page::Page;
use crate::sources::{IMPULSE, KINEMATICS, NEWTON};
use crate::term::Term;
use crate::{Lack, Number};

/// Exit speed, and the time, impulse and mean mass of the check.
pub(super) type Exit = (Term, Option<(Term, Term, Term)>);

/// The end lies on a piece of the curve: how long after the line above it, and how fast the rocket is then.
pub(super) fn pushed(page: &mut Page, from: &Moment, to: &Moment, travel: &Term) -> Result<Exit, Lack> {
    let before = from.above();
    page.note(format!(
        "In the last line of the table the rocket would be {} up: the end lies on the piece before it, on which t', \
            a', v', s' are those of the line above it.",
        to.travel.number().map_or(String::new(), ToString::to_string)
    ));
    let want = "How fast the acceleration changes on that piece";
    let rise = (&to.acceleration - &before.acceleration) / (&to.time - &before.time);
    let rise = page.step(want, "j", &rise, KINEMATICS, "m/s3");
    let [s, v, a, j] = [&before.travel, &before.speed, &before.acceleration, &rise].map(Term::value);
    let after = |x: f64| s + v * x + a * x * x / 2.0 + j * x * x * x / 6.0 - travel.value();
    let (mut low, mut high) = (0.0, to.time.value() - before.time.value());
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if after(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    let x = page.know(
        "x",
        "time after the line above, found by trial: try values until the next step gives the way",
        Number::result(high, "s"),
        "each try nearer than the last",
    );
    let way = &before.travel + &before.speed * &x + &before.acceleration * x.power(2) / 2.0 + &rise * x.power(3) / 6.0;
    page.step("The travel after that time, to be the one asked for", "se", &way, KINEMATICS, "m");
    let speed = &before.speed + &before.acceleration * &x + &rise * x.power(2) / 2.0;
    let speed = page.step("The exit speed", "ve", &speed, KINEMATICS, "m/s");
    let time = page.step("When that is, from ignition", "te", &(&before.time + &x), "a sum of times", "s");
    let slope = (&to.thrust - &before.thrust) / (&to.time - &before.time);
    let thrust = page.step(
        "The thrust then",
        "Fe",
        &(&before.thrust + slope * &x),
        "a straight line between two points of the curve",
        "N",
    );
    let impulse = &before.impulse + (&before.thrust + thrust) / 2.0 * &x;
    let impulse = page.step("The impulse given by then", "Ie", &impulse, IMPULSE, "N.s");
    let [m0, m1] = [&before.mass, &to.mass];
    let mass = m0 + (m1 - m0) * (&x / (&to.time - &before.time));
    let mass = page.step("The mass then", "me", &mass, "a straight line between two lines of the table", "kg");
    Ok((speed, Some((time, impulse, mass))))
}

/// The motor is out before the end: only what holds back acts.
pub(super) fn coasting(page: &mut Page, from: &Moment, rest: &HoldsBack, travel: &Term) -> Result<Exit, Lack> {
    page.note(
        "The motor is out before the end: from the last line of the table the rocket coasts. v, s and m are \
        those of that line.",
    );
    let holds = match &rest.wind {
        Some(wind) => {
            let holds = &rest.per_mass + wind / &from.mass;
            page.step("What slows each kilogram", "kc", &holds, NEWTON, "m/s2")
        }
        None => rest.per_mass.clone(),
    };
    let square = from.speed.power(2) - 2.0 * holds * (travel - &from.travel);
    if square.value() <= 0.0 {
        return Err(Lack("a run that doesn't stop on the way".to_string()));
    }
    let source = "work and energy at a steady deceleration: ve² = v² - 2·k·way";
    Ok((page.step("The exit speed", "ve", &square.sqrt(), source, "m/s"), None))
}

/// The same by impulse and momentum, with a mean mass: two lines where the table has many.
pub(super) fn by_impulse(page: &mut Page, rest: &HoldsBack, start: &Moment, [time, impulse, mass]: [&Term; 3]) -> Term {
    page.note("A check in two lines, by impulse and momentum with one mean mass:");
    let mean =
        page.step("The mean mass on the way", "mm", &((&start.mass + mass) / 2.0), "the mean of first and last", "kg");
    let push = impulse - &start.impulse;
    let span = || time - &start.time;
    let speed = match &rest.wind {
        Some(wind) => (push - wind * span()) / &mean - &rest.per_mass * span(),
        None => push / &mean - &rest.per_mass * span(),
    };
    let source = "impulse and momentum: what the thrust gives, less what is held back meanwhile";
    page.step("The exit speed by that way", "vi", &speed, source, "m/s")
}
