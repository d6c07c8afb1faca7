//! What the guides carry: on the pad in a gust, and while the rocket hangs level from them.

use crate::air::{density, gravity, side_force, wind_source};
use crate::page::Page;
use crate::sources::{STATICS, WEIGHT};
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::FlightNumbers;

/// The steps. Lengths in mm, forces in N.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let pad = of.pad(numbers)?;
    if pad.has_tower() {
        return Err(Lack("lugs, buttons or rail guides: a tower holds the rocket by its body".to_string()));
    }
    let (Some(loads), Some(loaded), Some(air)) = (&numbers.loads, numbers.loaded(), numbers.air) else {
        return Err(lacks(of, numbers, "the guides' places and the rocket's mass"));
    };
    let (Some(front), Some(rear)) = (numbers.guides().first(), numbers.guides().last()) else {
        return Err(lacks(of, numbers, "the guides' places"));
    };
    let alone = numbers.guides().len() == 1;
    let (fore, aft) =
        if alone { (front.extent.front, rear.extent.back) } else { (front.extent.middle(), rear.extent.middle()) };
    page.note(if alone {
        "A lone guide holds the rocket by its two ends; the greater of their loads counts."
    } else {
        "The first and the last guide hold the rocket by their middles."
    });
    let mm = |m: f64| Number::result(m * 1e3, "mm");
    let places = "from the parts' places";
    let f = page.know("f", "the front hold, behind the tip", mm(fore), places);
    let r = page.know("r", "the rear hold, behind the tip", mm(aft), places);
    let x = page.know("x", "balance point on the pad, behind the tip", mm(loaded.x), "see the working of balance");
    let mass = Number::result(loaded.mass * 1e3, "g");
    let m = page.know("m", "mass on the pad", mass, "see the working of balance").moved(-3, "kg");
    let g = gravity(page);
    let weight = page.step("The weight", "W", &(m * g), WEIGHT, "N");
    let turning = &weight * (&x - &f) / (&r - &f);
    let rear_level = page.step("Hanging level: the load on the rear hold", "Lr", &turning, STATICS, "N");
    let front_level =
        page.step("Hanging level: the load on the front hold", "Lf", &(&weight - &rear_level), STATICS, "N");
    let tilt = pad.tilt_or_upright();
    let told = if tilt.is_default { "nothing is said of a tilt" } else { "in the file" };
    let tilt = Number::given(tilt.si.to_degrees(), "°");
    let tilt = page.know("θ", "tilt of the pad from the vertical", tilt, told);
    let across =
        page.step("The weight across the guide on the pad", "P", &(weight * tilt.sin()), "statics of a slope", "N");
    let mut turning = &across * (x - &f);
    let mut total = across.clone();
    if air.gust > 0.0 {
        let wind = page.know("w", "the wind in a gust", Number::given(air.gust, "m/s"), wind_source(numbers));
        let rho = density(page, of, numbers)?;
        let push = side_force(page, of, &rho, &wind)?;
        let centroid = of.assessment.airframe.airflow.as_ref().map_or(0.0, |airflow| airflow.side_centroid);
        let means = "where that push acts: the middle of the side view, behind the tip";
        let xs = page.know("xs", means, mm(centroid), "the program: the body's side view, and half of the fins");
        turning = turning + &push * (xs - &f);
        total = &across + push;
    }
    let rear_pad =
        page.step("On the pad in a gust: the load on the rear hold", "Gr", &(turning / (r - f)), STATICS, "N");
    let front_pad =
        page.step("On the pad in a gust: the load on the front hold", "Gf", &(total - &rear_pad), STATICS, "N");
    page.note("A minus sign means that the hold is pressed the other way; what it carries is the number without it.");
    let greater =
        |one: &Term, other: &Term| if one.value().abs() >= other.value().abs() { one.clone() } else { other.clone() };
    let mut compare = |name: &str, hold: &Term, program: f64| page.end(name, hold, program * hold.value().signum());
    match loads.guides.as_slice() {
        [only] => {
            compare("load on the guide, hanging level", &greater(&front_level, &rear_level), only.level);
            compare("load on the guide, on the pad in a gust", &greater(&front_pad, &rear_pad), only.pad_gust);
        }
        [first, last, ..] => {
            compare(&format!("load on {}, hanging level", of.label(first.part)), &front_level, first.level);
            compare(&format!("load on {}, hanging level", of.label(last.part)), &rear_level, last.level);
            compare(&format!("load on {}, on the pad in a gust", of.label(first.part)), &front_pad, first.pad_gust);
            compare(&format!("load on {}, on the pad in a gust", of.label(last.part)), &rear_pad, last.pad_gust);
        }
        [] => {}
    }
    page.neglect("The air's force while the rocket runs up the guide, which the program adds for the greatest load.");
    Ok(())
}
