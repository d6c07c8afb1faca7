//! Thrust curves and fin outlines: points in the file, or two columns in another one.

use crate::columns::{self, Fault, CORNERS, LOG, THRUST, TRACE};
use crate::design::Curve;
use crate::evaluate::{of_dimension, Evaluator};
use crate::files::beside;
use crate::meant;
use crate::problem::{Problem, BROKEN_CURVE, BROKEN_OUTLINE, BROKEN_RECORD, UNREADABLE_FILE, WRONG_FORM};
use crate::stand::{of_trace, Stand};
use finwright_grammar::vocabulary::size;
use finwright_grammar::{Element, FileId, Place, Span};
use finwright_units::{show, Dimension};
use std::sync::Arc;

/// Beyond these a value is a slip; they keep every later number finite. Time in s, thrust in N. Motors that anybody
/// launches from a pad burn for seconds, the slowest for a minute.
const LONGEST_BURN: f64 = 300.0;
const MOST_THRUST: f64 = 1e8;

/// A curve from a list of pairs.
pub(crate) fn from_list<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    elements: &'f [Element],
    x: Dimension,
    y: Dimension,
    place: Place,
) -> Option<Curve> {
    let mut curve =
        Curve { points: Vec::with_capacity(elements.len()), places: Vec::with_capacity(elements.len()), place };
    // What is wrong with all of the points is told once.
    if let Some(problem) = meant::points(ev, file, elements, (x, y), place) {
        ev.report(problem);
        return None;
    }
    let mut whole = true;
    for element in elements {
        let at = Place { file, span: element.span };
        let Some(second) = &element.second else {
            ev.report(Problem::new(
                WRONG_FORM,
                at,
                "a point of the curve has two values",
                "write time and thrust with a colon between them: `0.2 s: 14 N`",
            ));
            whole = false;
            continue;
        };
        let mut side = |expr: &'f finwright_grammar::Expr, wanted| {
            let quantity = ev.value(file, expr)?;
            of_dimension(ev, Place { file, span: expr.span }, quantity, wanted).map(|q| q.value)
        };
        match (side(&element.first, x), side(second, y)) {
            (Some(t), Some(f)) => {
                curve.points.push((t, f));
                curve.places.push(at);
            }
            _ => whole = false,
        }
    }
    if !whole {
        return None;
    }
    let sound = if x == Dimension::LENGTH { is_outline(ev, &curve) } else { checked(ev, &curve) };
    sound.then_some(curve)
}

/// Whether the points can be a fin's outline; reports the first that can't. Whether its edges cross is for geometry to
/// say.
fn is_outline(ev: &mut Evaluator, curve: &Curve) -> bool {
    let last = curve.points.len().saturating_sub(1);
    let reach = |field: &str| size("fins", field).map_or(f64::INFINITY, |size| size.possible.1);
    let (longest, widest) = (reach("root"), reach("span"));
    let fault = curve.points.iter().enumerate().find_map(|(i, (back, out))| {
        let on_root = i == 0 || i == last;
        if *out < 0.0 {
            Some((i, "this corner lies inside the body", "count outwards from the body, never below zero"))
        } else if on_root && *out != 0.0 {
            let help = "begin and end the outline with `0 mm` outwards";
            Some((i, "the first and last corners lie on the body", help))
        } else if back.abs() > longest || *out > widest {
            Some((i, "this corner lies beyond any fin that flies", "check the unit and the decimal point"))
        } else {
            None
        }
    });
    let runs_back = curve.points.first().zip(curve.points.last()).is_some_and(|(first, last)| last.0 > first.0);
    let (place, message, help) = match fault {
        Some((i, message, help)) => (curve.places.get(i).copied().unwrap_or(curve.place), message, help),
        None if curve.points.len() < 3 => (
            curve.place,
            "a fin's outline has three corners at least",
            "give each corner, how far back and how far out",
        ),
        None if !runs_back => (
            curve.places.last().copied().unwrap_or(curve.place),
            "an outline's last corner lies behind its first",
            "go from the root's front around the tip to the root's back",
        ),
        None => return true,
    };
    ev.report(Problem::new(BROKEN_OUTLINE, place, message, help));
    false
}

/// The length of an outline's root, m: how far back its last corner lies from its first.
pub(crate) fn root_of(outline: &Curve) -> Option<f64> {
    Some(outline.points.last()?.0 - outline.points.first()?.0)
}

/// Points from a file of two columns, a thrust curve's or an outline's: see [`columns`].
pub(crate) fn from_file(ev: &mut Evaluator, file: FileId, path: Span, x: Dimension, place: Place) -> Option<Curve> {
    let (at, text) = text_of(ev, file, path)?;
    let is_of_fin = x == Dimension::LENGTH;
    let (wanted, rule) = if is_of_fin { (CORNERS, BROKEN_OUTLINE) } else { (THRUST, BROKEN_CURVE) };
    match columns::points(&text, wanted) {
        Ok(points) => {
            let curve = Curve { places: vec![at; points.len()], points, place };
            let sound = if is_of_fin { is_outline(ev, &curve) } else { checked(ev, &curve) };
            sound.then_some(curve)
        }
        Err(fault) => {
            report_fault(ev, at, rule, fault);
            None
        }
    }
}

/// The text of a file that a design names, with the place of its name.
fn text_of(ev: &mut Evaluator, file: FileId, path: Span) -> Option<(Place, Arc<str>)> {
    let name = finwright_grammar::unquoted(ev.text(file, path)).to_string();
    let at = Place { file, span: path };
    let user = ev.files.get(file.0 as usize)?.path.clone();
    match ev.provider.read(&beside(&user, &name)) {
        Ok(text) => Some((at, text)),
        Err(reason) => {
            let message = format!("`{name}` can't be used: {reason}");
            ev.report(Problem::new(UNREADABLE_FILE, at, message, "the path is taken from this file's folder"));
            None
        }
    }
}

fn report_fault(ev: &mut Evaluator, at: Place, rule: &'static str, fault: Fault) {
    let name = finwright_grammar::unquoted(ev.text(at.file, at.span)).to_string();
    let line = fault.line.map_or(String::new(), |line| format!("line {line} of "));
    let message = format!("{line}`{name}`: {}", fault.message);
    ev.report(Problem::new(fault.rule.unwrap_or(rule), at, message, fault.help));
}

/// What an instrument recorded, in order of time and otherwise as it is.
pub(crate) fn recording(
    ev: &mut Evaluator,
    file: FileId,
    path: Span,
    (_, y): (Dimension, Dimension),
    place: Place,
) -> Option<Curve> {
    let (at, text) = text_of(ev, file, path)?;
    let wanted = if y == Dimension::FORCE { TRACE } else { LOG };
    let points = match columns::recorded(&text, wanted) {
        Ok(points) => points,
        Err(fault) => {
            report_fault(ev, at, BROKEN_RECORD, fault);
            return None;
        }
    };
    let back = points.windows(2).find(|pair| matches!(pair, [a, b] if b.0 < a.0));
    let (message, help) = match back {
        Some([a, b]) => (goes_back("record", a.0, b.0), "keep one flight or one burn in the file, in order of time"),
        _ if points.len() < LEAST_RECORDED => (
            format!("the record has {}; {LEAST_RECORDED} are the least", counted(points.len())),
            "keep all that the instrument wrote, the quiet before and after too",
        ),
        _ => return Some(Curve { places: vec![at; points.len()], points, place }),
    };
    ev.report(Problem::new(BROKEN_RECORD, at, message, help));
    None
}

/// Fewer points than this show neither noise nor where a motion starts.
const LEAST_RECORDED: usize = 12;

/// A motor's curve from what a stand recorded, with what is known of the record; `None` where there is none to take, which
/// is told.
pub(crate) fn curve_of_trace(ev: &mut Evaluator, curve: Option<&Curve>, trace: &Curve) -> Option<(Curve, Stand)> {
    let (message, help) = if curve.is_some() {
        ("there are a `curve` and a `trace`".to_string(), "keep the one that the motor is to be computed from")
    } else {
        match of_trace(&trace.points) {
            Ok((points, stand)) => {
                let at = trace.places.first().copied().unwrap_or(trace.place);
                let curve = Curve { places: vec![at; points.len()], points, place: trace.place };
                return checked(ev, &curve).then_some((curve, stand));
            }
            Err(unfit) => unfit.in_words(),
        }
    };
    ev.report(Problem::new(BROKEN_RECORD, trace.place, message, help));
    None
}

/// Whether the points can be a thrust curve; reports the first that can't.
fn checked(ev: &mut Evaluator, curve: &Curve) -> bool {
    let fault = |i: usize, message: String, help: &str| {
        let place = curve.places.get(i).copied().unwrap_or(curve.place);
        Some(Problem::new(BROKEN_CURVE, place, message, help))
    };
    let p = &curve.points;
    let mut found = None;
    if p.len() < 2 {
        found = fault(
            usize::MAX,
            format!("the thrust curve has {}; two are the least", counted(p.len())),
            "copy the points from the motor's data, time and thrust each",
        );
    }
    for i in 0..p.len() {
        if found.is_some() {
            break;
        }
        if p[i].0 < 0.0 {
            let message = format!("the curve's time {} s is before ignition", shown(p[i].0));
            found = fault(i, message, "times count from ignition");
        } else if i > 0 && p[i].0 <= p[i - 1].0 {
            found = fault(i, goes_back("curve", p[i - 1].0, p[i].0), "put the points in order of time, each time once");
        } else if p[i].0 > LONGEST_BURN || p[i].1 > MOST_THRUST {
            let how = if p[i].1 > MOST_THRUST {
                format!("pushes with {} N", shown(p[i].1))
            } else {
                format!("burns for {} s", shown(p[i].0))
            };
            let help = "check the units and the decimal points; a file's header says its units: `t [ms], F [N]`";
            found = fault(i, format!("no motor {how}"), help);
        } else if p[i].1 < 0.0 {
            found = fault(
                i,
                format!("the thrust is negative: {} N", shown(p[i].1)),
                "a motor doesn't pull backwards; check the sign",
            );
        }
    }
    if found.is_none() && p.iter().all(|q| q.1 == 0.0) {
        found = fault(
            usize::MAX,
            "the thrust curve is zero throughout".to_string(),
            "copy the points from the motor's data",
        );
    }
    match found {
        Some(problem) => {
            ev.report(problem);
            false
        }
        None => true,
    }
}

fn counted(points: usize) -> String {
    format!("{points} point{}", if points == 1 { "" } else { "s" })
}

/// What is wrong with a moment that doesn't come after the one before it, s.
fn goes_back(whose: &str, before: f64, then: f64) -> String {
    let (before, then) = (shown(before), shown(then));
    if before == then {
        format!("the {whose} has the time {then} s twice")
    } else {
        format!("the {whose}'s time goes back, from {before} s to {then} s")
    }
}

/// A number of a curve, without the last digits that a conversion of its unit leaves.
fn shown(number: f64) -> String {
    show::trimmed(number, 6)
}
