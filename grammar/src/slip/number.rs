//! A number and its unit.

use super::scan::{is_of_number, number_before, signs, value, words};
use super::{edited, Broken, Slip};
use crate::unsound::shortened;
use finwright_units::find_unit;

/// A comma in a number: `1,6 mm` for decimals, `12,500 mm` for thousands.
pub(super) fn comma_in_number(broken: &Broken) -> Option<Slip> {
    let text = broken.text;
    let digit = |at: usize| text.as_bytes().get(at).is_some_and(u8::is_ascii_digit);
    let commas: Vec<usize> = signs(text)
        .iter()
        .filter(|(at, c, _)| *c == ',' && *at > 0 && digit(at - 1) && digit(at + 1))
        .map(|(at, ..)| *at)
        .collect();
    let at = *commas.first()?;
    let start = text.get(..at)?.rfind(|c: char| !c.is_ascii_digit()).map_or(0, |i| i + 1);
    let digits = text.get(at + 1..)?;
    let decimals = digits.find(|c: char| !c.is_ascii_digit()).unwrap_or(digits.len());
    let (whole, part) = (text.get(start..at)?, digits.get(..decimals)?);
    let place = at..at + 1 + decimals;
    let message = format!("`{whole},{part}` has a comma in the number");
    let behind = digits.get(decimals..)?;
    // `1,200.5` and `1,200,000` can only be thousands.
    if decimals == 3 && (behind.starts_with('.') || behind.starts_with(',')) {
        let edits = commas.iter().map(|at| (*at..at + 1, String::new())).collect();
        return Some(
            Slip::told(place, message, "thousands aren't parted: take the comma out")
                .mended_by("take the comma out", edits),
        );
    }
    if decimals == 3 && whole.len() <= 3 && !whole.starts_with('0') {
        let help = format!("write `{whole}{part}` or `{whole}.{}`, whichever is meant", part.trim_end_matches('0'));
        return Some(Slip::told(place, message, help.replace(".`", "`")));
    }
    let edits = commas.iter().map(|at| (*at..at + 1, ".".to_string())).collect();
    Some(
        Slip::told(place, message, format!("decimals take a point: `{whole}.{part}`"))
            .mended_by(format!("write `{whole}.{part}`"), edits),
    )
}

/// A space or another sign in a number: `1 200 mm`, `1'200 mm`, `1_200 mm`.
pub(super) fn space_in_number(broken: &Broken) -> Option<Slip> {
    let text = broken.text;
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes.get(from..).unwrap_or_default().iter().take_while(|b| b.is_ascii_digit()).count();
    let (at, sign, _) = signs(text).into_iter().find(|(at, c, _)| {
        let before = bytes.get(..*at).unwrap_or_default().iter().rev().take_while(|b| b.is_ascii_digit()).count();
        matches!(c, ' ' | '\'' | '_') && (1..=3).contains(&before) && digits(at + 1) == 3
    })?;
    let start = text.get(..at)?.rfind(|c: char| !c.is_ascii_digit()).map_or(0, |i| i + 1);
    let end = at + 4;
    let meant = format!("{}{}", text.get(start..at)?, text.get(at + 1..end)?);
    let what = if sign == ' ' { "space".to_string() } else { format!("`{sign}`") };
    Some(
        Slip::told(
            start..end,
            format!("a number has no {what} in it, and `{}` has one", text.get(start..end)?),
            format!("write `{meant}`"),
        )
        .mended_by(format!("write `{meant}`"), vec![(at..at + 1, String::new())]),
    )
}

/// Marks for inches and feet: `9"`, `1' 6"`.
pub(super) fn unit_marks(broken: &Broken) -> Option<Slip> {
    let text = broken.text;
    let mut edits: Vec<(std::ops::Range<usize>, String)> = Vec::new();
    let mut first = None;
    for (at, c, _) in signs(text) {
        let unit = match c {
            '"' | '″' | '”' | '“' => "in",
            '\'' | '′' | '’' => "ft",
            _ => continue,
        };
        let Some(number) = number_before(text, at) else { continue };
        let before = text.get(..at)?.trim_end().len();
        // What stands behind feet is added to them.
        let feet_before = edits.last().filter(|(range, unit)| {
            unit.trim() == "ft" && text.get(range.end..number.start).is_some_and(|gap| gap.trim().is_empty())
        });
        if let Some((range, _)) = feet_before {
            edits.push((range.end..number.start, " + ".to_string()));
        }
        // `3-1/2` is meant as a whole number and a fraction.
        if let Some(dash) = text.get(number.clone()).and_then(|number| number.find('-')) {
            edits.push((number.start + dash..number.start + dash + 1, " ".to_string()));
        }
        first = first.or(Some((at..at + c.len_utf8(), c, unit)));
        edits.push((before..at + c.len_utf8(), format!(" {unit}")));
    }
    let (place, mark, unit) = first?;
    let (start, end) = (number_before(text, place.start)?.start, edits.last()?.0.end);
    let whole: Vec<_> = edits
        .iter()
        .filter(|(r, _)| r.start >= start)
        .map(|(r, t)| (r.start - start..r.end - start, t.clone()))
        .collect();
    let meant = edited(text.get(start..end)?, &whole);
    let what = if unit == "in" { "inches are `in`" } else { "feet are `ft`" };
    Some(
        Slip::told(place, format!("`{mark}` isn't a unit here: {what}"), format!("write `{}`", shortened(&meant)))
            .mended_by(format!("write `{}`", shortened(&meant)), edits),
    )
}

/// Signs that look like the language's own: fractions, dashes, a times sign.
pub(super) fn look_alikes(broken: &Broken) -> Option<Slip> {
    const SIGNS: [(char, &str, &str); 27] = [
        ('½', "1/2", "a fraction"),
        ('¼', "1/4", "a fraction"),
        ('¾', "3/4", "a fraction"),
        ('⅛', "1/8", "a fraction"),
        ('⅜', "3/8", "a fraction"),
        ('⅝', "5/8", "a fraction"),
        ('⅞', "7/8", "a fraction"),
        ('⅓', "1/3", "a fraction"),
        ('⅔', "2/3", "a fraction"),
        ('⁄', "/", "a fraction"),
        ('∕', "/", "a fraction"),
        ('÷', "/", "a quotient"),
        ('×', "*", "a product"),
        ('✕', "*", "a product"),
        ('∙', "*", "a product"),
        ('–', "-", "a minus"),
        ('—', "-", "a minus"),
        ('‐', "-", "a minus"),
        ('‑', "-", "a minus"),
        ('º', "°", "a degree"),
        ('˚', "°", "a degree"),
        ('：', ":", "a colon"),
        ('；', ";", "a semicolon"),
        ('，', ",", "a comma"),
        ('\u{2009}', " ", "a space"),
        ('\u{202F}', " ", "a space"),
        ('\u{200B}', "", "nothing"),
    ];
    let mut edits = Vec::new();
    let mut first = None;
    for (at, c, _) in signs(broken.text) {
        let Some((_, meant, what)) = SIGNS.iter().find(|(sign, ..)| *sign == c) else { continue };
        // `1½` is `1 1/2`.
        let behind_digit = broken.text.get(..at)?.ends_with(|c: char| c.is_ascii_digit());
        let is_part = *what == "a fraction" && behind_digit && meant.len() > 1;
        edits.push((at..at + c.len_utf8(), format!("{}{meant}", if is_part { " " } else { "" })));
        first = first.or(Some((at..at + c.len_utf8(), c, *meant, *what)));
    }
    let (place, sign, meant, what) = first?;
    let (message, help) = match what {
        "nothing" => ("there is a sign here that can't be seen".to_string(), "take it out".to_string()),
        "a space" => ("this space isn't a plain one".to_string(), "write a plain space".to_string()),
        _ => (format!("`{sign}` isn't how {what} is written here"), format!("write `{meant}`")),
    };
    let title = if meant.trim().is_empty() { help.clone() } else { format!("write `{meant}`") };
    Some(Slip::told(place, message, help).mended_by(title, edits))
}

/// Two measures in a row, or a fraction without its space: `1 ft 3 in`, `2 lb 3 oz`.
pub(super) fn measures_in_a_row(broken: &Broken) -> Option<Slip> {
    let words = words(broken.text);
    let is_number =
        |word: &str| word.ends_with(is_of_number) && word.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let unit = |word: &str| find_unit(word).ok();
    let (first, last) = words.windows(4).find_map(|four| match four {
        [a, b, c, d] if is_number(a.1) && is_number(c.1) => {
            let (one, two) = (unit(b.1)?, unit(d.1)?);
            (one.dimension == two.dimension && one != two)
                .then_some((a.0.start, d.0.end))
                .map(|at| ((at.0, b.0.end, c.0.start), at.1))
        }
        _ => None,
    })?;
    let (start, gap, next) = first;
    let meant = format!("{} + {}", broken.text.get(start..gap)?, broken.text.get(next..last)?);
    Some(
        Slip::told(start..last, "two measures in a row are added with `+`", format!("write `{meant}`"))
            .mended_by(format!("write `{meant}`"), vec![(gap..next, " + ".to_string())]),
    )
}

/// A value that is about right: `mass: ~3 g`, `mass: ca. 3 g`.
pub(super) fn about(broken: &Broken) -> Option<Slip> {
    const WORDS: [&str; 11] =
        ["approximately", "approx.", "approx", "about", "circa", "roughly", "ca.", "c.", "ca", "~", "≈"];
    let range = value(broken.text)?;
    let text = broken.text.get(range.clone())?;
    let word = WORDS.iter().find(|word| text.to_lowercase().starts_with(**word))?;
    let rest = text.get(word.len()..)?.trim_start();
    if !rest.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return None;
    }
    let place = range.start..range.start + word.len();
    let gap = range.start..range.end - rest.len();
    Some(
        Slip::told(
            place,
            format!("`{word}` isn't part of a value"),
            format!("write `{rest}`, or how well it's known: `{rest} ± 10 %`"),
        )
        .mended_by(format!("write `{rest}`"), vec![(gap, String::new())]),
    )
}
