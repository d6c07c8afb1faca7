//! Places on the rocket, and moments in its flight.

use super::{amounts, of_amount, reached, units, Reached};
use crate::completion::document::About;
use crate::completion::offer::{CompletionKind, Offer};
use crate::completion::{names, Found};
use crate::cursor::Cursor;
use crate::tokens::Token;
use finwright_checks::Analysis;
use finwright_units::Dimension;

/// A word that only one other can follow.
fn longer(word: &str, rest: &str, doc: &str) -> Offer {
    Offer { text: format!("{word} {rest}"), ..Offer::word(word, doc) }.detail(rest)
}

/// Where a part sits.
pub(super) fn of_place(analysis: &Analysis, cursor: &Cursor, value: &[Token]) -> Found {
    // In a list each place is one by itself.
    let begun = value.iter().rposition(|token| matches!(token, Token::Mark('[' | ','))).map_or(0, |at| at + 1);
    let place = value.get(begun..).unwrap_or_default();
    let word = |word, doc| Offer::word(word, doc);
    let balance = || word("balance", "the balance point, motor in and unlit");
    match place {
        [] => {
            let amounts = amounts(analysis, cursor, Some(Dimension::LENGTH));
            Found::due(std::iter::once(balance()).chain(amounts).collect())
        }
        [.., Token::Word("from")] => {
            let edges = [
                ("front", "the front of the part that this one is in"),
                ("back", "the back of the part that this one is in"),
                ("tip", "the rocket's tip"),
                ("tail", "the rocket's tail"),
            ];
            let parts = names::of_parts(analysis, cursor, |_| true).into_iter().map(|(name, block)| {
                let text = format!("{name}.");
                let offer = Offer::new(CompletionKind::Name, &name, text).detail(block.clone());
                offer.about(About::Named(block, name)).goes_on()
            });
            Found::due(edges.into_iter().map(|(edge, doc)| word(edge, doc)).chain(parts).collect())
        }
        [.., Token::Word("from"), Token::Word(_), Token::Mark('.')] => {
            Found::due(vec![word("front", "its front edge"), word("back", "its back edge")])
        }
        [.., Token::Word("ahead")] => {
            Found::due(vec![Offer { text: "of balance".into(), ..word("of", "`ahead of balance`") }])
        }
        [.., Token::Word("ahead"), Token::Word("of")] | [.., Token::Word("behind")] => Found::due(vec![balance()]),
        [.., Token::Word("from" | "of" | "behind"), Token::Word(_)] | [.., Token::Word("from"), _, _, _] => {
            Found::default()
        }
        _ if reached(place) == Reached::End && place != [Token::Word("balance")] => Found::due(vec![
            word("from", "`from front`, `from back`, `from tip`, `from tail`, or another part's edge").goes_on(),
            longer("ahead", "of balance", "towards the tip from the balance point"),
            longer("behind", "balance", "towards the tail from the balance point"),
        ]),
        [Token::Word("balance")] => Found::default(),
        // Behind a factor a placement may go on.
        [.., Token::Mark('*' | '/'), Token::Number(_)] => {
            let units = units(Dimension::LENGTH).into_iter().take(5);
            Found::possible(
                std::iter::once(Offer::word("from", "`from front`, `from back`").goes_on()).chain(units).collect(),
            )
        }
        _ => of_amount(analysis, cursor, Dimension::LENGTH, place),
    }
}

/// When something may open.
pub(super) fn of_moment(value: &[Token]) -> Found {
    let word = |word, doc| Offer::word(word, doc);
    let events = [("delay", "by the motor's charge, its delay after burnout"), ("top", "at the highest point")];
    let above = || longer("above", "ground", "on the way down, at this height");
    let after = || longer("after", "top", "so long after the highest point");
    Found::due(match value {
        [] => events.map(|(event, doc)| Offer::word(&format!("at {event}"), doc)).into(),
        [Token::Word("at")] => events.map(|(event, doc)| word(event, doc)).into(),
        [Token::Number(_)] => units(Dimension::LENGTH).into_iter().chain(units(Dimension::TIME)).collect(),
        [Token::Number(_), Token::Word(unit)] => {
            match finwright_units::unit::find_unit(unit).map(|unit| unit.dimension) {
                Ok(Dimension::TIME) => vec![after()],
                Ok(Dimension::LENGTH) => vec![above()],
                _ => Vec::new(),
            }
        }
        [.., Token::Word("above")] => vec![word("ground", "above the pad's ground")],
        [.., Token::Word("after")] => vec![word("top", "after the highest point")],
        _ => return Found::default(),
    })
}
