//! Where a statement begins: fields and blocks; and what a block's header takes.

use super::document::About;
use super::names::of_parts;
use super::offer::{CompletionKind, Offer};
use super::snippet::{plain, snippet};
use super::Found;
use crate::cursor::{Cursor, Open};
use crate::tokens::Token;
use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{self, takes_in_short, BlockWord, FieldWord, Naming};

/// Fields and blocks that may begin here, what is likely to come next first.
pub(super) fn offers(cursor: &Cursor) -> Vec<Offer> {
    let behind = cursor.behind();
    let block = cursor.block();
    let word = block.map_or("", |open| open.word);
    let fields = block.and_then(|open| vocabulary::block(word).map(|known| fields(known, open)));
    let (needed, others) = fields.unwrap_or_default();
    let has_colon = behind.trim_start().starts_with(':');
    let field = |known: &&'static FieldWord| field_offer(word, known, has_colon);
    // A word before a colon is a field's.
    let blocks = if has_colon {
        Vec::new()
    } else {
        blocks(cursor, word, !behind.trim().is_empty() && !behind.trim_start().starts_with(['}', '#']))
    };
    let mut found: Vec<Offer> = needed.iter().map(field).collect();
    // A block that has begun with its fields goes on with them; its blocks come when they are said. Where there are
    // blocks already, more of them come.
    let has_blocks = block.is_some_and(|open| !open.blocks.is_empty());
    let soon = match (needed.is_empty(), has_blocks) {
        (_, true) => 0,
        (true, false) => 1,
        (false, false) => others.len(),
    };
    let (soon, late) = others.split_at(others.len().min(soon));
    found.extend(soon.iter().map(field));
    found.extend(blocks);
    found.extend(late.iter().map(field));
    if block.is_none() && !has_colon {
        found.extend(top());
    }
    found
}

/// The fields that aren't said yet: those that nothing can be computed without, and the others, those first that
/// usually come behind what is said before the cursor.
fn fields(known: &'static BlockWord, open: &Open) -> (Vec<&'static FieldWord>, Vec<&'static FieldWord>) {
    let place_of = |word: &str| known.fields.iter().position(|field| field.word == word);
    let last = open.said.get(..open.before).unwrap_or_default().last().and_then(|word| place_of(word));
    let comes_behind = |field: &FieldWord| place_of(field.word) > last;
    let missing = known.fields.iter().filter(|field| !open.said.contains(&field.word));
    let (mut needed, mut others): (Vec<_>, Vec<_>) =
        missing.partition(|field| field.needed || next_to_needed(known, field));
    needed.sort_by_key(|field| !comes_behind(field));
    others.sort_by_key(|field| (!comes_behind(field), field.is_rare()));
    // What has been passed over was left out on purpose, unless it's needed.
    let passed = needed.iter().filter(|field| !field.needed && !comes_behind(field)).copied().collect::<Vec<_>>();
    needed.retain(|field| field.needed || comes_behind(field));
    others.extend(passed);
    (needed, others)
}

/// Whether a field that may be left out stands in the block's own example, as what is usually said.
fn next_to_needed(known: &BlockWord, field: &FieldWord) -> bool {
    known.example.match_indices(field.word).any(|(at, word)| known.example[at + word.len()..].starts_with(':'))
}

fn field_offer(block: &str, known: &FieldWord, has_colon: bool) -> Offer {
    let detail =
        if known.needed { format!("{} · needed", takes_in_short(known.kind)) } else { takes_in_short(known.kind) };
    let text = if has_colon { known.word.to_string() } else { format!("{}: ", known.word) };
    let about = About::Field(block.to_string(), known.word.to_string());
    Offer::new(CompletionKind::Field, known.word, text).detail(detail).about(about).goes_on()
}

/// The blocks that may stand in one: those that usually come next, then those that are there already.
fn blocks(cursor: &Cursor, word: &str, has_header: bool) -> Vec<Offer> {
    let there = cursor.block().map_or(&[][..], |open| &open.blocks);
    let mut known: Vec<&BlockWord> = vocabulary::blocks_inside(word).collect();
    let tops = if word.is_empty() { tops(cursor.text) } else { Vec::new() };
    let is_there = |block: &BlockWord| there.contains(&block.word) || tops.contains(&block.word);
    known.sort_by_key(|block| (is_there(block) && !block.comes_often(), block.is_rare()));
    known.into_iter().map(|block| block_offer(block, has_header)).collect()
}

/// The words that lines without indentation begin with.
fn tops(text: &str) -> Vec<&str> {
    text.lines().filter_map(|line| line.split(|c: char| !c.is_alphanumeric() && c != '_').next()).collect()
}

fn block_offer(block: &'static BlockWord, has_header: bool) -> Offer {
    let text = if has_header { block.word.to_string() } else { plain(block) };
    Offer {
        snippet: (!has_header).then(|| snippet(block)),
        ..Offer::new(CompletionKind::Block, block.word, text)
            .detail("block")
            .about(About::Block(block.word.to_string()))
    }
}

/// What stands at the top besides blocks.
fn top() -> Vec<Offer> {
    let all = [
        ("let", "let ", "Names a value: `let caliber = 24.8 mm`."),
        ("use", "use \"", "Brings in another file's definitions: `use \"pads.finw\"`."),
        ("finwright", "finwright 1", "The language's version."),
    ];
    let mut offers: Vec<Offer> =
        all.into_iter().map(|(word, text, doc)| Offer { text: text.to_string(), ..Offer::word(word, doc) }).collect();
    for offer in offers.iter_mut().take(2) {
        offer.goes_on = true;
    }
    offers
}

/// In a block's header: the part that it's like.
pub(super) fn in_header(analysis: &Analysis, cursor: &Cursor, word: &str, header: &[Token]) -> Found {
    let Some(known) = vocabulary::block(word).filter(|block| matches!(block.naming, Naming::Optional)) else {
        return Found::default();
    };
    match header {
        [Token::Word("like")] | [Token::Word(_), Token::Word("like")] => {
            let named = match header {
                [Token::Word(own), _] => Some(*own),
                _ => None,
            };
            let others = of_parts(analysis, cursor, |other| other == known.word);
            let others = others.into_iter().filter(|(name, _)| Some(name.as_str()) != named);
            Found::due(
                others
                    .map(|(name, word)| {
                        Offer::new(CompletionKind::Name, &name, name.clone())
                            .detail(word.clone())
                            .about(About::Named(word, name))
                    })
                    .collect(),
            )
        }
        [] | [Token::Word(_)] => {
            let doc =
                format!("All that isn't said here is as in another {}: `{0} rear like front {{ … }}`.", known.word);
            Found::possible(vec![Offer { text: "like ".to_string(), ..Offer::word("like", &doc) }.goes_on()])
        }
        _ => Found::default(),
    }
}
