//! A block whose word isn't one, or not here.

use crate::evaluate::Evaluator;
use crate::problem::{Problem, Replacement, UNKNOWN_BLOCK, WRONG_FORM};
use finwright_grammar::vocabulary::slips::{as_name, block_meant, is_name, BlockMeant};
use finwright_grammar::vocabulary::{self, nearest, BlockWord, Naming};
use finwright_grammar::{unquoted, Block, FileId, Place, Span};

/// The block that a block's word stands for here; reports it if it's not a word of the language, or not here. One that
/// can only mean one thing is read as that, so that what is in it has its names; [`misnamed`] says that it mustn't be
/// built on.
pub(crate) fn known_block<'f>(
    ev: &mut Evaluator<'f>,
    file: FileId,
    block: &'f Block,
    parent: &'static str,
) -> Option<&'static BlockWord> {
    if block.word.is_empty() {
        return None;
    }
    let written = ev.text(file, block.word);
    let known = vocabulary::block(written).filter(|word| word.inside.contains(&parent));
    if let Some(word) = known {
        title(ev, file, block, word);
        return Some(word);
    }
    // A word with a sign that no word has was told where it was read.
    let told = !is_name(written);
    let (problem, meant) = unknown(ev, file, block, parent);
    if !told {
        ev.report(problem);
    }
    if meant.is_none() {
        names_inside(ev, file, block);
    }
    meant
}

/// Whether a block's word isn't what it's read as.
pub(crate) fn misnamed(ev: &Evaluator, file: FileId, block: &Block, word: &BlockWord) -> bool {
    ev.text(file, block.word) != word.word
}

/// A block's name; none where it's the second half of a word in two, as in `body tube {`. A name in quotes is one.
pub(crate) fn own_name(ev: &Evaluator, file: FileId, block: &Block, word: &BlockWord) -> Option<Span> {
    let Some(name) = block.name else {
        let title = block.title.filter(|_| matches!(word.naming, Naming::Optional | Naming::Required))?;
        let (text, inside) = (ev.text(file, title), unquoted(ev.text(file, title)));
        let start = title.start + text.find(inside)? as u32;
        return is_name(inside).then_some(Span { start, end: start + inside.len() as u32 });
    };
    let phrase = || ev.text(file, block.word.to(name));
    let is_half = misnamed(ev, file, block, word) && block_meant(phrase(), None).is_some_and(|m| m.word == word.word);
    (!is_half).then_some(name)
}

/// A block's word that isn't known here, and what it's read as.
fn unknown(ev: &Evaluator, file: FileId, block: &Block, parent: &'static str) -> (Problem, Option<&'static BlockWord>) {
    let written = ev.text(file, block.word);
    let place = Place { file, span: block.word };
    let container = if parent.is_empty() { "a file".to_string() } else { format!("`{parent}`") };
    // `rail button`, `motor mount`: the name belongs to the word.
    let both = block.name.map(|name| (Place { file, span: block.word.to(name) }, ev.text(file, block.word.to(name))));
    let phrase = both.and_then(|(place, phrase)| Some((place, phrase, block_meant(phrase, Some(parent))?)));
    let lone = block_meant(written, Some(parent)).map(|meant| (place, written, meant));
    if let Some((place, phrase, meant)) = phrase.or(lone) {
        return meant_here(block, place, (phrase, &container), meant, vocabulary::block(written));
    }
    if let Some(word) = vocabulary::block(written) {
        let message = format!("`{written}` can't stand in {container}");
        return (Problem::new(UNKNOWN_BLOCK, place, message, format!("it belongs in {}", homes(word))), None);
    }
    let elsewhere = both.and_then(|(_, phrase)| block_meant(phrase, None)).or_else(|| block_meant(written, None));
    if let Some((meant, word)) =
        elsewhere.filter(|meant| meant.sure).and_then(|m| Some((m, vocabulary::block(m.word)?)))
    {
        let message = format!("there is no block `{written}`: it's `{}` here", meant.word);
        return (
            Problem::new(UNKNOWN_BLOCK, place, message, format!("a `{}` belongs in {}", meant.word, homes(word))),
            None,
        );
    }
    let list: Vec<&str> = vocabulary::blocks_inside(parent).map(|b| b.word).collect();
    let help = if list.is_empty() {
        format!("{container} holds no blocks")
    } else {
        format!("{container} can hold {}", list.join(", "))
    };
    let problem = Problem::new(UNKNOWN_BLOCK, place, format!("there is no block `{written}`"), help);
    let near = nearest(written, list);
    (problem.did_you_mean(near), near.and_then(vocabulary::block))
}

/// A word that people use for a block that may stand here; `word` is the block that it is elsewhere.
fn meant_here(
    block: &Block,
    place: Place,
    (written, container): (&str, &str),
    meant: BlockMeant,
    word: Option<&BlockWord>,
) -> (Problem, Option<&'static BlockWord>) {
    let own = vocabulary::block(meant.word);
    let doc = own.map_or(String::new(), |own| format!("a `{}` is {}", own.word, first_sentence(own.doc)));
    let message = match (word, meant.sure) {
        (Some(_), true) => format!("`{written}` is `{}` here", meant.word),
        (None, true) => format!("there is no block `{written}`: it's `{}` here", meant.word),
        (Some(word), false) => {
            let message = format!("`{written}` can't stand in {container}; it may be `{}` that is meant", meant.word);
            let help = format!("{doc}; a `{}` belongs in {}", word.word, homes(word));
            return (Problem::new(UNKNOWN_BLOCK, place, message, help), None);
        }
        (None, false) => {
            let message = format!("there is no block `{written}`; it may be `{}` that is meant", meant.word);
            return (Problem::new(UNKNOWN_BLOCK, place, message, doc), None);
        }
    };
    // A title stands with a design, the parts with the airframe.
    if block.title.is_some() && meant.word == "airframe" {
        let help = "write `airframe {`; what the rocket is called goes in `design \"…\" { }`";
        return (Problem::new(UNKNOWN_BLOCK, place, message, help), own);
    }
    let mut problem = Problem::new(UNKNOWN_BLOCK, place, message, format!("write `{} {{`", meant.word));
    problem.replacement =
        Some(Replacement { title: format!("write `{}`", meant.word), place, text: meant.word.to_string() });
    (problem, own)
}

/// A title where a name is due, or a name where a title is.
fn title<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block, word: &'static BlockWord) {
    let problem = match (word.naming, block.name, block.title) {
        (Naming::Title, Some(name), None) => {
            let place = Place { file, span: name };
            let text = format!("\"{}\"", ev.text(file, name));
            let problem = Problem::new(
                WRONG_FORM,
                place,
                format!("what a {} is called stands in quotes", word.word),
                format!("write `{} {text} {{`", word.word),
            );
            problem.replaced_by(format!("write `{text}`"), text)
        }
        (Naming::Optional | Naming::Required, None, Some(title)) => {
            let place = Place { file, span: title };
            let inside = unquoted(ev.text(file, title));
            ev.unread.insert(inside);
            let name = as_name(word.word, inside);
            let problem = Problem::new(
                WRONG_FORM,
                place,
                format!("a {}'s name stands without quotes", word.word),
                format!("write `{} {name} {{`", word.word),
            );
            problem.replaced_by(format!("name it `{name}`"), name)
        }
        (Naming::Optional | Naming::Required, Some(_), Some(title)) => Problem::new(
            WRONG_FORM,
            Place { file, span: title },
            format!("a {} has a name, and no text behind it", word.word),
            "take the text out, or put it in a comment behind `#`",
        ),
        (Naming::Nothing, _, Some(title)) => Problem::new(
            WRONG_FORM,
            Place { file, span: title },
            format!("`{}` takes no text; what the rocket is called is its design's", word.word),
            format!("write `design {} {{ }}` above, and `{} {{` here", ev.text(file, title), word.word),
        ),
        _ => return,
    };
    ev.report(problem);
}

/// Note the names of a block that can't be understood and of all that is in it, since what refers to them isn't wrong.
fn names_inside<'f>(ev: &mut Evaluator<'f>, file: FileId, block: &'f Block) {
    let name = block.name.unwrap_or(block.word);
    ev.unread.insert(ev.text(file, name));
    block.blocks().for_each(|inner| names_inside(ev, file, inner));
}

fn homes(word: &BlockWord) -> String {
    let home = |w: &&str| if w.is_empty() { "the file itself".to_string() } else { format!("`{w}`") };
    word.inside.iter().map(home).collect::<Vec<_>>().join(" or ")
}

fn first_sentence(doc: &str) -> String {
    let sentence = doc.split(". ").next().unwrap_or(doc).trim_end_matches('.');
    let mut letters = sentence.chars();
    letters.next().map_or(String::new(), |first| first.to_lowercase().collect::<String>() + letters.as_str())
}
