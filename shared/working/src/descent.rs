//! The speed of coming down.

use crate::air::{density, gravity};
use crate::page::Page;
use crate::sources::{GEOMETRY, WEIGHT};
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::FlightNumbers;
use finwright_model::PartKind;
use finwright_physics::descent::round_area;

/// The steps.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let needs = || lacks(of, numbers, "a parachute or a streamer");
    let descent = numbers.sinking.ok_or_else(needs)?;
    let part = of.design.parts.get(descent.part).ok_or_else(needs)?;
    let (area, drag, whole) = match &part.kind {
        PartKind::Parachute { diameter: Some(diameter), drag } => {
            let means = format!("diameter of {}, its cloth laid flat", part.label());
            let d = page.know("D", means, Number::given(diameter.si * 1e3, "mm"), "in the file").moved(-3, "m");
            let area = Term::pi() * d.power(2) / 4.0;
            (page.step("The area of its cloth", "S", &area, GEOMETRY, "m2"), drag, round_area(diameter.si))
        }
        PartKind::Streamer { length: Some(length), width: Some(width), drag } => {
            let mm = |m: f64| Number::given(m * 1e3, "mm");
            let means = format!("length of {}", part.label());
            let l = page.know("L", means, mm(length.si), "in the file").moved(-3, "m");
            let b = page.know("B", "its width", mm(width.si), "in the file").moved(-3, "m");
            (page.step("The area of one side", "S", &(l * b), GEOMETRY, "m2"), drag, length.si * width.si)
        }
        _ => return Err(needs()),
    };
    let from = match (drag.is_some(), &part.kind) {
        (true, _) => "in the file",
        (_, PartKind::Parachute { .. }) => "a default: a flat round canopy on its cloth (Knacke, from memory)",
        _ => "a default: a streamer on one side (common practice, no source)",
    };
    let cd = page.know("c", "drag coefficient on that area", Number::given(descent.drag_area / whole, ""), from);
    let burnt = numbers.upper.map(|upper| upper.burning.dry).or(numbers.burnt).ok_or_else(needs)?;
    let mass = Number::result(burnt.mass * 1e3, "g");
    let m = page.know("m", "mass at burnout", mass, "see the working of balance").moved(-3, "kg");
    let g = gravity(page);
    let rho = density(page, of, numbers)?;
    let weight = page.step("The weight that hangs from it", "W", &(m * g), WEIGHT, "N");
    let speed = (2.0 * weight / (rho * cd * area)).sqrt();
    let source = "steady descent: drag ρ v²/2 · c · S equals the weight";
    let v = page.step("The speed at which its drag carries that weight", "v", &speed, source, "m/s");
    page.end("descent near the ground", &v, descent.rate);
    Ok(())
}
