//! What flights did, beside what was expected of them.

pub mod differs;
pub mod not_used;
pub mod out_of_date;

use crate::common::insert;
use crate::rule::Context;
use crate::rule::Rule;
use finwright_assess::flown::learn::{Factor, Learned};
use finwright_grammar::Place;
use finwright_units::show;

/// Every rule of the family.
pub static RULES: &[&Rule] = &[&differs::DIFFERS, &out_of_date::OUT_OF_DATE, &not_used::NOT_USED];

/// A flight of the examples' rocket, flown about as expected.
const FLOWN: &[(&str, &str)] = &[("flight one", "flown { flight: one; height: 162 m ± 3 m }\nflight one")];

/// A factor with its tolerance as it's written: two standard deviations, to hundredths.
fn written(factor: Factor) -> String {
    format!("{} ± {}", show::trimmed(factor.value, 2), show::trimmed((2.0 * factor.sd).max(0.01), 2))
}

/// The edits that let the file say what its flights show.
fn as_learned(cx: &Context, learned: &Learned) -> Option<Vec<(Place, String)>> {
    let drag = insert::said(cx, cx.design.airframe?, "drag_factor", &written(learned.drag))?;
    let mut edits = vec![drag];
    for (motor, factor) in &learned.thrust {
        let header = cx.design.motors.get(*motor)?.header;
        edits.push(insert::said(cx, header, "thrust_factor", &written(*factor))?);
    }
    Some(edits)
}

/// What the flights show, in words: "drag times 1.12 ± 0.08, d9's thrust times 0.97 ± 0.04".
fn in_words(cx: &Context, learned: &Learned) -> String {
    let motor = |id: usize| cx.design.motors.get(id).map_or("the motor", |motor| motor.name.value.as_str());
    let thrust =
        learned.thrust.iter().map(|(id, factor)| format!("{}'s thrust times {}", motor(*id), written(*factor)));
    let all: Vec<String> = std::iter::once(format!("drag times {}", written(learned.drag))).chain(thrust).collect();
    all.join(", ")
}
