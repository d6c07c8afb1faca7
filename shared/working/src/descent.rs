//! The speed of coming down.

use crate::air::{density, gravity};
use crate::page::Page;
use crate::sources::{GEOMETRY, WEIGHT};
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::flight::sinking::Cloth;
use finwright_assess::FlightNumbers;
use finwright_model::PartKind;

/// The steps.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let needs = || lacks(of, numbers, "a parachute or a streamer");
    let descent = numbers.sinking.as_ref().ok_or_else(needs)?;
    let alone = descent.canopies.len() == 1;
    let mut together: Option<Term> = None;
    for (number, cloth) in descent.canopies.iter().enumerate() {
        // Of several, each has its number: S1, c1.
        let name = |symbol: &str| if alone { symbol.to_string() } else { format!("{symbol}{}", number + 1) };
        let area = drag_area(page, of, cloth, &name).ok_or_else(needs)?;
        together = Some(match together {
            None => area,
            Some(others) => others + area,
        });
    }
    let mut area = together.ok_or_else(needs)?;
    if !alone {
        area = page.step("The drag area of all that are open at the ground", "A", &area, GEOMETRY, "m2");
    }
    let mass = Number::result(descent.mass * 1e3, "g");
    let (means, from) = match descent.bodies.is_empty() {
        true => ("mass at burnout", "see the working of balance"),
        false => {
            ("mass of the piece with the motor, at burnout", "the masses of its parts; the other piece hangs elsewhere")
        }
    };
    let m = page.know("m", means, mass, from).moved(-3, "kg");
    let g = gravity(page);
    let rho = density(page, of, numbers)?;
    let weight = page.step("The weight that hangs from it", "W", &(m * g), WEIGHT, "N");
    let speed = (2.0 * weight / (rho * area)).sqrt();
    let source = "steady descent: drag ρ v²/2 · c · S equals the weight";
    let v = page.step("The speed at which its drag carries that weight", "v", &speed, source, "m/s");
    page.end("descent near the ground", &v, descent.rate);
    Ok(())
}

/// A canopy's drag coefficient times its area.
fn drag_area(page: &mut Page, of: &Subject, cloth: &Cloth, name: &dyn Fn(&str) -> String) -> Option<Term> {
    let part = of.design.parts.get(cloth.part)?;
    let mm = |m: f64| Number::given(m * 1e3, "mm");
    let (area, drag) = match &part.kind {
        PartKind::Parachute { diameter: Some(diameter), drag, .. } => {
            let means = format!("diameter of {}, its cloth laid flat", part.label());
            let d = page.know(&name("D"), means, mm(diameter.si), "in the file").moved(-3, "m");
            let area = Term::pi() * d.power(2) / 4.0;
            (page.step("The area of its cloth", &name("S"), &area, GEOMETRY, "m2"), drag)
        }
        PartKind::Streamer { length: Some(length), width: Some(width), drag, .. } => {
            let means = format!("length of {}", part.label());
            let l = page.know(&name("L"), means, mm(length.si), "in the file").moved(-3, "m");
            let b = page.know(&name("B"), "its width", mm(width.si), "in the file").moved(-3, "m");
            (page.step("The area of one side", &name("S"), &(l * b), GEOMETRY, "m2"), drag)
        }
        _ => return None,
    };
    let from = match (drag.is_some(), &part.kind) {
        (true, _) => "in the file",
        (_, PartKind::Parachute { .. }) => "a default: a flat round canopy on its cloth (Knacke, from memory)",
        _ => "a default: a streamer on one side (common practice, no source)",
    };
    let cd = page.know(&name("c"), "drag coefficient on that area", Number::given(cloth.drag, ""), from);
    Some(cd * area)
}
