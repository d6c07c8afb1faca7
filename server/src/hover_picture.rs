//! A picture under a hover, for clients that ask for it with the initialization option `pictures`.

use finwright_checks::Analysis;
use finwright_draw::svg::data_address;
use finwright_draw::{picture, Picture, Size};
use finwright_grammar::{FileId, Place, Span};

/// The picture of what a hover is about, as Markdown: a flight on its pad, or a part on the bench; nothing for what has
/// none.
pub fn of(analysis: &Analysis, about: Span) -> Option<String> {
    let design = &analysis.design;
    let is_it = |place: Place| place.file == FileId(0) && place.span.touches(about.start as usize);
    let flight = design.flights.iter().position(|flight| is_it(flight.name.place) || is_it(flight.header));
    let part = || design.parts.iter().any(|part| is_it(part.header));
    let (kind, number) = match flight {
        Some(number) => (Picture::Stand, number),
        None if part() => (Picture::Bench, 0),
        None => return None,
    };
    let scene = picture(analysis, kind, number, Size::Small).ok()?;
    Some(format!("\n\n![{}]({})", kind.name(), data_address(&scene)))
}
