//! A field as a whole: its name, its marks, what parts it from the next one.

use super::scan::{name, signs, words};
use super::{Broken, Slip};
use crate::vocabulary::slips::{as_name, field_anywhere, field_spelled, is_field_word, is_name, squeezed};

/// The version with a point or a colon: `finwright 1.0`.
pub(super) fn version(broken: &Broken) -> Option<Slip> {
    let words = words(broken.text);
    let (first, word) = words.first()?;
    let word = word.trim_end_matches([':', '=']);
    // In a block something else may have a version.
    let is_own = is_name(word) && (squeezed(word) == "finwright" || word == "version" && !broken.inside);
    let number = words.last()?.1.trim_start_matches(['v', 'V']);
    let whole = number.split('.').next()?;
    if !is_own || whole.is_empty() || !number.chars().all(|c| c.is_ascii_digit() || c == '.') {
        return None;
    }
    let meant = format!("finwright {whole}");
    let message = if number.contains('.') {
        "the language's version is a whole number".to_string()
    } else {
        format!("the first line is `{meant}`, with no other mark")
    };
    let (end, last) = (broken.text.trim_end().len(), words.last()?.0.clone());
    // The number stays where it is, and what stands before it becomes the word.
    let mut edits = vec![(first.start..last.start, "finwright ".to_string()), (last, whole.to_string())];
    edits.retain(|(range, new)| broken.text.get(range.clone()) != Some(new));
    let slip = Slip::told(first.start..end, message, format!("write `{meant}`"));
    Some(slip.mended_by(format!("write `{meant}`"), edits).in_marks())
}

/// Another word for `use`, or a path without quotes.
pub(super) fn import(broken: &Broken) -> Option<Slip> {
    let text = broken.text.trim_end();
    let (word, rest) = text.split_once(char::is_whitespace)?;
    let is_own = word == "use";
    let rest = rest.trim();
    let path = rest.trim_matches('"').trim_end_matches(',');
    let is_path = path.ends_with(".finw") || rest.starts_with('"');
    if !is_own
        && !matches!(word, "include" | "import" | "require" | "load" | "from" | "source" | "open" | "Use" | "#include")
        || !is_path
    {
        return None;
    }
    let meant = format!("use \"{path}\"");
    let message = if is_own { "a path stands in quotes".to_string() } else { format!("`{word}` is `use` here") };
    let mut edits = vec![(0..word.len(), "use".to_string())];
    if !rest.starts_with('"') {
        let start = text.len() - rest.len();
        edits.push((start..start, "\"".to_string()));
        edits.push((text.len()..text.len(), "\"".to_string()));
    }
    Some(
        Slip::told(0..text.len(), message, format!("write `{meant}`"))
            .mended_by(format!("write `{meant}`"), edits)
            .in_marks(),
    )
}

/// A named value with other marks or words: `let x: 3 mm`, `const x = 3 mm`, `x = 3 mm` outside of any block.
pub(super) fn binding(broken: &Broken) -> Option<Slip> {
    const OTHERS: [&str; 13] = [
        "const",
        "var",
        "set",
        "def",
        "define",
        "val",
        "dim",
        "constant",
        "variable",
        "parameter",
        "param",
        "Let",
        "LET",
    ];
    let words = words(broken.text);
    let ((start, first), rest) = words.split_first()?;
    let other = OTHERS.contains(first) && rest.len() >= 2;
    let known = *first == "let" || other;
    // The name may stand right before its mark: `x=3 mm`.
    let from = if known { rest.first()?.0.start } else { start.start };
    let behind = broken.text.get(from..)?;
    let name_end = from + behind.find(|c: char| !(c.is_alphanumeric() || c == '_'))?;
    let name = broken.text.get(from..name_end)?;
    let after = broken.text.get(name_end..)?;
    let sign = after.trim_start();
    let mark = [":=", "==", "=>", "->", "=", ":"].iter().find(|mark| sign.starts_with(**mark)).copied();
    let is_value = known || (!broken.inside && mark.is_some_and(|mark| mark != ":") && field_spelled(name).is_none());
    if !is_value || !is_name(name) || *first == "let" && mark == Some("=") {
        return None;
    }
    let mut edits = Vec::new();
    match (known, other) {
        (false, _) => edits.push((from..from, "let ".to_string())),
        (_, true) => edits.push((start.clone(), "let".to_string())),
        _ => {}
    }
    let sign_at = broken.text.len() - sign.len();
    match mark {
        Some("=") => {}
        Some(mark) => {
            let sign = if sign_at == name_end { " =" } else { "=" };
            edits.push((sign_at..sign_at + mark.len(), sign.to_string()));
        }
        None => edits.push((name_end..name_end, " =".to_string())),
    }
    let value = sign.strip_prefix(mark.unwrap_or(""))?.trim();
    let meant = format!("let {name} = {value}");
    let (place, message) = match (known, other) {
        (false, _) => (from..name_end, "a named value starts with `let`".to_string()),
        (_, true) => (start.clone(), format!("`{first}` is `let` here")),
        _ => (start.start..broken.text.trim_end().len(), "a named value is `let name = value`".to_string()),
    };
    Some(
        Slip::told(place, message, format!("write `{}`", crate::unsound::shortened(&meant)))
            .mended_by(format!("write `{}`", crate::unsound::shortened(&meant)), edits)
            .in_marks(),
    )
}

/// An equals sign or an arrow where a field has its colon: `length = 12 mm`.
pub(super) fn equals(broken: &Broken) -> Option<Slip> {
    let text = broken.text;
    let at = text.find(['=', '-', ':'])?;
    let mark = [":=", "==", "=>", "->", "="]
        .into_iter()
        .find(|mark| text.get(at..).is_some_and(|rest| rest.starts_with(mark)))?;
    let written = text.get(..at)?.trim_end();
    let name = named(written)?;
    let rest = text.get(at + mark.len()..)?;
    let mut edits = Vec::new();
    if name != written {
        edits.push((0..written.len(), name.clone()));
    }
    // The colon stands right behind the name.
    let gap = if rest.starts_with(char::is_whitespace) { ":" } else { ": " };
    edits.push((written.len()..at + mark.len(), gap.to_string()));
    let meant = format!("{name}: {}", rest.trim());
    Some(
        Slip::told(
            at..at + mark.len(),
            format!("a field takes a colon, not `{mark}`"),
            format!("write `{}`", crate::unsound::shortened(&meant)),
        )
        .mended_by("write a colon", edits)
        .in_marks(),
    )
}

/// A field's name of several words: `guided by: [only]`.
pub(super) fn name_of_several_words(broken: &Broken) -> Option<Slip> {
    let colon = broken.text.find(':')?;
    let written = broken.text.get(..colon)?.trim_end();
    let words = words(written);
    if !(2..=3).contains(&words.len()) || !words.iter().all(|(_, word)| is_name(word)) {
        return None;
    }
    let meant = named(written)?;
    Some(
        Slip::told(
            0..written.len(),
            format!("a field's name is one word, and `{written}` is more"),
            format!("write `{meant}: …`"),
        )
        .mended_by(format!("write `{meant}`"), vec![(0..written.len(), meant)]),
    )
}

/// The same, where more is wrong with it.
pub(super) fn name_of_several_words_and_more(broken: &Broken) -> Option<Slip> {
    let slip = name_of_several_words(broken)?;
    Some(Slip { edits: Vec::new(), title: None, ..slip })
}

/// A field without its colon: `length 12 mm`.
pub(super) fn without_colon(broken: &Broken) -> Option<Slip> {
    let words = words(broken.text);
    // `guided by [only]` is a field of two words; of any other name the first word is it.
    let taken = (1..words.len().min(4)).rev().find(|taken| {
        let range = 0..words.get(taken - 1).map_or(0, |(range, _)| range.end);
        broken.text.get(range).is_some_and(|written| field_spelled(written).is_some())
    });
    let is_block = words.first().is_some_and(|(_, word)| crate::vocabulary::block(word).is_some());
    if is_block && (taken.is_none() || !broken.inside) {
        return None;
    }
    let end = words.get(taken.unwrap_or(1) - 1)?.0.end;
    let written = broken.text.get(..end)?;
    let meant = if taken.is_some() { field_spelled(written)?.to_string() } else { written.to_string() };
    let rest = broken.text.get(end..)?.trim();
    // Without a known name only what can't be a name itself shows that a value follows.
    let is_value = rest.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '[' | '"' | '.' | '-' | '('));
    if rest.is_empty() || !is_name(&meant) || taken.is_none() && !is_value {
        return None;
    }
    let edits = if meant == written { vec![(end..end, ":".to_string())] } else { vec![(0..end, format!("{meant}:"))] };
    let whole = crate::unsound::shortened(&format!("{meant}: {rest}"));
    Some(
        Slip::told(
            0..broken.text.trim_end().len(),
            format!("a colon is missing behind `{written}`"),
            format!("write `{whole}`"),
        )
        .mended_by("put the colon in", edits)
        .in_marks(),
    )
}

/// Fields parted by commas: `outer: 25 mm, inner: 24 mm`; or one that ends with a comma.
pub(super) fn parted_by_commas(broken: &Broken) -> Option<Slip> {
    let text = broken.text.trim_end();
    // A point of a list that has lost its bracket, or its first number, ends with a comma too.
    if !is_field_word(name(text)) {
        return None;
    }
    let signs = signs(text);
    let commas: Vec<usize> =
        signs.iter().filter(|(_, c, depth)| *c == ',' && *depth == 0).map(|(at, ..)| *at).collect();
    let first = *commas.first()?;
    if commas.len() == 1 && first + 1 == text.len() {
        return Some(
            Slip::told(
                first..first + 1,
                "a field doesn't end with a comma",
                "take the comma out; two fields on one line are parted by `;`",
            )
            .mended_by("take the comma out", vec![(first..first + 1, String::new())])
            .in_marks(),
        );
    }
    let parts_fields = |at: &usize| {
        let rest = text.get(at + 1..).unwrap_or("").trim_start();
        let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(rest.len());
        end > 0 && rest.get(end..).is_some_and(|rest| rest.trim_start().starts_with(':')) || at + 1 == text.len()
    };
    let parting: Vec<usize> = commas.into_iter().filter(parts_fields).collect();
    let first = *parting.first()?;
    let edits =
        parting.iter().map(|at| (*at..at + 1, if at + 1 == text.len() { "" } else { ";" }.to_string())).collect();
    Some(
        Slip::told(
            first..first + 1,
            "fields are parted by `;`, not by a comma",
            "write `;` between two fields on one line",
        )
        .mended_by("write `;`", edits)
        .in_marks(),
    )
}

/// Two fields with nothing between them: `outer: 25 mm inner: 24 mm`.
pub(super) fn without_stop(broken: &Broken) -> Option<Slip> {
    let text = broken.text.trim_end();
    let signs = signs(text);
    let mut colons = signs.iter().filter(|(_, c, depth)| *c == ':' && *depth == 0).map(|(at, ..)| *at);
    colons.next()?;
    let mut edits = Vec::new();
    let mut name = "";
    for colon in colons {
        let before = text.get(..colon)?.trim_end();
        let start = before.rfind(|c: char| !(c.is_alphanumeric() || c == '_'))?;
        let word = before.get(start + before.get(start..)?.chars().next()?.len_utf8()..)?;
        let gap = before.get(..before.len() - word.len())?;
        if !is_field_word(word) || gap.trim_end().len() == gap.len() {
            return None;
        }
        name = if edits.is_empty() { word } else { name };
        edits.push((gap.trim_end().len()..gap.trim_end().len(), ";".to_string()));
    }
    let first = edits.first()?.0.start;
    let place = text.get(first..)?.find(name).map(|at| first + at..first + at + name.len())?;
    Some(
        Slip::told(place, format!("a `;` is missing before `{name}`"), "write `;` between two fields on one line")
            .mended_by("write `;`", edits)
            .in_marks(),
    )
}

/// A list's dash or dot before a field: `- length: 12 mm`.
pub(super) fn bullet(broken: &Broken) -> Option<Slip> {
    let mark = broken.text.chars().next().filter(|c| matches!(c, '-' | '*' | '•' | '·' | '+'))?;
    let rest = broken.text.get(mark.len_utf8()..)?;
    if !rest.starts_with([' ', '\t']) {
        return None;
    }
    let end = broken.text.len() - rest.trim_start().len();
    Some(
        Slip::told(
            0..mark.len_utf8(),
            format!("no `{mark}` stands before a field"),
            format!("write `{}`", crate::unsound::shortened(rest)),
        )
        .mended_by(format!("take `{mark}` out"), vec![(0..end, String::new())])
        .in_marks(),
    )
}

/// A comma by itself, as behind a block in a list of them: `},`.
pub(super) fn lone_comma(broken: &Broken) -> Option<Slip> {
    let range = 0..broken.text.trim_end().len();
    (broken.text.trim_end() == ",").then(|| {
        Slip::told(range.clone(), "no comma stands between blocks or fields", "take the comma out")
            .mended_by("take the comma out", vec![(range, String::new())])
            .in_marks()
    })
}

/// A field's name as the language spells it, or as it could be spelled.
fn named(written: &str) -> Option<String> {
    let meant = field_anywhere(written).map_or_else(|| written.to_string(), str::to_string);
    let joined = if is_name(&meant) { meant } else { as_name("x", &meant) };
    is_name(&joined)
        .then_some(joined)
        .filter(|_| written.chars().all(|c| c.is_alphanumeric() || matches!(c, '_' | '-' | ' ')))
}
