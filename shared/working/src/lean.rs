//! How far the rod or rail leans at its tip: under its own weight and the rocket's at the tilt, and under the wind.

use crate::air::{density, gravity, side_force, wind_source};
use crate::page::Page;
use crate::sources::{BEAM, DYNAMIC, GEOMETRY, STATICS};
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::{FlightNumbers, Stiffness};
use finwright_model::Rail;
use finwright_physics::beam::{FLAT_CD, ROUND_CD};

/// The steps, in N and mm: E in N/mm2 is then E in GPa times 1000.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let pad = of.pad(numbers)?;
    let (Some(stiffness), Some(loaded), Some(length)) = (&numbers.stiffness, numbers.loaded(), pad.rail_length())
    else {
        return Err(lacks(of, numbers, "the pad's measures and the rocket's mass"));
    };
    let word = pad.rail_word();
    let assumed: Vec<String> = stiffness.assumed.iter().map(|assumed| assumed.in_words(of.design)).collect();
    let from =
        if assumed.is_empty() { "in the file".to_string() } else { format!("by default: {}", assumed.join("; ")) };
    page.note(format!(
        "The {word} is a beam clamped at its foot. Everything is taken to lean the same way, the worst \
        case. Lengths are in mm and forces in N."
    ));
    let mm = |m: f64| Number::given(m * 1e3, "mm");
    let l = page.know("L", format!("free length of the {word}"), mm(length.si), "in the file");
    let e = Number::given(stiffness.beam.modulus * 1e-6, "N/mm2");
    let e = page.know("E", "stiffness of its material (Young's modulus)", e, from.clone());
    let width = page.know("D", "its width across", mm(2.0 * stiffness.half_depth), "in the file or the section");
    let i = if matches!(pad.rail, Some(Rail::Rod { .. })) {
        page.step("The second moment of a round section", "I", &(Term::pi() * width.power(4) / 64.0), GEOMETRY, "mm4")
    } else {
        let i = Number::given(stiffness.beam.second_moment * 1e12, "mm4");
        page.know("I", "second moment of its section", i, from.clone())
    };
    let ei = page.step("Its stiffness against bending", "EI", &(e * i), BEAM, "N.mm2");
    let tilt = pad.tilt_or_upright().si;
    let (across, spread) = weights(page, of, numbers, stiffness.beam.mass_per_length, tilt, &from)?;
    let gust = numbers.air.map_or(0.0, |air| air.gust);
    let blown = if gust > 0.0 {
        let wind = page.know("w", "the wind in a gust", Number::given(gust, "m/s"), wind_source(numbers));
        let rho = density(page, of, numbers)?;
        let push = side_force(page, of, &rho, &wind)?;
        let cd = if pad.has_rod() { ROUND_CD } else { FLAT_CD };
        let cd = page.know(
            "cb",
            format!("drag coefficient of the {word} across the wind"),
            Number::given(cd, ""),
            "Aeronautical Engineer's Data Book",
        );
        let even = rho * wind.power(2) / 2.0 * cd * width.moved(-3, "m");
        let even = page.step(format!("The wind's push on each metre of the {word}"), "qw", &even, DYNAMIC, "N/m");
        Some((push, even))
    } else {
        None
    };
    let (load, even) = match blown {
        Some((push, blow)) => (
            Loads { weight: across, wind: Some(push) },
            page.step("The even load on each metre", "q", &(spread + blow), "a sum of loads the same way", "N/m"),
        ),
        None => (Loads { weight: across, wind: None }, spread),
    };
    // N/m are N/mm with the point moved by three places.
    let even = even.moved(-3, "N/mm");
    let bent =
        page.step("The tip's movement under the even load", "yq", &(&even * l.power(4) / (8.0 * &ei)), BEAM, "mm");
    let below = Below::of(page, stiffness, &l);
    at_rest(page, of, numbers, &load, ([&l, &ei, &bent, &even], &below), loaded.x)?;
    page.note(format!(
        "Now the rocket at the end of the {word}, its last guide still held: the most that it can lean."
    ));
    let total = page.step("The whole load at the tip", "P", &load.total(), "a sum of forces the same way", "N");
    let moment = below.moment(page, &(&total * &l + &even * l.power(2) / 2.0), "Me");
    let tip = below.tip(&bent + &total * l.power(3) / (3.0 * &ei), &moment, &l);
    let tip = page.step("The tip's movement with the rocket at the end", "ye", &tip, BEAM, "mm");
    let slope = 180.0 / Term::pi() * (even * l.power(3) / (6.0 * &ei) + total * l.power(2) / (2.0 * &ei));
    let slope = below.slope(slope, &moment);
    let slope = page.step("The slope of the tip then", "φ", &slope, BEAM, "°");
    page.end("lean of the tip in a gust, the rocket held at the end", &tip, stiffness.at_end.in_gust().tip * 1e3);
    page.end("slope of the tip then", &slope, stiffness.at_end.in_gust().slope.to_degrees());
    page.neglect("The formulas are for small bends; beyond a tenth of the length they are rough.");
    Ok(())
}

/// The rocket's loads across the beam.
struct Loads {
    weight: Term,
    wind: Option<Term>,
}

impl Loads {
    fn total(&self) -> Term {
        match &self.wind {
            Some(wind) => &self.weight + wind,
            None => self.weight.clone(),
        }
    }
}

/// What a foot that turns and a joint with play add to a bend.
struct Below {
    /// How far the foot turns under 1 N m, as a number a radian.
    yields: Option<Term>,
    /// Play of the joint, °, and the tip's movement by it, mm.
    joint: Option<(Term, Term)>,
}

impl Below {
    fn of(page: &mut Page, stiffness: &Stiffness, length: &Term) -> Below {
        let yields = (stiffness.yields > 0.0).then(|| {
            let number = Number::given(stiffness.yields, "1/(N.m)");
            page.know("κ", "how far the foot turns under 1 N.m, in radians", number, "in the file, as an angle")
        });
        let joint = stiffness.joint.map(|joint| {
            let play = Number::given(joint.play.to_degrees(), "°");
            let play = page.know("φj", "play in the rod's joint", play, "in the file, or by default");
            let height = Number::given(joint.height * 1e3, "mm");
            let height = page.know("hj", "height of the joint", height, "in the file, or half the length");
            let moved = &play * Term::pi() / 180.0 * (length - height);
            let moved = page.step("The tip's movement by the play in the joint", "yj", &moved, GEOMETRY, "mm");
            (play, moved)
        });
        Below { yields, joint }
    }

    /// The moment at the foot, N m, where the foot turns under it.
    fn moment(&self, page: &mut Page, moment: &Term, symbol: &str) -> Option<Term> {
        self.yields.as_ref()?;
        Some(page.step("The moment at the foot", symbol, moment, STATICS, "N.mm").moved(-3, "N.m"))
    }

    fn tip(&self, bent: Term, moment: &Option<Term>, length: &Term) -> Term {
        let foot = self.yields.as_ref().zip(moment.as_ref());
        let with_foot = foot.map_or(bent.clone(), |(yields, moment)| bent + yields * moment * length);
        self.joint.as_ref().map_or(with_foot.clone(), |(_, moved)| with_foot + moved)
    }

    fn slope(&self, bent: Term, moment: &Option<Term>) -> Term {
        let foot = self.yields.as_ref().zip(moment.as_ref());
        let with_foot = foot.map_or(bent.clone(), |(yields, moment)| bent + 180.0 / Term::pi() * yields * moment);
        self.joint.as_ref().map_or(with_foot.clone(), |(play, _)| with_foot + play)
    }
}

/// The rocket's weight across the beam, N, and the beam's own on each metre, N/m.
fn weights(
    page: &mut Page,
    of: &Subject,
    numbers: &FlightNumbers,
    per_length: f64,
    tilt: f64,
    from: &str,
) -> Result<(Term, Term), Lack> {
    let pad = of.pad(numbers)?;
    let loaded = numbers.loaded().ok_or_else(|| lacks(of, numbers, "the rocket's mass"))?;
    let g = gravity(page);
    let told = if pad.tilt.is_some() { "in the file" } else { "nothing is said of a tilt" };
    let tilt = page.know("θ", "tilt from the vertical", Number::given(tilt.to_degrees(), "°"), told);
    let mass = Number::result(loaded.mass * 1e3, "g");
    let m = page.know("m", "the rocket's mass on the pad", mass, "see the working of balance").moved(-3, "kg");
    let own = Number::result(per_length, "kg/m");
    let mu = page.know(
        "ml",
        format!("mass of each metre of the {}", pad.rail_word()),
        own,
        format!("density times section; {from}"),
    );
    let slope = "statics of a slope: the share of a weight across it";
    let across = page.step("The rocket's weight across it", "Pw", &(m * &g * tilt.sin()), slope, "N");
    let spread = page.step("Its own weight across it, on each metre", "qg", &(mu * g * tilt.sin()), slope, "N/m");
    Ok((across, spread))
}

/// The rocket at rest on its stop: its guides share the loads, low on the beam.
fn at_rest(
    page: &mut Page,
    of: &Subject,
    numbers: &FlightNumbers,
    load: &Loads,
    ([l, ei, bent, even], below): ([&Term; 4], &Below),
    balance: f64,
) -> Result<(), Lack> {
    let pad = of.pad(numbers)?;
    let (Some(front), Some(rear), Some(lowest), Some(stiffness)) =
        (numbers.guides().first(), numbers.guides().last(), numbers.lowest(), &numbers.stiffness)
    else {
        return Err(lacks(of, numbers, "the guides' places"));
    };
    let alone = numbers.guides().len() == 1;
    let (fore, aft) =
        if alone { (front.extent.front, rear.extent.back) } else { (front.extent.middle(), rear.extent.middle()) };
    if fore == aft {
        return Ok(());
    }
    page.note(if alone {
        "First the rocket at rest on its stop. The lone guide holds it by its two ends."
    } else {
        "First the rocket at rest on its stop. Its first and last guide hold it by their middles."
    });
    let stop = pad.stop.as_ref().map_or(0.0, |s| s.si);
    let length = pad.rail_length().map_or(0.0, |l| l.si);
    let height = |station: f64| Number::result((stop + lowest - station).clamp(0.0, length) * 1e3, "mm");
    let mm = |m: f64| Number::result(m * 1e3, "mm");
    let places = "from the parts' places";
    let f = page.know("f", "the front hold, behind the tip of the rocket", mm(fore), places);
    let r = page.know("r", "the rear hold, behind the tip of the rocket", mm(aft), places);
    let hf = page.know("hf", "height of the front hold on the beam", height(fore), places);
    let hr = page.know("hr", "height of the rear hold", height(aft), places);
    let x = page.know("x", "balance point, behind the tip", mm(balance), "see the working of balance");
    let turning = &load.weight * (x - &f);
    let turning = match (&load.wind, of.assessment.airframe.airflow.as_ref()) {
        (Some(wind), Some(airflow)) => {
            let means = "where the wind's push acts: the middle of the side view, behind the tip";
            let xs = page.know(
                "xs",
                means,
                mm(airflow.side_centroid),
                "the program: the body's side view, and half of the fins",
            );
            turning + wind * (xs - &f)
        }
        _ => turning,
    };
    let aft = page.step("The load on the rear hold", "Nr", &(turning / (r - &f)), STATICS, "N");
    let fore = page.step("The load on the front hold", "Nf", &(load.total() - &aft), STATICS, "N");
    let under = |n: &Term, h: &Term| n * h.power(2) * (3.0 * l - h) / (6.0 * ei);
    let at_foot = &fore * &hf + &aft * &hr + even * l.power(2) / 2.0;
    let moment = below.moment(page, &at_foot, "Mr");
    let tip = below.tip(bent + under(&fore, &hf) + under(&aft, &hr), &moment, l);
    let tip = page.step("The tip's movement with the rocket at rest", "yr", &tip, BEAM, "mm");
    page.end("lean of the tip in a gust, the rocket at rest", &tip, stiffness.at_rest.in_gust().tip * 1e3);
    Ok(())
}
