//! What a cursor offers to write: a block for what the bench says.

use finwright_checks::{Analysis, Edit, Fix};
use finwright_grammar::{FileId, Place, Span, Tree};
use finwright_units::{reader::with, show};

/// A `measured` block to fill in, at the end of the file, for a cursor on the airframe's head or in a flight whose
/// motor wasn't weighed with yet. It holds no values: what was only computed isn't what the scale says, and stands
/// beside them as a remark.
pub fn measured_block(analysis: &Analysis, offset: usize) -> Option<Fix> {
    let tree = analysis.tree()?;
    let flight = flight_at(analysis, tree, offset)?;
    let design = &analysis.design;
    let motor = design.flights.get(flight)?.motor.as_ref()?.value;
    if design.measured.iter().any(|m| m.with.as_ref().is_none_or(|with| with.value == motor)) {
        return None;
    }
    let name = &design.motors.get(motor)?.name.value;
    let computed = analysis.assessment.flights.get(flight)?.computed();
    let (mass, balance) = with(analysis.settings.units, || match computed {
        Some(computed) => (
            format!("computed: {}", show::mass(computed.mass)),
            format!("computed: {} from tip", show::station(computed.x)),
        ),
        None => ("on the scale".to_string(), "from tip, on a finger or an edge".to_string()),
    });
    let text = format!(
        "measured {{  # the finished rocket with its motor in; `finwright explain measuring` tells how\n  with: {name}\n  \
         mass:  # {mass}\n  balance:  # {balance}\n}}\n"
    );
    let end = tree.text.trim_end().len();
    let rest = Place { file: FileId(0), span: Span::new(end, tree.text.len()) };
    let text = finwright_grammar::format(&text);
    let newline = if tree.text.contains("\r\n") { "\r\n" } else { "\n" };
    let text = format!("\n\n{text}").replace('\n', newline);
    Some(Fix {
        title: format!("write down what the bench says with {name} in"),
        edits: vec![Edit { place: rest, text }],
    })
}

/// The flight that a cursor is in, or the first one for a cursor on the airframe's head.
fn flight_at(analysis: &Analysis, tree: &Tree, offset: usize) -> Option<usize> {
    let block = *tree.blocks_at(offset).first()?;
    let holds = |place: Place| place.file == FileId(0) && block.span.touches(place.span.start as usize);
    if analysis.design.airframe.is_some_and(|airframe| holds(airframe) && airframe.span.touches(offset)) {
        return (!analysis.design.flights.is_empty()).then_some(0);
    }
    analysis.design.flights.iter().position(|flight| holds(flight.header))
}
