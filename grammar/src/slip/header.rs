//! A block's first line.

use super::scan::words;
use super::{Broken, Slip};
use crate::vocabulary::slips::{as_name, block_meant, block_with_a_colon, is_name};
use crate::vocabulary::Naming;
use std::ops::Range;

/// A colon or an equals sign before the brace: `tube body: {`, `tube = {`.
pub(super) fn with_marks(broken: &Broken) -> Option<Slip> {
    let text = broken.text.trim_end();
    let bare = text.trim_end_matches([':', '=']).trim_end();
    if bare.len() == text.len() {
        return None;
    }
    let word = bare.split_whitespace().next()?;
    block_meant(word, None)?;
    let mark = text.get(bare.len()..)?.trim();
    Some(
        Slip::told(
            bare.len()..text.len(),
            format!("no `{mark}` stands before a block's `{{`"),
            format!("write `{bare} {{`"),
        )
        .mended_by(format!("take `{mark}` out"), vec![(bare.len()..text.len(), String::new())])
        .in_marks(),
    )
}

/// A field's colon where a block's brace should open: `tube:` above deeper lines.
pub(super) fn opened_by_a_colon(broken: &Broken) -> Option<Slip> {
    let text = broken.text.trim_end();
    let own = block_with_a_colon(text)?;
    let first = first_line(own.word, own.naming);
    Some(Slip::told(
        0..text.len(),
        format!("`{}` is a block: its first line ends with `{{`", own.word),
        format!("write `{first}`, and end it with `}}`"),
    ))
}

/// Likeness in other words: `lug fore extends aft {`.
pub(super) fn like_in_other_words(broken: &Broken) -> Option<Slip> {
    let words = words(broken.text);
    let (last, middle) = words.split_last()?;
    let middle = middle.get(2..)?;
    let said: Vec<&str> = middle.iter().map(|(_, word)| *word).collect();
    let is_likeness = matches!(
        said.as_slice(),
        ["extends" | "as" | "copies" | "inherits" | "copy" | "is" | "="]
            | ["copy" | "based" | "same" | "similar" | "just", "of" | "on" | "as" | "to" | "like"]
    );
    let (first, end) = (middle.first()?, middle.last()?);
    if !is_likeness {
        return None;
    }
    let range = first.0.start..end.0.end;
    let help = format!("write `{} {} like {} {{`", words.first()?.1, words.get(1)?.1, last.1);
    Some(
        Slip::told(range.clone(), format!("`{}` is `like` here", said.join(" ")), help)
            .mended_by("write `like`", vec![(range, "like".to_string())]),
    )
}

/// A block's word in several words, or with a sign that no word has: `launch lug only {`, `rail-button {`.
pub(super) fn word_of_several(broken: &Broken) -> Option<Slip> {
    let head = head(broken.text);
    let words = words(head);
    // The longest phrase counts: a `motor mount tube`, before a `motor`.
    let (taken, meant) = (1..=words.len().min(3)).rev().find_map(|taken| {
        let phrase: Vec<&str> = words.get(..taken)?.iter().map(|(_, word)| *word).collect();
        let is_plain = taken == 1 && is_name(phrase.first()?);
        let of_words = phrase.iter().all(|word| is_name(&word.replace('-', "_")));
        let meant = block_meant(&phrase.concat(), None).filter(|_| of_words && !is_plain)?;
        Some((taken, meant))
    })?;
    let range = words.first()?.0.start..words.get(taken - 1)?.0.end;
    let written = head.get(range.clone())?;
    let rest = words.get(taken..)?.iter().map(|(_, word)| *word).collect::<Vec<_>>().join(" ");
    let line = format!("{} {rest}", meant.word).trim_end().to_string();
    let slip = Slip::told(range.clone(), format!("`{written}` is `{}` here", meant.word), format!("write `{line} {{`"));
    let edits = vec![(range, meant.word.to_string())];
    Some(if meant.sure { slip.mended_by(format!("write `{}`", meant.word), edits) } else { Slip { edits, ..slip } })
}

/// A name in two words or more: `tube main body {`.
pub(super) fn names_joined(broken: &Broken) -> Option<Slip> {
    let (word, range) = word_and_names(broken)?;
    let names = broken.text.get(range.clone())?;
    if !names.contains(char::is_whitespace) {
        return None;
    }
    let (word, joined) = (block_meant(word, None)?.word, as_name(word, names));
    Some(
        Slip::told(
            range.clone(),
            format!("a block has one name, and `{names}` is more"),
            format!("write `{word} {joined} {{`"),
        )
        .mended_by(format!("name it `{joined}`"), vec![(range, joined)]),
    )
}

/// A name with a sign that no name has, or that starts with a digit: `motor C7-5 {`.
pub(super) fn misnamed(broken: &Broken) -> Option<Slip> {
    let (word, range) = word_and_names(broken)?;
    let name = broken.text.get(range.clone())?;
    if name.contains(char::is_whitespace) || is_name(name) {
        return None;
    }
    let (word, meant) = (block_meant(word, None)?.word, as_name(word, name));
    let message = if name.starts_with(|c: char| c.is_ascii_digit()) {
        format!("a name starts with a letter, and `{name}` doesn't")
    } else {
        let sign = name.chars().find(|c| !c.is_alphanumeric() && *c != '_')?;
        let sign = if sign == '-' { "dash".to_string() } else { format!("`{sign}`") };
        format!("a name has no {sign} in it, and `{name}` has one")
    };
    let help = if word == "motor" {
        format!("write `motor {meant} {{`, and in it `code: \"{name}\"`")
    } else {
        format!("write `{word} {meant} {{`")
    };
    Some(Slip::told(range.clone(), message, help).mended_by(format!("name it `{meant}`"), vec![(range, meant)]))
}

/// A block's first line, for one that may have a name.
pub(super) fn first_line(word: &str, naming: Naming) -> String {
    match naming {
        Naming::Required => format!("{word} my_{word} {{"),
        Naming::Title => format!("{word} \"…\" {{"),
        Naming::Optional | Naming::Nothing => format!("{word} {{"),
    }
}

/// The block's word, and where all that stands for its name is.
fn word_and_names<'l>(broken: &Broken<'l>) -> Option<(&'l str, Range<usize>)> {
    let words = words(head(broken.text));
    let ((_, word), names) = words.split_first()?;
    block_meant(word, None)?;
    Some((word, names.first()?.0.start..names.last()?.0.end))
}

/// What stands before the title and before what the part is like.
fn head(text: &str) -> &str {
    let head = text.split('"').next().unwrap_or("");
    head.find(" like ").and_then(|at| head.get(..at)).unwrap_or(head)
}
