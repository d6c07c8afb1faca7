//! Texts and their quotes.

use super::scan::{kinds, name, value};
use super::{Broken, Slip};
use crate::vocabulary::FieldKind;

/// Quotes of other keyboards and other languages.
const OTHER_QUOTES: [char; 11] = ['“', '”', '„', '‟', '«', '»', '‘', '’', '‚', '\'', '`'];

/// A text in other quotes than straight ones. It may hold anything, so the whole line is looked at.
pub(super) fn in_curly_quotes(line: &str) -> Option<Slip> {
    let code = line.split('#').next()?;
    let open = code.find(OTHER_QUOTES)?;
    let opening = code.get(open..)?.chars().next()?;
    let before = code.get(..open)?;
    // A text starts behind a colon or a word; behind a digit it's a mark for feet or inches.
    let starts =
        before.ends_with([' ', '\t', ':', '[', ',']) && !before.trim_end().ends_with(super::scan::is_of_number);
    if before.matches('"').count() % 2 == 1 || !starts {
        return None;
    }
    let inside = open + opening.len_utf8();
    let rest = line.get(inside..)?;
    let (length, closing) = rest.char_indices().filter(|(_, c)| closes(opening, *c)).find(|(at, c)| {
        // An apostrophe in a word ends no text.
        let next = rest.get(at + c.len_utf8()..).and_then(|rest| rest.chars().next());
        !matches!(c, '’' | '\'') || next.is_none_or(|c| !c.is_alphanumeric())
    })?;
    let close = inside + length;
    let end = close + closing.len_utf8();
    let text = line.get(inside..close)?;
    if text.contains('"') {
        return None;
    }
    let meant = format!("\"{text}\"");
    Some(
        Slip::told(
            open..end,
            format!("a text stands in straight quotes, not in `{opening}{closing}`"),
            format!("write `{}`", crate::unsound::shortened(&meant)),
        )
        .mended_by("write straight quotes", vec![(open..inside, "\"".to_string()), (close..end, "\"".to_string())])
        .in_marks(),
    )
}

fn closes(opening: char, c: char) -> bool {
    match opening {
        '“' | '”' | '„' | '‟' => matches!(c, '“' | '”' | '‟' | '"'),
        '«' => c == '»',
        '»' => c == '«',
        '‘' | '’' | '‚' => matches!(c, '‘' | '’'),
        other => c == other,
    }
}

/// A text without quotes: `note: first rocket after the kit`.
pub(super) fn without_quotes(broken: &Broken) -> Option<Slip> {
    let name = name(broken.text);
    let mut kinds = kinds(name).peekable();
    kinds.peek()?;
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    if text.is_empty() || text.contains('"') || !kinds.all(|kind| kind == FieldKind::Text) {
        return None;
    }
    let edits = vec![(range.start..range.start, "\"".to_string()), (range.end..range.end, "\"".to_string())];
    let help = format!("write `{name}: \"{}\"`", crate::unsound::shortened(text));
    Some(
        Slip::told(range, format!("`{name}` is a text, and a text stands in quotes"), help)
            .mended_by("put it in quotes", edits),
    )
}

/// A field's name in quotes: `"length": 12 mm`.
pub(super) fn key_in_quotes(broken: &Broken) -> Option<Slip> {
    let text = broken.text;
    let quote = text.chars().next().filter(|c| matches!(c, '"' | '\''))?;
    let close = 1 + text.get(1..)?.find(quote)?;
    let name = text.get(1..close)?;
    if !text.get(close + 1..)?.trim_start().starts_with(':') {
        return None;
    }
    Some(
        Slip::told(0..close + 1, "a field's name stands without quotes", format!("write `{name}: …`"))
            .mended_by("take the quotes out", vec![(0..1, String::new()), (close..close + 1, String::new())])
            .in_marks(),
    )
}
