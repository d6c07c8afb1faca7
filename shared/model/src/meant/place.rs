//! A place from something that isn't an edge.

use crate::problem::{Problem, UNKNOWN_NAME, WRONG_FORM};
use finwright_grammar::vocabulary::nearest;
use finwright_grammar::vocabulary::slips::{place_meant, PlaceMeant};
use finwright_grammar::{Place, Toward};

/// `from` a word that is no place.
pub(crate) fn no_such_place(at: Place, name: &str) -> Problem {
    let message = format!("there is no place `{name}`");
    match place_meant(name) {
        Some(PlaceMeant::Balance) => {
            let message = if name == "balance" {
                "from the balance point, but which way?".to_string()
            } else {
                format!("`from {name}`: the balance point is `balance` here, and which way?")
            };
            let help = "write `ahead of balance` (towards the tip) or `behind balance`";
            Problem::new(WRONG_FORM, at, message, help)
        }
        Some(PlaceMeant::Middle) => {
            Problem::new(UNKNOWN_NAME, at, message, "a part is placed by an edge: measure from `front` or `back`")
        }
        Some(meant) => {
            let word = meant.word().unwrap_or("back");
            Problem::new(UNKNOWN_NAME, at, format!("{message}: here it's `{word}`"), format!("write `from {word}`"))
                .replaced_by(format!("write `{word}`"), word)
        }
        None => {
            let help = "places are front, back, tip, tail, a part's edge such as `body.back`, and the balance point";
            Problem::new(UNKNOWN_NAME, at, message, help).did_you_mean(nearest(name, ["front", "back", "tip", "tail"]))
        }
    }
}

/// `from` a part without saying which of its edges.
pub(crate) fn which_edge(at: Place, name: &str) -> Problem {
    let tip = if name == "nose" { ", or `from tip`" } else { "" };
    Problem::new(
        WRONG_FORM,
        at,
        format!("`{name}` has a front and a back edge"),
        format!("write `from {name}.front` or `from {name}.back`{tip}"),
    )
}

/// `ahead` or `behind` something else than the balance point.
pub(crate) fn no_such_direction(at: Place, name: &str, toward: Toward) -> Problem {
    let word = if toward == Toward::Ahead { "ahead" } else { "behind" };
    if place_meant(name) == Some(PlaceMeant::Balance) {
        let message = format!("the balance point is `balance` here, not `{name}`");
        return Problem::new(
            UNKNOWN_NAME,
            at,
            message,
            format!("write `{word} of balance`").replace("behind of", "behind"),
        )
        .replaced_by("write `balance`", "balance");
    }
    Problem::new(
        UNKNOWN_NAME,
        at,
        format!("`{word} of {name}`: only the balance point has an ahead and a behind"),
        "write `balance`, or measure `from` an edge",
    )
    .did_you_mean(nearest(name, ["balance"]))
}
