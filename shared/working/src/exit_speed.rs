//! The run along the rod or rail, moment by moment, until the last guide leaves.

use crate::air::{density, gravity, side_force};
use crate::page::{Cell, Page, Table};
use crate::sources::{GEOMETRY, IMPULSE, KINEMATICS, NEWTON};
use crate::term::Term;
use crate::thrust_to_weight::say_cluster;
use crate::{lacks, said, Lack, Number, Subject};
use finwright_assess::flight::{friction, rail_length};
use finwright_assess::{FlightNumbers, Run};
use finwright_physics::guided::{GuidedOutcome, GuidedRun, Passage};
use finwright_physics::motor::ThrustCurve;

/// The steps.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let (Some(run), Some(curve)) = (&numbers.run, &numbers.curve) else {
        return Err(lacks(numbers, "a run along a rod or rail"));
    };
    let last =
        run.last().ok_or_else(|| Lack("a rocket that leaves its rod or rail; this one stays on it".to_string()))?;
    let travel = travel(page, of, numbers)?;
    let rest = holding_back(page, of, numbers, run)?;
    say_cluster(page, of, numbers);
    let burn = Burn::know(page, run, curve);
    let start = lift_off(page, curve, &rest, &burn)?;
    let began = Start { impulse: start.impulse.clone(), mass: start.mass.clone(), time: start.time.clone() };
    let ways = along(curve, &rest, &burn, &travel, start)?;
    page.note(format!(
        "Now from point to point of the curve, and by way of the moment halfway where more than a hundredth of the mass burns away between two of them; its thrust lies on the straight line. A stroke means the line above: v = v' + (a' + a)/2·(t - t'). Sources: {NEWTON}; {KINEMATICS}."
    ));
    page.table(ways.table);
    let (speed, leaves) = match &ways.end {
        Piece::Pushed { from, to } => pushed(page, from, to, &travel)?,
        Piece::Coasting { from } => coasting(page, from, &rest, &travel)?,
    };
    page.end("exit speed", &speed, last.speed);
    if let Some((time, impulse, mass)) = leaves {
        by_impulse(page, &rest, &began, [&time, &impulse, &mass], &last);
    }
    say_what_is_left_out(page, run, curve, &last);
    Ok(())
}

/// The way from rest until the last guide leaves.
fn travel(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<Term, Lack> {
    let pad = of.pad(numbers)?;
    let (Some(length), Some(lowest), Some(last)) = (rail_length(pad), numbers.lowest, numbers.guides.last()) else {
        return Err(lacks(numbers, "the pad's length and the guides' places"));
    };
    let mm = |m: f64| Number::given(m * 1e3, "mm");
    let word = pad.rail_word();
    let length = page.know("L", format!("length of the {word}"), mm(length.si), "in the file");
    let from = if pad.stop.is_some() { "in the file" } else { "nothing is said of a stop" };
    let stop = page.know(
        "h",
        "height of the stop that the rocket rests on",
        mm(pad.stop.as_ref().map_or(0.0, |s| s.si)),
        from,
    );
    let means =
        format!("from the rocket's lowest point up to the back edge of {}, the last guide", of.label(last.part));
    let above = page.know("b", means, mm(lowest - last.extent.back), "from the parts' places");
    let travel = page.step("The travel until the last guide leaves", "way", &(length - stop - above), GEOMETRY, "mm");
    Ok(travel.moved(-3, "m"))
}

/// What holds the rocket back while it moves.
struct HoldsBack {
    /// For each kilogram: the weight's share along the guide, and friction under its share across it, m/s2.
    per_mass: Term,
    /// Friction under the wind's push, N, where there is any.
    wind: Option<Term>,
}

impl HoldsBack {
    /// The acceleration under a thrust.
    fn acceleration(&self, thrust: &Term, mass: &Term) -> Term {
        match &self.wind {
            Some(wind) => (thrust - wind) / mass - &self.per_mass,
            None => thrust / mass - &self.per_mass,
        }
    }
}

fn holding_back(page: &mut Page, of: &Subject, numbers: &FlightNumbers, run: &Run) -> Result<HoldsBack, Lack> {
    let pad = of.pad(numbers)?;
    let g = gravity(page);
    let tilt = Number::given(run.inputs.tilt.to_degrees(), "°");
    let from = if pad.tilt.is_some() { "in the file" } else { "nothing is said of a tilt" };
    let tilt = page.know("θ", format!("tilt of the {} from the vertical", pad.rail_word()), tilt, from);
    let from = if pad.friction.is_some() { said(&pad.friction) } else { "a default (common practice, no source)" };
    let mu = page.know("μ", "friction coefficient of the guides", Number::given(friction(pad), ""), from);
    let per_mass = g * (tilt.cos() + &mu * tilt.sin());
    let source = "statics of a slope: the weight's share along it, and friction under its share across it";
    let per_mass = page.step("What holds each kilogram back", "k", &per_mass, source, "m/s2");
    if run.inputs.side_force <= 0.0 || mu.value() == 0.0 {
        return Ok(HoldsBack { per_mass, wind: None });
    }
    let wind = numbers.air.map_or(0.0, |air| air.wind);
    let rho = density(page, of, numbers)?;
    let wind = page.know("w", "the steady wind", Number::given(wind, "m/s"), "in the file");
    let push = side_force(page, of, &rho, &wind)?;
    let held =
        page.step("The friction under that push", "H", &(mu * push), "friction is μ times the force across", "N");
    Ok(HoldsBack { per_mass, wind: Some(held) })
}

/// Mass and how it burns away.
struct Burn {
    mass: Term,
    propellant: Term,
    impulse: Term,
}

impl Burn {
    fn know(page: &mut Page, run: &Run, curve: &ThrustCurve) -> Burn {
        let g = |kg: f64| Number::result(kg * 1e3, "g");
        let mass = page.know("m0", "mass on the pad", g(run.inputs.mass), "see the working of balance");
        let propellant = page.know(
            "mp",
            "the propellant in it, burnt as the impulse is given",
            g(run.inputs.propellant),
            "in the file",
        );
        let total = Number::result(curve.total_impulse(), "N.s");
        let impulse = page.know("It", "total impulse", total, "see the working of thrust-to-weight");
        Burn { mass: mass.moved(-3, "kg"), propellant: propellant.moved(-3, "kg"), impulse }
    }

    /// The mass that is left once an impulse has been given.
    fn left(&self, impulse: &Term) -> Term {
        &self.mass - &self.propellant * impulse / &self.impulse
    }
}

/// A moment of the run.
#[derive(Clone)]
struct Moment {
    time: Term,
    thrust: Term,
    impulse: Term,
    mass: Term,
    acceleration: Term,
    speed: Term,
    travel: Term,
}

impl Moment {
    /// The same numbers as those of the line above.
    fn above(&self) -> Moment {
        let stroke = |term: &Term| match term.number() {
            Some(number) => Term::known(&format!("{}'", term.formula()), number),
            None => term.clone(),
        };
        Moment {
            time: stroke(&self.time),
            thrust: stroke(&self.thrust),
            impulse: stroke(&self.impulse),
            mass: stroke(&self.mass),
            acceleration: stroke(&self.acceleration),
            speed: stroke(&self.speed),
            travel: stroke(&self.travel),
        }
    }
}

/// Where the run starts, for the check by impulse.
struct Start {
    time: Term,
    impulse: Term,
    mass: Term,
}

/// The first moment: when thrust overcomes what holds the rocket.
fn lift_off(page: &mut Page, curve: &ThrustCurve, rest: &HoldsBack, burn: &Burn) -> Result<Moment, Lack> {
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

/// The lines of the table, and the piece on which the last guide leaves.
struct Along {
    table: Table,
    end: Piece,
}

enum Piece {
    /// Between two moments under thrust.
    Pushed { from: Box<Moment>, to: Box<Moment> },
    /// After the motor is out.
    Coasting { from: Box<Moment> },
}

fn along(curve: &ThrustCurve, rest: &HoldsBack, burn: &Burn, travel: &Term, start: Moment) -> Result<Along, Lack> {
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
    table.rows.push(all(&start).into_iter().flatten().map(Cell::Given).collect());
    let mut here = renamed(&start);
    for (time, thrust) in moments(curve, burn, &start) {
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

/// The curve's points after lift-off, and the moments halfway where much burns away between two of them: times and thrusts.
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

/// The first moment under the table's own symbols.
fn renamed(moment: &Moment) -> Moment {
    let as_ = |symbol: &str, term: &Term| term.number().map_or(term.clone(), |n| Term::known(symbol, n));
    Moment {
        time: as_("t", &moment.time),
        thrust: as_("F", &moment.thrust),
        impulse: as_("I", &moment.impulse),
        mass: as_("m", &moment.mass),
        acceleration: as_("a", &moment.acceleration),
        speed: as_("v", &moment.speed),
        travel: as_("s", &moment.travel),
    }
}

/// Exit speed, and the time, impulse and mean mass of the check.
type Exit = (Term, Option<(Term, Term, Term)>);

/// The end lies on a piece of the curve: how long after the line above it, and how fast the rocket is then.
fn pushed(page: &mut Page, from: &Moment, to: &Moment, travel: &Term) -> Result<Exit, Lack> {
    let before = from.above();
    page.note(format!(
        "In the last line of the table the rocket would be {} up: the end lies on the piece before it, on which t', a', v', s' are those of the line above it.",
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
fn coasting(page: &mut Page, from: &Moment, rest: &HoldsBack, travel: &Term) -> Result<Exit, Lack> {
    page.note("The motor is out before the end: from the last line of the table the rocket coasts. v, s and m are those of that line.");
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
fn by_impulse(page: &mut Page, rest: &HoldsBack, start: &Start, [time, impulse, mass]: [&Term; 3], last: &Passage) {
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
    let speed = page.step("The exit speed by that way", "vi", &speed, source, "m/s");
    page.end("exit speed by impulse and mean mass", &speed, last.speed);
}

fn say_what_is_left_out(page: &mut Page, run: &Run, curve: &ThrustCurve, last: &Passage) {
    let without = GuidedRun { drag: 0.0, ..run.inputs_on(curve) };
    if let GuidedOutcome::Leaves { last: free, .. } = without.run() {
        let share = 100.0 * (free.speed - last.speed) / last.speed;
        let drag = Number::result(run.inputs.drag * last.speed * last.speed, "N");
        page.neglect(format!(
            "Drag, which has grown to {drag} at the end: without it the program's own number would be {share:.2} % more."
        ));
    }
    page.neglect(
        "Between two points of the curve the acceleration isn't quite a straight line, because the mass shrinks.",
    );
}
