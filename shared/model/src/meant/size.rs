//! A number of a size that nothing has: what is told of it, and the unit that was probably meant.

use super::units_used;
use crate::evaluate::Evaluator;
use crate::problem::{Problem, OUT_OF_RANGE};
use finwright_grammar::vocabulary::{size, BlockWord, FieldWord};
use finwright_grammar::{Measure, Place};
use finwright_units::{find_unit, show, Quantity};

/// Whether a value is of a size that anything that flies has; reports it if not. Nothing may be computed with one that
/// isn't: it's a slip of the unit or the decimal point, and all that followed would be nonsense.
pub(crate) fn possible<'f>(
    ev: &mut Evaluator<'f>,
    place: Place,
    of: &BlockWord,
    known: &FieldWord,
    quantity: &Quantity,
    measure: &'f Measure,
) -> bool {
    let Some(size) = size(of.word, known.word) else { return true };
    let (least, most) = size.possible;
    if (least..=most).contains(&quantity.value) {
        return true;
    }
    // What a name stands for is wrong where it's said, once for all that use it.
    let cause = cause(ev, place, measure);
    let shown = show::quantity(quantity.value, quantity.dimension);
    let (bound, side) = if quantity.value > most { (most, "beyond") } else { (least, "below") };
    let bound = show::quantity(bound, quantity.dimension);
    let message = format!("a `{}` of {shown} in `{}` is {side} anything that flies ({bound})", known.word, of.word);
    let text = ev.text(cause.file, cause.span).trim();
    let used = ev.files.get(cause.file.0 as usize).map(|file| units_used(&file.tree)).unwrap_or_default();
    let problem = Problem::new(OUT_OF_RANGE, cause, message, "check the unit and the decimal point");
    let problem = match size_meant(text, of.word, known.word, &used) {
        Some(meant) => Problem { help: format!("did you mean `{meant}`?"), ..problem }
            .replaced_by(format!("write `{meant}`"), meant),
        None => problem,
    };
    ev.report(if cause == place {
        problem
    } else {
        problem.label(place, format!("the `{}` of `{}`", known.word, of.word))
    });
    false
}

/// Where the number itself is said: a lone name is followed to its value in the same file.
fn cause<'f>(ev: &Evaluator<'f>, place: Place, measure: &'f Measure) -> Place {
    let (mut place, mut measure) = (place, measure);
    for _ in 0..LONGEST_CHAIN {
        let Some(name) = measure.amount.as_name().filter(|_| measure.tolerance.is_none()) else { break };
        let Some(next) = ev.binding(place.file, ev.text(place.file, name)) else { break };
        measure = next;
        let amount = measure.amount.span;
        place.span = measure.tolerance.as_ref().map_or(amount, |tolerance| amount.to(tolerance.span));
    }
    place
}

/// Names that stand for names go this deep at most.
const LONGEST_CHAIN: usize = 8;

/// The same number with another unit, where that is a usual size of the field: one of the same system first, then one
/// that the file uses.
pub fn size_meant(text: &str, of: &str, field: &str, used: &[(&str, usize)]) -> Option<String> {
    let size = size(of, field)?;
    let dimension = size.dimension(of)?;
    let text = text.trim();
    let digits = text.find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
    let (number, unit) = (text.get(..digits)?, text.get(digits..)?.trim());
    let (value, own) = (number.parse::<f64>().ok()?, find_unit(unit).ok().filter(|own| own.dimension == dimension)?);
    // Nobody writes 0.016 ft for 4.9 mm.
    if value < LEAST_WRITTEN {
        return None;
    }
    // A slip of the unit lands among usual sizes; one of the decimal point isn't taken for it.
    let (least, most) = (size.usual.0 * INSIDE, size.usual.1 / INSIDE);
    let own_system = SYSTEMS.iter().filter(|system| system.contains(&unit)).flat_map(|system| system.iter().copied());
    let others = SYSTEMS.iter().flat_map(|system| system.iter().copied());
    own_system.chain(used.iter().map(|(unit, _)| *unit)).chain(others).find_map(|other| {
        let unit = find_unit(other).ok().filter(|unit| unit.dimension == dimension)?;
        let si = value * unit.factor + unit.offset;
        let is_other = (unit.factor, unit.offset) != (own.factor, own.offset);
        (is_other && least <= si && si <= most).then(|| format!("{number} {other}"))
    })
}

/// Units that are offered instead, by how usual they are, those of one system together.
const SYSTEMS: [&[&str]; 7] =
    [&["mm", "cm", "m"], &["in", "ft"], &["g", "kg"], &["oz", "lb"], &["s", "ms"], &["m/s", "km/h"], &["mph"]];
/// A number less than this is written in a smaller unit.
const LEAST_WRITTEN: f64 = 0.1;
/// How far inside of a range usual sizes lie.
const INSIDE: f64 = 3.0;
