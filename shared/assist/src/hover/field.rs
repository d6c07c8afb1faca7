//! The hover on a field: its value as computed, then what the field means.

use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{takes, BlockWord, FieldKind, FieldWord};
use finwright_grammar::{Field, FileId, Place, Tree, ValueKind};
use finwright_units::reader::in_both;
use finwright_units::{show, Dimension};

pub(super) fn markdown(analysis: &Analysis, tree: &Tree, word: &BlockWord, known: &FieldWord, field: &Field) -> String {
    let mut lines = vec![format!("**{}** of {}{}", known.word, word.word, computed(analysis, tree, known, field))];
    lines.push(known.doc.to_string());
    let default = if known.default.is_empty() { String::new() } else { format!(" Left out: {}.", known.default) };
    lines.push(format!("Takes {}.{default}", takes(known.kind)));
    lines.join("\n\n")
}

/// Where a placed part sits, counted from the tip.
fn station(analysis: &Analysis, field: &Field) -> Option<String> {
    let span = field.value.as_ref()?.span;
    let is_it =
        |at: Place| at.file == FileId(0) && span.range().start <= at.span.range().start && at.span.end <= span.end;
    let stations: Vec<String> = analysis
        .design
        .parts
        .iter()
        .enumerate()
        .filter(|(_, part)| part.at.as_ref().is_some_and(|at| is_it(at.place)))
        .filter_map(|(id, part)| {
            let extent = analysis.assessment.airframe.extents.get(id).copied().flatten()?;
            Some(show::station(if part.placed_by_middle() { extent.middle() } else { extent.front }))
        })
        .collect();
    (!stations.is_empty()).then(|| format!("{} from the tip", stations.join(", ")))
}

/// The value in SI, where it's one that had to be computed or converted.
fn computed(analysis: &Analysis, tree: &Tree, known: &FieldWord, field: &Field) -> String {
    let Some(value) = &field.value else { return String::new() };
    let place = Place { file: FileId(0), span: value.span };
    let dimension = match known.kind {
        FieldKind::Quantity(dimension) | FieldKind::ChoiceOr(_, dimension) | FieldKind::AtHeight(dimension) => {
            dimension
        }
        FieldKind::Curve(..) => return curve(analysis, place),
        FieldKind::Place | FieldKind::Places => {
            return station(analysis, field).map_or(String::new(), |station| format!(": {station}"));
        }
        FieldKind::Count => Dimension::NUMBER,
        _ => return String::new(),
    };
    let Some(amount) = analysis.design.amount_at(place) else { return String::new() };
    let written = tree.text(value.span).trim();
    let computed = with_tolerance(amount.si, amount.spread.total(), dimension);
    if written == computed {
        format!(": {computed}")
    } else {
        let is_plain = matches!(&value.kind, ValueKind::Measure(m) if matches!(m.amount.kind, finwright_grammar::ExprKind::Quantity { .. }));
        format!(": {computed}{}", if is_plain { format!(" (`{written}`)") } else { format!(" = `{written}`") })
    }
}

/// A quantity and its tolerance, each in the unit that suits it.
pub(super) fn with_tolerance(si: f64, give: f64, dimension: Dimension) -> String {
    in_both(|| match give > 0.0 {
        true => format!("{} ± {}", show::quantity(si, dimension), show::difference(give, dimension)),
        false => show::quantity(si, dimension),
    })
}

fn curve(analysis: &Analysis, place: Place) -> String {
    let found = analysis.design.motors.iter().find(|m| m.curve.as_ref().is_some_and(|c| c.place == place));
    let points = found.and_then(|m| m.curve.as_ref()).map(|c| c.points.clone());
    match points.and_then(|p| finwright_physics::motor::ThrustCurve::new(p).ok()) {
        Some(curve) => {
            let (at, peak) = curve.peak();
            format!(
                ": {} N s in {}, {} on average, {} at most (after {})",
                show::number(curve.total_impulse()),
                show::time(curve.burn_time()),
                show::force(curve.average_thrust()),
                show::force(peak),
                show::time(at)
            )
        }
        None => String::new(),
    }
}
