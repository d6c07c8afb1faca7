//! Small change of words.

use finwright_checks::Analysis;
use finwright_grammar::Place;

/// The line of a place, from 1.
pub fn line_of(analysis: &Analysis, place: Place) -> usize {
    let text = analysis.sources.get(place.file.0 as usize).map_or("", |source| &source.text);
    let before = text.get(..(place.span.start as usize).min(text.len())).unwrap_or(text);
    before.matches('\n').count() + 1
}

/// A sentence's first letter as a capital.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().collect::<String>() + letters.as_str())
}
