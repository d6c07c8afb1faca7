//! A place in other words than the language's.

use super::scan::{kinds, name, value};
use super::{Broken, Slip};
use crate::unsound::shortened;
use crate::vocabulary::slips::{block_meant, is_name, place_meant, PlaceMeant};
use crate::vocabulary::FieldKind;
use std::ops::Range;

/// `3 mm from the back end`, `3 mm from front of body`, `15 mm above the balance point`, `the balance point`.
pub(super) fn in_other_words(broken: &Broken) -> Option<Slip> {
    let name = name(broken.text);
    let is_place = |kind| matches!(kind, FieldKind::Place | FieldKind::Places);
    if !kinds(name).any(is_place) {
        return None;
    }
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    if text.contains([',', '[', ';']) {
        return None;
    }
    if let Some(meant) = place_meant(text) {
        return Some(lone_place(name, text, range, meant));
    }
    let (at, length, sideways) = relation(text)?;
    let relation = range.start + at..range.end;
    let words = text.get(at..)?;
    let anchor = words.get(length..)?.trim();
    let meant = match sideways {
        Some(direction) => (place_meant(anchor)? == PlaceMeant::Balance).then(|| format!("{direction} balance"))?,
        None => match edge(anchor) {
            Some(edge) => format!("from {edge}"),
            None => return no_such_place(relation, words, anchor),
        },
    };
    Some(
        Slip::told(
            relation.clone(),
            format!("`{}` is `{meant}` here", shortened(words)),
            format!("write `{} {meant}`", text.get(..at)?.trim_end()),
        )
        .mended_by(format!("write `{meant}`"), vec![(relation, meant)]),
    )
}

/// A place of several words, one of them a part's: which of its edges is meant isn't sure.
fn no_such_place(place: Range<usize>, words: &str, anchor: &str) -> Option<Slip> {
    let of_part = anchor.split_whitespace().any(|word| block_meant(word, None).is_some());
    of_part.then(|| {
        let message = format!("`{}` isn't a place here", shortened(words));
        Slip::told(place, message, "name the part and its edge: `from main.back` for `fins main { … }`")
    })
}

/// A place without a distance.
fn lone_place(name: &str, text: &str, range: Range<usize>, meant: PlaceMeant) -> Slip {
    let slip = |help: String| {
        Slip::told(range.clone(), format!("`{name}` says how far, and from where: `{text}` is only where"), help)
    };
    match meant {
        PlaceMeant::Balance => Slip::told(
            range.clone(),
            format!("the balance point is `balance` here, not `{text}`"),
            format!("write `{name}: balance`"),
        )
        .mended_by("write `balance`", vec![(range, "balance".to_string())]),
        PlaceMeant::Middle => slip("measure to where the part begins, for example `90 mm from front`".to_string()),
        PlaceMeant::Front | PlaceMeant::Back | PlaceMeant::Tip => {
            let place = format!("0 mm from {}", meant.word().unwrap_or("front"));
            slip(format!("write `{place}`")).mended_by(format!("write `{place}`"), vec![(range.clone(), place)])
        }
    }
}

/// Where the words of a relation start, how long its direction is, and the direction where it's seen from the balance
/// point.
fn relation(text: &str) -> Option<(usize, usize, Option<&'static str>)> {
    const DIRECTIONS: [(&str, Option<&str>); 15] = [
        ("from", None),
        ("in front of", Some("ahead of")),
        ("forward of", Some("ahead of")),
        ("ahead from", Some("ahead of")),
        ("ahead of", Some("ahead of")),
        ("ahead", Some("ahead of")),
        ("above", Some("ahead of")),
        ("before", Some("ahead of")),
        ("aft of", Some("behind")),
        ("rear of", Some("behind")),
        ("back of", Some("behind")),
        ("behind", Some("behind")),
        ("below", Some("behind")),
        ("under", Some("behind")),
        ("after", Some("behind")),
    ];
    DIRECTIONS.iter().find_map(|(words, direction)| {
        let at = text.find(words)?;
        let is_word = text.get(..at)?.ends_with(' ') && text.get(at + words.len()..)?.starts_with(' ');
        is_word.then_some((at, words.len(), *direction))
    })
}

/// An edge in other words: `the back end`, `front of body`, `body's front`, `body front`.
fn edge(words: &str) -> Option<String> {
    if let Some(word) = place_meant(words).filter(|meant| *meant != PlaceMeant::Balance).and_then(PlaceMeant::word) {
        return Some(word.to_string());
    }
    let plain = words.replace("'s", "").replace("’s", "");
    let words: Vec<&str> = plain.split_whitespace().filter(|word| !matches!(*word, "the" | "edge" | "end")).collect();
    let side = |word: &str| match place_meant(word) {
        Some(PlaceMeant::Front) => Some("front"),
        Some(PlaceMeant::Back) => Some("back"),
        _ => None,
    };
    match words.as_slice() {
        [first, "of", part] if is_name(part) => Some(format!("{part}.{}", side(first)?)),
        [part, last] if is_name(part) => Some(format!("{part}.{}", side(last)?)),
        _ => None,
    }
}
