//! What a line break mustn't part: a number and its unit, a value and its tolerance, a short command.

use finwright_units::is_unit;

/// Stands for a space at which no line may be broken. A noncharacter (Unicode, chapter 23.7) comes in no text of a
/// reader, which a no-break space may.
const JOINT: char = '\u{FDD0}';

/// The text with joints for the spaces in `1.2 m`, `352 ± 3 mm`, `18.7 N s` and `` `finwright check` ``.
pub fn joined(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    // Every other piece stands in backticks.
    for (i, piece) in text.split('`').enumerate() {
        if i > 0 {
            out.push('`');
        }
        match i % 2 {
            1 if piece.len() <= LONGEST_COMMAND => out.extend(piece.chars().map(|c| if c == ' ' { JOINT } else { c })),
            _ => join_numbers(piece, &mut out),
        }
    }
    out
}

/// The text as one word, for a command: broken by a line break it couldn't be copied.
pub fn whole(text: &str) -> String {
    text.replace(' ', JOINT.encode_utf8(&mut [0; 4]))
}

/// The text with spaces for joints.
pub fn parted(text: &str) -> String {
    text.replace(JOINT, " ")
}

/// What stands in backticks is to be typed; longer, it would leave ragged lines.
const LONGEST_COMMAND: usize = 40;

fn join_numbers(text: &str, out: &mut String) {
    let words: Vec<&str> = text.split(' ').collect();
    for (i, word) in words.iter().enumerate() {
        out.push_str(word);
        if let Some(next) = words.get(i + 1) {
            let before = i.checked_sub(1).and_then(|i| words.get(i)).copied().unwrap_or("");
            let joins = *word == "±" || *next == "±" || is_unit_of(before, word, next);
            out.push(if joins { JOINT } else { ' ' });
        }
    }
}

/// Whether `next` is the unit of the number `word`, or the second half of a unit after a number (`18.7 N s`).
fn is_unit_of(before: &str, word: &str, next: &str) -> bool {
    let is_number = |word: &str| {
        let word = word.trim_start_matches('(');
        word.ends_with(|c: char| c.is_ascii_digit()) && word.chars().all(|c| c.is_ascii_digit() || ".,/+-".contains(c))
    };
    let unit = next.trim_end_matches(['.', ',', ';', ':', ')', '?']);
    if is_number(word) {
        return OTHERS.contains(&unit) || is_unit(unit);
    }
    word == "N" && unit == "s" && is_number(before)
}

/// Units that are shown and can't be written in a design.
const OTHERS: [&str; 1] = ["Hz"];
