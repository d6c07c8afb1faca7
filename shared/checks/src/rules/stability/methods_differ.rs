//! `stability/methods-differ`: a second method puts the centre of pressure further forward.

use crate::common::deferred;
use crate::common::each_motor::each_motor;
use crate::common::limits::MARGIN;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::FlightNumbers;
use finwright_model::{Flight, Part, PartKind};
use finwright_units::show;

/// The rule.
pub static METHODS_DIFFER: Rule = Rule {
    name: deferred::METHODS_DIFFER,
    family: Family::Stability,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a margin that a second method of computing finds smaller",
    why: "On such fins the usual method promises more margin than there may be, and the rocket could turn over though \
        its number looks good.",
    prose: include_str!("methods_differ.md"),
    thresholds: &[&MARGIN],
    example: Example::new(
        "root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm",
        "root: 100 mm; tip: 70 mm; span: 34 mm; sweep: 30 mm",
    )
    .settings("[thresholds]\nmargin = 0.8"),
    check: Some(|cx, out| each_motor(cx, out, check)),
};

fn check(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let floor = cx.limit(&MARGIN);
    let (pad, lesser) = (numbers.margin()?, numbers.margin()? - cx.assessment.second(cx.design)?.doubt());
    let upper = numbers
        .upper_margin()
        .and_then(|margin| Some((margin, margin - cx.assessment.second_of_upper(cx.design)?.doubt())));
    // Of two stages the one that is left with less tells it.
    let (whose, usual, lesser) = match upper.filter(|upper| upper.1 < lesser || pad <= lesser) {
        Some((usual, lesser)) => ("'s upper stage", usual, lesser),
        None => ("", pad, lesser),
    };
    if lesser >= usual {
        return None;
    }
    let only = if lesser > 0.0 { format!("only {}", show::number(lesser)) } else { "none".to_string() };
    let finding = METHODS_DIFFER
        .finding(
            flight.name.place,
            format!(
                "{}{whose} has a margin of {} calibres, by a second method {only}",
                flight.name.value,
                show::number(usual)
            ),
        )
        .help(format!(
            "the smaller is judged, and {} is the least: fins that reach further out, or more weight in the nose",
            show::number(floor)
        ))
        .of_flight(numbers)
        .beyond(1.0 + floor - lesser);
    let mut finding = match unusual(cx) {
        Some((part, why)) => finding.label(part.header, why),
        None => finding,
    };
    finding.level = match lesser {
        lesser if lesser <= 0.0 => Level::Error,
        // A margin that is too small by the usual method is told of as that.
        lesser if lesser < floor && usual >= floor => Level::Warning,
        _ => Level::Note,
    };
    Some(finding)
}

/// What the usual method wasn't made for, in calibres and in fins: where ours and a fine lattice were seen to part
/// (tests/reference/outside).
const LONG_ROOT: f64 = 2.5;
const MANY_FINS: f64 = 5.0;

/// The fins that are unusual, and in what.
fn unusual<'a>(cx: &Context<'a>) -> Option<(&'a Part, String)> {
    let calibre = cx.assessment.airframe.calibre?;
    let sets = cx.design.parts.iter().enumerate().filter_map(|(id, part)| match &part.kind {
        PartKind::Fins(fins) => Some((id, part, fins)),
        _ => None,
    });
    let told = sets.filter_map(|(id, part, fins)| {
        let count = fins.count.as_ref().map_or(0.0, |count| count.si);
        let root = cx.parts().extent(id)?.length() / calibre;
        let share = cx.assessment.airframe.airflow.as_ref()?.parts.iter().find(|(part, _)| *part == id)?.1.cna;
        let why = if count >= MANY_FINS {
            format!("{} fins take the air from one another", show::trimmed(count, 0))
        } else if root >= LONG_ROOT {
            format!("low for their length: their roots are {} calibres long", show::number(root))
        } else {
            "these fins' lift acts further forward than the usual method takes it".to_string()
        };
        Some((share, part, why))
    });
    told.max_by(|a, b| a.0.abs().total_cmp(&b.0.abs())).map(|(_, part, why)| (part, why))
}
