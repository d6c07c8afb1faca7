//! Mass and balance point, part by part.

use crate::page::{Cell, Page, Table};
use crate::sources::STATICS;
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::stage::{cluster, motor_mass};
use finwright_assess::{mounted::motor_extent, place::reference_motor, stage::motors};
use finwright_assess::{FlightNumbers, Weight};
use finwright_model::{Anchor, Part};
use finwright_physics::mass::MassProps;

/// The steps. Lengths in mm, masses in g.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let (Some(loaded), Some(computed), Some(burnt), Some(propellant)) =
        (numbers.loaded(), numbers.computed(), numbers.burnt(), numbers.propellant())
    else {
        return Err(lacks(of, numbers, "every part's mass and place"));
    };
    let mut table = Table::new(
        "Each part: its mass, where it balances behind the tip, and the moment of the two",
        &[("part", ""), ("mass m, g", "m"), ("station x, mm", "x"), ("moment, g.mm", "M"), ("its mass is", "")],
    );
    for (id, part) in of.design.parts.iter().enumerate() {
        let (Some(Some(weight)), Some(Some(extent))) =
            (of.assessment.airframe.weights.get(id), of.assessment.airframe.extents.get(id))
        else {
            continue;
        };
        if weight.own.mass > 0.0 {
            let how = origin(of, part, weight);
            line(&mut table, part.label(), weight.own.mass, weight.own.x + extent.front, how);
        }
    }
    let flight = of.design.flights.get(numbers.flight);
    for (motor, stage) in flight.map(|f| motors(of.design, f)).unwrap_or_default() {
        let (Some((whole, _)), Some(extent)) =
            (motor_mass(of.design, motor, stage), motor_extent(of.assessment.airframe.parts(of.design), motor, stage))
        else {
            continue;
        };
        let label = match cluster(of.design, stage).0 {
            n if n > 1.0 => format!("{n} × motor {}", motor.name.value),
            _ => format!("motor {}", motor.name.value),
        };
        line(&mut table, label, whole.mass, whole.x + extent.front, "given; it balances at its middle".to_string());
    }
    let (mass, moment) = (table.sum("m"), table.sum("M"));
    table.rows.push(vec![
        Cell::Words("sum".to_string()),
        Cell::Sum(mass.clone()),
        Cell::Words(String::new()),
        Cell::Sum(moment.clone()),
        Cell::Words(String::new()),
    ]);
    page.table(table);
    say_fixed_points(page, of);
    let (m, moment) = (Term::known("Σm", &mass), Term::known("ΣM", &moment));
    let x = page.step("The balance point on the pad, behind the tip", "x", &(&moment / &m), STATICS, "mm");
    let as_computed = if numbers.basis().is_weighed() { ", as computed" } else { "" };
    page.end(format!("mass on the pad{as_computed}"), &m, computed.mass * 1e3);
    page.end(format!("balance point on the pad{as_computed}"), &x, computed.x * 1e3);
    let (m, moment) = as_flown(page, numbers, loaded, (m, moment));
    let (m, moment) = without_fallen(page, numbers, (m, moment));
    let from = "the motor in the file; evenly along its case, an estimate";
    let mp = page.know(
        "mp",
        "propellant, which burns away",
        Number::given(propellant.mass * 1e3, "g"),
        "the motor in the file",
    );
    let xp = page.know("xp", "where it balances", Number::given(propellant.x * 1e3, "mm"), from);
    let mb = page.step("The mass at burnout", "mb", &(&m - &mp), "what burns away is gone", "g");
    let xb = page.step("The balance point at burnout", "xb", &((moment - mp * xp) / &mb), STATICS, "mm");
    page.end("mass at burnout", &mb, burnt.mass * 1e3);
    page.end("balance point at burnout", &xb, burnt.x * 1e3);
    Ok(())
}

/// Guides that fall away as the rocket leaves are gone at burnout.
fn without_fallen(page: &mut Page, numbers: &FlightNumbers, (m, moment): (Term, Term)) -> (Term, Term) {
    let Some(shed) = numbers.weighed.map(|weighed| weighed.shed).filter(|shed| shed.mass > 0.0) else {
        return (m, moment);
    };
    let from = "the guides' masses and places above";
    let mf = page.know(
        "mf",
        "guides that fall away at the end of the rod or rail",
        Number::result(shed.mass * 1e3, "g"),
        from,
    );
    let xf = page.know("xf", "where they balance", Number::result(shed.x * 1e3, "mm"), from);
    let left = page.step("The mass without them", "ml", &(&m - &mf), "what falls away is gone", "g");
    let moment = page.step("The moment about the tip without them", "Ml", &(moment - mf * xf), STATICS, "g.mm");
    (left, moment)
}

/// The rocket on the scale is the one that flies: its mass and its moment about the tip, as weighed where it was.
fn as_flown(page: &mut Page, numbers: &FlightNumbers, loaded: MassProps, computed: (Term, Term)) -> (Term, Term) {
    if !numbers.basis().is_weighed() {
        return computed;
    }
    let (m, moment) = computed;
    page.note(
        "The rocket on the scale is the one that flies: from here on its mass and balance point are those of \
        the bench. What it says more than the parts is glue, paint or something forgotten.",
    );
    let from = |measured: bool| match measured {
        true => "on the bench",
        false => "as computed, since it wasn't measured: what the scale says more is taken to sit there",
    };
    let mass = Number::given(loaded.mass * 1e3, "g");
    let weighed = page.know("M", "mass on the pad, as flown", mass, from(numbers.basis().mass));
    let station = Number::given(loaded.x * 1e3, "mm");
    let balance = page.know("X", "balance point on the pad, as flown", station, from(numbers.basis().balance));
    let more = page.step("What the scale says more than the parts", "Δm", &(&weighed - &m), "the difference", "g");
    let flown = page.step("The moment about the tip, as flown", "MX", &(&weighed * &balance), STATICS, "g.mm");
    if numbers.basis().mass && numbers.basis().balance && more.value().abs() > 0.0 {
        let place = (&flown - &moment) / &more;
        page.step("Where that difference would have to sit, behind the tip", "x*", &place, STATICS, "mm");
    }
    (weighed, flown)
}

fn line(table: &mut Table, label: String, mass: f64, station: f64, how: String) {
    let (m, x) = (Number::result(mass * 1e3, "g"), Number::result(station * 1e3, "mm"));
    let moment = table.work("M", &(Term::known("m", &m) * Term::known("x", &x)), "g.mm");
    table.rows.push(vec![Cell::Words(label), Cell::Given(m), Cell::Given(x), Cell::Worked(moment), Cell::Words(how)]);
}

fn origin(of: &Subject, part: &Part, weight: &Weight) -> String {
    let material = part.material.as_ref().and_then(|m| of.design.materials.get(m.value));
    let assumed = weight.assumed.and_then(|assumed| assumed.of_its_part(of.design));
    match (weight.given, assumed, material) {
        (true, ..) => "given".to_string(),
        (_, Some(assumed), _) => format!("a default: {assumed}"),
        (_, _, Some(material)) => format!("volume × density of {}", material.name.value),
        _ => "volume × density".to_string(),
    }
}

/// A guide placed from the balance point moves it a little in turn.
fn say_fixed_points(page: &mut Page, of: &Subject) {
    for (id, part) in of.design.parts.iter().enumerate() {
        let Some(at) = part.at.as_ref() else { continue };
        let side = match at.anchor {
            Anchor::AheadOfBalance => "ahead of",
            Anchor::BehindBalance => "behind",
            _ => continue,
        };
        let Some(extent) = of.assessment.airframe.extents.get(id).copied().flatten() else { continue };
        let motor = reference_motor(of.design, id).map_or(String::new(), |m| format!(" with {} in", m.name.value));
        let distance = Number::given(at.distance.si * 1e3, "mm");
        let place = match at.distance.si {
            0.0 => "at".to_string(),
            _ => format!("{distance} {side}"),
        };
        page.note(format!(
            "{} is put {place} the balance point{motor}, and moves that point a little in turn. The program places \
                it, finds the balance point, places it again, until nothing moves: its middle then lies at {}, a \
                fixed point.",
            part.label(),
            Number::result(extent.middle() * 1e3, "mm"),
        ));
    }
}
