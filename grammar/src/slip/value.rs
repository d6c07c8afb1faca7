//! A value as a whole, and what stands around it.

use super::scan::{kinds, name, signs, value, words};
use super::{Broken, Slip};
use crate::as_written::read_as_written;
use crate::unsound::shortened;
use crate::vocabulary::slips::{as_name, is_field_word, is_name, material_meant, number_word, says_unknown};
use crate::vocabulary::FieldKind;

/// A full stop or a comma behind the unit: `3 in.`
pub(super) fn ends_with_a_mark(broken: &Broken) -> Option<Slip> {
    let text = broken.text.trim_end();
    let bare = text.trim_end_matches('.');
    let behind_word = bare.ends_with(|c: char| c.is_alphabetic() || c == '°' || c == '%');
    (bare.len() < text.len() && behind_word && value(text)?.start < bare.len()).then(|| {
        Slip::told(
            bare.len()..text.len(),
            "a value doesn't end with a full stop",
            format!("write `{}`", shortened(bare)),
        )
        .mended_by("take the full stop out", vec![(bare.len()..text.len(), String::new())])
        .in_marks()
    })
}

/// An equals sign before the value, as in a table's formula: `length: = 2 * caliber`.
pub(super) fn starts_with_a_mark(broken: &Broken) -> Option<Slip> {
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    let rest = text.trim_start_matches(['=', ':']).trim_start();
    (rest.len() < text.len() && !rest.is_empty()).then(|| {
        let marks = range.start..range.end - rest.len();
        Slip::told(
            marks.clone(),
            "a value stands right behind its colon",
            format!("write `{}: {}`", name(broken.text), shortened(rest)),
        )
        .mended_by("take the mark out", vec![(marks, String::new())])
        .in_marks()
    })
}

/// A value that says that it isn't known: `mass: ?`.
pub(super) fn not_known(broken: &Broken) -> Option<Slip> {
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    let name = name(broken.text);
    says_unknown(text).then(|| {
        Slip::told(
            range,
            format!("`{text}` isn't a value for `{name}`"),
            format!("leave `{name}` out while it isn't known"),
        )
    })
}

/// Names or places in a row without the list's brackets: `guided_by: aft, fore`.
pub(super) fn list_without_brackets(broken: &Broken) -> Option<Slip> {
    let name = name(broken.text);
    let kinds = kinds(name);
    let takes_pairs = kinds.clone().any(|kind| matches!(kind, FieldKind::Curve(..)));
    let takes_names = kinds.clone().any(|kind| matches!(kind, FieldKind::References(_)));
    if !takes_pairs && !takes_names && !kinds.clone().any(|kind| kind == FieldKind::Places) {
        return None;
    }
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    if text.contains(':') && !takes_pairs {
        return None;
    }
    let bare = text.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')).unwrap_or(text);
    if bare.contains(['[', ']', '(', ')']) {
        return None;
    }
    let listed = bare.replace(" and ", ", ").replace(" & ", ", ");
    let parts: Vec<&str> = listed.split(',').map(str::trim).filter(|part| !part.is_empty()).collect();
    let words: Vec<&str> = bare.split_whitespace().collect();
    // With nothing but a space between them they may be one name too.
    if let ([_], true) = (parts.as_slice(), takes_names && words.len() > 1 && words.iter().all(|word| is_name(word))) {
        let (list, one) = (format!("[{}]", words.join(", ")), as_name(name, bare));
        let help = format!("write `{name}: {list}`, or `{name}: {one}` for one by that name");
        return Some(Slip::told(range, "names stand in a list, with commas, and a name is one word", help));
    }
    let meant = format!("[{}]", parts.join(", "));
    Some(
        Slip::told(
            range.clone(),
            format!("several values for `{name}` stand in a list"),
            format!("write `{name}: {}`", shortened(&meant)),
        )
        .mended_by(format!("write `{}`", shortened(&meant)), vec![(range, meant)]),
    )
    .filter(|_| parts.len() > 1)
}

/// Points in brackets of their own: `[(0 s, 0 N), (0.1 s, 8 N)]`.
pub(super) fn points_in_brackets(broken: &Broken) -> Option<Slip> {
    let name = name(broken.text);
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    if !text.starts_with('[') || !text.ends_with(']') || !kinds(name).any(|kind| matches!(kind, FieldKind::Curve(..))) {
        return None;
    }
    // Inside of the list's own brackets, others go and a comma becomes a colon.
    let inner = signs(broken.text).into_iter().filter(|(at, ..)| range.start < *at && at + 1 < range.end);
    let edits: Vec<(std::ops::Range<usize>, String)> = inner
        .filter_map(|(at, c, depth)| match c {
            '(' | '[' | ')' | ']' => Some((at..at + 1, String::new())),
            ',' if depth > 1 => Some((at..at + 1, ":".to_string())),
            _ => None,
        })
        .collect();
    let has_pairs = edits.iter().any(|(_, new)| !new.is_empty());
    let meant = super::edited(broken.text, &edits);
    let shown = meant.get(range.start + 1..).and_then(|points| points.split(',').next()).filter(|_| has_pairs)?;
    Some(
        Slip::told(range, "a point is two values with a colon, without brackets", format!("write `[{shown}, …]`"))
            .mended_by("write colons", edits)
            .in_marks(),
    )
}

/// A name of several words: `material: balsa wood`, `site: my field`.
pub(super) fn name_of_several_words(broken: &Broken) -> Option<Slip> {
    let field = name(broken.text);
    let is_name_of = |kind| matches!(kind, FieldKind::Reference(_) | FieldKind::ReferenceOr(..) | FieldKind::Choice(_));
    if !kinds(field).any(is_name_of) {
        return None;
    }
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    let words: Vec<&str> = text.split_whitespace().collect();
    if words.len() < 2
        || !words.iter().all(|word| is_name(word) || word.chars().all(|c| c.is_alphanumeric() || c == '-'))
    {
        return None;
    }
    let message = format!("a name is one word, and `{}` is more", shortened(text));
    match material_meant(text).filter(|_| field == "material") {
        Some([one]) => Some(
            Slip::told(range.clone(), message, format!("write `{field}: {one}`"))
                .mended_by(format!("write `{one}`"), vec![(range, (*one).to_string())]),
        ),
        Some(several) => Some(Slip::told(range, message, format!("choose one: {}", several.join(", ")))),
        None => {
            let meant = crate::vocabulary::slips::choice_meant(field, text)
                .map_or_else(|| as_name(field, text), str::to_string);
            Some(
                Slip::told(range.clone(), message, format!("write `{field}: {meant}`"))
                    .mended_by(format!("write `{meant}`"), vec![(range, meant)]),
            )
        }
    }
}

/// Words behind a value that is whole without them: `length: 12 mm long`, `230 mm (9 in)`.
pub(super) fn words_behind(broken: &Broken) -> Option<Slip> {
    let text = broken.text.trim_end();
    // A point of a list that has lost something looks like a field too.
    if !is_field_word(name(text)) {
        return None;
    }
    let words = words(text);
    // The longest beginning that is a field by itself.
    let (rest, sound) = words.iter().skip(2).rev().take(MOST_WORDS_BEHIND).find_map(|(range, word)| {
        let sound = text.get(..range.start)?.trim_end();
        let is_word = word.starts_with(|c: char| c.is_alphabetic() || c == '(');
        let read = is_word.then(|| read_as_written(sound, None))?;
        (read.problems.is_empty() && read.lost.is_empty()).then_some((range.start..text.len(), sound))
    })?;
    let said = sound.get(value(sound)?)?;
    // A word of the language in the wrong place is another slip.
    let behind = text.get(rest.clone())?;
    let first = behind.split(|c: char| !c.is_alphanumeric()).find(|word| !word.is_empty())?;
    if matches!(first, "from" | "ahead" | "behind" | "like")
        || !said.starts_with(|c: char| c.is_ascii_digit() || c == '"')
        || number_word(said).is_some()
    {
        return None;
    }
    let slip = Slip::told(
        rest.clone(),
        format!("`{}` behind `{}` says nothing here", shortened(behind), shortened(said)),
        "take it out, or put it in a comment behind `#`",
    );
    Some(if broken.last {
        slip.mended_by("make a comment of it", vec![(rest.start..rest.start, "# ".to_string())]).in_marks()
    } else {
        slip.mended_by("take it out", vec![(sound.len()..rest.end, String::new())]).in_marks()
    })
}

/// More words behind a value than this are a sentence without its quotes.
const MOST_WORDS_BEHIND: usize = 12;
