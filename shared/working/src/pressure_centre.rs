//! The centre of pressure: each part's share of the side force, and their weighted mean.

use crate::page::{Cell, Page, Table};
use crate::sources::{BARROWMAN, DIEDERICH, GEOMETRY, MUNK, STATICS};
use crate::term::Term;
use crate::{Lack, Number, Subject};
use finwright_assess::shape::nose_shape;
use finwright_assess::{Airflow, Measure, Parts, Unknown};
use finwright_checks::lacking::sentence;
use finwright_model::{Choice, Extent, Fins, Part, PartId, PartKind};
use finwright_physics::normal_force::{total, FinLift, FinSet, NormalForce};
use finwright_physics::nose::NoseShape;

/// The steps. Lengths in mm; every part's slope C is on the circle of the greatest diameter.
pub(crate) fn work(page: &mut Page, of: &Subject) -> Result<(), Lack> {
    let lack = || {
        let shapes = |u: &&Unknown| matches!(u.measure, Measure::Lift | Measure::Shape) && u.is_cause();
        let told = of.assessment.airframe.unknown.iter().find(shapes);
        Lack(told.map_or("the rocket's whole shape".to_string(), |unknown| sentence(of.design, &[unknown])))
    };
    let (Some(airflow), Some(calibre)) = (&of.assessment.airframe.airflow, of.assessment.airframe.calibre) else {
        return Err(lack());
    };
    let program = airflow.total.x().ok_or_else(lack)?;
    page.note(
        "At small angles to the air each part pushes sideways by its slope C times the angle in radians. A tube \
        of even width has no push there; what widens, narrows or stands out has.",
    );
    let d = page.know("d", "the rocket's greatest diameter", mm(calibre), "in the file");
    let mut table = Table::new(
        "Each part's slope, where it acts behind the tip, and the moment of the two",
        &[("part", ""), ("slope C", "C"), ("station X, mm", "X"), ("moment, mm", "M")],
    );
    let parts = of.assessment.airframe.parts(of.design);
    for (id, share) in &airflow.parts {
        let (Some(part), Some(extent)) = (parts.part(*id), parts.extent(*id)) else { continue };
        let mut row = |label: String, (slope, station): (Term, Term)| {
            let (c, x) = (slope.number().cloned()?, station.number().cloned()?);
            let moment = table.work("M", &(Term::known("C", &c) * Term::known("X", &x)), "mm");
            table.rows.push(vec![Cell::Words(label), Cell::Given(c), Cell::Given(x), Cell::Worked(moment)]);
            Some(())
        };
        let face = airflow.face.filter(|(of, _)| of == id).map(|(_, face)| face);
        if face.is_some() {
            face_of(page, part, extent, &d)
                .and_then(|found| row(format!("front of {}", part.label()), found))
                .ok_or_else(lack)?;
        }
        let own = total([
            *share,
            face.map_or(NormalForce::default(), |face| NormalForce { cna: -face.cna, moment: -face.moment }),
        ]);
        if own.cna.abs() < 1e-12 && own.moment.abs() < 1e-12 {
            continue;
        }
        share_of(page, (parts, *id), airflow, &d).and_then(|found| row(part.label(), found)).ok_or_else(lack)?;
    }
    let (slopes, moments) = (table.sum("C"), table.sum("M"));
    let empty = || Cell::Words(String::new());
    table.rows.push(vec![
        Cell::Words("sum".to_string()),
        Cell::Sum(slopes.clone()),
        empty(),
        Cell::Sum(moments.clone()),
    ]);
    page.table(table);
    let slopes = Term::known("ΣC", &slopes);
    let x = Term::known("ΣM", &moments) / &slopes;
    let x = page.step("The centre of pressure, behind the tip", "X", &x, STATICS, "mm");
    page.end("normal-force slope, per radian", &slopes, airflow.total.cna);
    page.end("centre of pressure", &x, program * 1e3);
    Ok(())
}

fn mm(m: f64) -> Number {
    Number::given(m * 1e3, "mm")
}

/// The slope and station of a flat front.
fn face_of(page: &mut Page, part: &Part, extent: Extent, d: &Term) -> Option<(Term, Term)> {
    let label = part.label();
    let front = match &part.kind {
        PartKind::Tube { outer, .. } => outer.as_ref()?.si,
        PartKind::Taper { front, .. } => front.as_ref()?.si,
        _ => return None,
    };
    let f = page.know("f", format!("diameter of the flat front of {label}"), mm(front), "in the file");
    let slope = 2.0 * (f / d).power(2);
    let slope = page.step(format!("{label} has no nose ahead: the slope of its flat front"), "C", &slope, MUNK, "");
    let x = page.know("X", "where it acts, behind the tip", mm(extent.front), "at the front itself");
    Some((slope, x))
}

/// A part's slope and station.
fn share_of(page: &mut Page, (parts, id): (Parts, PartId), airflow: &Airflow, d: &Term) -> Option<(Term, Term)> {
    let (part, extent) = (parts.part(id)?, parts.extent(id)?);
    let label = part.label();
    match &part.kind {
        PartKind::Nose { shape, length, base, .. } => {
            let (length, base) = (length.as_ref()?.si, base.as_ref()?.si);
            let l = page.know("L", format!("length of {label}"), mm(length), "in the file");
            let b = page.know("b", "diameter of its base", mm(base), "in the file");
            let slope = page.step(format!("{label}: its slope"), "C", &(2.0 * (b / d).power(2)), MUNK, "");
            let volume = parts.body(id)?.geometry.volume;
            let filled = volume / (length * std::f64::consts::PI * base * base / 4.0);
            let k = share_filled(page, shape.as_ref()?, filled);
            let x = page.step(format!("{label}: where it acts"), "X", &(&l * (1.0 - k)), MUNK, "mm");
            Some((slope, x))
        }
        PartKind::Taper { shape, length, front, back, .. } => {
            let l = page.know("L", format!("length of {label}"), mm(length.as_ref()?.si), "in the file");
            let (front, back) = (front.as_ref()?.si, back.as_ref()?.si);
            let f = page.know("f", "its front diameter", mm(front), "in the file");
            let b = page.know("b", "its back diameter", mm(back), "in the file");
            let x0 = page.know("x0", "where it begins, behind the tip", mm(extent.front), "from the parts' lengths");
            let slope = 2.0 * ((&b / d).power(2) - (&f / d).power(2));
            let slope = page.step(format!("{label}: its slope, negative where it narrows"), "C", &slope, MUNK, "");
            if shape.as_ref().is_some_and(|s| s.word == "ogive") {
                let volume = parts.body(id)?.geometry.volume;
                let circle = |d: f64| std::f64::consts::PI * d * d / 4.0;
                let mean = volume / (l.value() * 1e-3) / circle(back);
                let from = "the program: the volume of an arc turned about the axis";
                let k =
                    page.know("k", "its volume over that of a cylinder of its back", Number::result(mean, ""), from);
                let ahead = (&f / &b).power(2);
                let x = &x0 + &l * (1.0 - k) / (1.0 - ahead);
                return Some((slope, page.step(format!("{label}: where it acts"), "X", &x, MUNK, "mm")));
            }
            let x = x0 + l / 3.0 * (1.0 + 1.0 / (1.0 + f / b));
            Some((slope, page.step(format!("{label}: where it acts"), "X", &x, BARROWMAN, "mm")))
        }
        PartKind::Fins(fins) => {
            let at = airflow.fins.iter().position(|(fins, _)| *fins == id)?;
            let (lift, set) = (airflow.fins.get(at)?.1, airflow.aerodynamics.fins.get(at)?);
            fin_share(page, &label, fins, &lift, set, d)
        }
        PartKind::TubeFins { count, outer, inner, .. } => {
            ring_share(page, &label, count.as_ref()?.si, [outer.as_ref()?.si, inner.as_ref()?.si], extent, d)
        }
        PartKind::RingFin { outer, inner, .. } => {
            ring_share(page, &label, 1.0, [outer.as_ref()?.si, inner.as_ref()?.si], extent, d)
        }
        _ => None,
    }
}

/// The share of the cylinder around it that a nose fills.
fn share_filled(page: &mut Page, shape: &Choice, filled: f64) -> Term {
    let want = "The share k of the cylinder around it that the nose fills";
    let standard = "textbook volume (from memory)";
    let number = |n: f64| Number::given(n, "");
    match nose_shape(shape.word, shape.number) {
        NoseShape::Cone => page.step(want, "k", &(Term::constant(1.0) / 3.0), standard, ""),
        NoseShape::Ellipsoid => page.step(want, "k", &(Term::constant(2.0) / 3.0), standard, ""),
        NoseShape::Power { n } => {
            let n = page.know("n", "the power of its outline", number(n), "in the file");
            page.step(want, "k", &(1.0 / (2.0 * n + 1.0)), standard, "")
        }
        NoseShape::Haack { c } => {
            let c = page.know("c", "the number of its outline", number(c), "in the file, 0 where none is said");
            page.step(want, "k", &(0.5 + 3.0 * c / 16.0), "integral of the Haack outline", "")
        }
        NoseShape::Ogive => {
            let from = "the program: the volume of an arc turned about the axis; 8/15 = 0.5333 for a very long one";
            page.know("k", "the share of the cylinder around it that the ogive fills", Number::result(filled, ""), from)
        }
        NoseShape::Parabola { .. } => {
            let from = "the program: the volume of this outline turned about the axis";
            page.know("k", "the share of the cylinder around it that the nose fills", Number::result(filled, ""), from)
        }
    }
}

fn fin_share(
    page: &mut Page,
    label: &str,
    fins: &Fins,
    lift: &FinLift,
    set: &FinSet,
    d: &Term,
) -> Option<(Term, Term)> {
    let said = "in the file";
    let n = page.know("N", format!("how many fins {label} has"), Number::given(f64::from(set.count), ""), said);
    let s = page.know("S", "how far each stands out from the body", mm(set.fin.span), said);
    let r = page.know("R", "the body's radius there", mm(set.body_radius), said);
    let x0 = page.know("x0", "where their roots begin, behind the tip", mm(set.x), "from the parts' places");
    let want = format!("{label}: how much the body adds to their lift");
    let body = page.step(want, "K", &(1.0 + &r / (&s + &r)), BARROWMAN, "");
    let crowd = (lift.count_factor != 1.0).then(|| {
        let from = "MIL-HDBK-762 (from memory): many fins take each other's air";
        page.know("kN", "a factor for so many fins", Number::given(lift.count_factor, ""), from)
    });
    let with_crowd = |slope: Term| match &crowd {
        Some(factor) => factor * slope,
        None => slope,
    };
    let is_ellipse = fins.plan.as_ref().is_some_and(|plan| plan.word == "ellipse");
    if fins.outline.is_none() && !is_ellipse {
        let chord = |m: &Option<finwright_model::Amount>| Some(mm(m.as_ref()?.si));
        let a = page.know("CR", "root chord", chord(&fins.root)?, said);
        let b = page.know("CT", "tip chord", chord(&fins.tip)?, said);
        let sweep = page.know("XR", "how far the tip's front lies behind the root's", chord(&fins.sweep)?, said);
        let middle = (s.power(2) + (&sweep + &b / 2.0 - &a / 2.0).power(2)).sqrt();
        let lf = page.step(
            format!("{label}: length of the line through the chords' middles"),
            "LF",
            &middle,
            GEOMETRY,
            "mm",
        );
        let chords = page.step(format!("{label}: root and tip chord together"), "CS", &(&a + &b), GEOMETRY, "mm");
        let slope =
            with_crowd(4.0 * &n * (&s / d).power(2)) * &body / (1.0 + (1.0 + (2.0 * lf / &chords).power(2)).sqrt());
        let slope = page.step(format!("{label}: their slope"), "C", &slope, BARROWMAN, "");
        let station = x0 + &sweep * (&a + 2.0 * &b) / (3.0 * &chords) + (&chords - &a * &b / &chords) / 6.0;
        return Some((slope, page.step(format!("{label}: where they act"), "X", &station, BARROWMAN, "mm")));
    }
    let (area, sweep, quarter) = if is_ellipse {
        let root = page.know("CR", "root chord", mm(set.fin.root), said);
        let area =
            page.step(format!("{label}: area of one fin"), "Af", &(Term::pi() * &root * &s / 4.0), GEOMETRY, "mm2");
        let quarter = root * (0.5 - 2.0 / (3.0 * Term::pi()));
        let quarter = page.step(
            format!("{label}: quarter of the mean chord, behind the root's front"),
            "q",
            &quarter,
            "Barrowman, 1967 (from memory): 0.288 of the root",
            "mm",
        );
        (area, None, quarter)
    } else {
        let from = "the program: strips between the heights of the outline's corners";
        let area = page.know("Af", "area of one fin", Number::result(set.fin.area * 1e6, "mm2"), from);
        let sweep = Number::result(set.fin.mid_chord_sweep.to_degrees(), "°");
        let sweep = page.know("Γ", "sweep of the line through the chords' middles", sweep, from);
        let quarter = Number::result(set.fin.quarter_chord_x * 1e3, "mm");
        let quarter = page.know("q", "quarter of the mean chord, behind the root's front", quarter, from);
        (area, Some(sweep), quarter)
    };
    let chordwise = match &sweep {
        Some(sweep) => area * sweep.cos(),
        None => area,
    };
    let aspect = page.step(format!("{label}: how slender one fin is"), "A", &(s.power(2) / chordwise), DIEDERICH, "");
    let slope = with_crowd(4.0 * &n * (&s / d).power(2)) * &body / (1.0 + (1.0 + aspect.power(2)).sqrt());
    let slope = page.step(format!("{label}: their slope"), "C", &slope, DIEDERICH, "");
    let station = page.step(format!("{label}: where they act"), "X", &(x0 + quarter), BARROWMAN, "mm");
    Some((slope, station))
}

fn ring_share(
    page: &mut Page,
    label: &str,
    count: f64,
    [outer, inner]: [f64; 2],
    extent: Extent,
    d: &Term,
) -> Option<(Term, Term)> {
    let source = "between slender-body and strip theory, a form of our own after Diederich, NACA TN 2335";
    let n = page.know("N", format!("how many rings {label} has"), Number::given(count, ""), "in the file");
    let mean = page.know("D", "a ring's mean diameter", mm(0.5 * (outer + inner)), "from its outer and inner one");
    let chord = page.know("c", "its length along the body", mm(extent.length()), "in the file");
    let x0 = page.know("x0", "where it begins, behind the tip", mm(extent.front), "from the parts' places");
    let pi = Term::pi;
    let aspect = page.step(format!("{label}: how short a ring is"), "A", &(&mean / &chord), GEOMETRY, "");
    let own = 2.0 * pi().power(2) * &aspect / (pi() + (pi().power(2) + 4.0 * aspect.power(2)).sqrt());
    let own = page.step(format!("{label}: a ring's slope on its own area D·c"), "Co", &own, source, "");
    let slope = n * own * mean * &chord / (pi() * d.power(2) / 4.0);
    let slope = page.step(format!("{label}: their slope"), "C", &slope, "on the reference circle", "");
    let source = "a form of our own, fitted to a vortex lattice of a ring alone";
    let station = x0 + 0.25 * chord * &aspect / (1.0 + aspect.power(2)).sqrt();
    let station = page.step(format!("{label}: where they act"), "X", &station, source, "mm");
    Some((slope, station))
}
