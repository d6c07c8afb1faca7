//! Which of a design's flights is meant.

use finwright_grammar::vocabulary::nearest;
use finwright_model::Design;

/// The flight's number in the design: the first one where none is named.
pub fn chosen(design: &Design, name: Option<&str>) -> Result<usize, String> {
    let Some(name) = name else { return Ok(0) };
    let names = || design.flights.iter().map(|flight| flight.name.value.as_str());
    names().position(|known| known == name).ok_or_else(|| {
        let near = nearest(name, names());
        let known = || match design.flights.len() {
            0 => "the file has none".to_string(),
            _ => format!("there are {}", names().collect::<Vec<_>>().join(", ")),
        };
        format!("there is no flight {name}; {}", near.map_or_else(known, |near| format!("did you mean {near}?")))
    })
}
