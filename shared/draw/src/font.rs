//! The embedded font: how wide words are, and which letters it has.

use crate::scene::{Anchor, Rect, Style, Text};
use std::sync::OnceLock;
use ttf_parser::Face;
use unicode_width::UnicodeWidthChar;

/// The font's plain face, as a TrueType file.
pub static PLAIN: &[u8] = include_bytes!("../fonts/DejaVuSans.ttf");
/// Its bold face.
pub static BOLD: &[u8] = include_bytes!("../fonts/DejaVuSans-Bold.ttf");

/// How high letters stand over the baseline, and hang below it, as shares of the type size.
pub const ASCENT: f64 = 0.76;
/// See [`ASCENT`].
pub const DESCENT: f64 = 0.22;
/// From one line of a label to the next, as a share of the type size.
pub const LEAD: f64 = 1.36;

/// A face of the embedded font.
pub fn face(bold: bool) -> Option<&'static Face<'static>> {
    static FACES: OnceLock<[Option<Face<'static>>; 2]> = OnceLock::new();
    let faces = FACES.get_or_init(|| [Face::parse(PLAIN, 0).ok(), Face::parse(BOLD, 0).ok()]);
    faces[usize::from(bold)].as_ref()
}

/// The width of words in a style, mm.
pub fn width(words: &str, style: Style) -> f64 {
    words.chars().map(|c| advance(c, style.bold)).sum::<f64>() * style.size
}

/// Whether the embedded font has a letter.
pub fn has(c: char) -> bool {
    face(false).is_some_and(|face| face.glyph_index(c).is_some())
}

/// The rectangle that words take up.
pub fn bounds(text: &Text) -> Rect {
    let Style { size, anchor, upwards, .. } = text.style;
    let wide = width(&text.words, text.style);
    let from = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => -wide / 2.0,
        Anchor::End => -wide,
    };
    let (x, y) = text.at;
    if upwards {
        return (x - ASCENT * size, y - from - wide, x + DESCENT * size, y - from);
    }
    (x + from, y - ASCENT * size, x + from + wide, y + DESCENT * size)
}

/// Words broken into lines of at most `most` mm; a word that is wider by itself is broken too.
pub fn wrapped(words: &str, style: Style, most: f64) -> Vec<String> {
    let words = tied(words);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words.split(' ').filter(|word| !word.is_empty()) {
        let longer = if line.is_empty() { word.to_string() } else { format!("{line} {word}") };
        if width(&longer, style) <= most {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            if !line.is_empty() && width(&line, style) + advance(c, style.bold) * style.size > most {
                lines.push(std::mem::take(&mut line));
            }
            line.push(c);
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// The same words with numbers and what follows them kept on one line, by no-break spaces.
pub fn tied(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    let mut before = ' ';
    let mut chars = words.chars().peekable();
    while let Some(c) = chars.next() {
        let unit = chars.peek().is_some_and(|next| next.is_alphabetic() || matches!(next, '°' | '%' | '±' | '×'));
        out.push(if c == ' ' && before.is_ascii_digit() && unit { '\u{a0}' } else { c });
        before = c;
    }
    out
}

/// Words cut to at most `most` mm, with an ellipsis where something is left out.
pub fn cut(words: &str, style: Style, most: f64) -> String {
    if width(words, style) <= most {
        return words.to_string();
    }
    let mut kept = String::new();
    for c in words.chars() {
        if width(&kept, style) + (advance(c, style.bold) + advance('…', style.bold)) * style.size > most {
            break;
        }
        kept.push(c);
    }
    kept.trim_end().to_string() + "…"
}

/// How far a letter moves on, in type sizes. One that the font lacks is drawn by another and taken to be wide.
pub fn advance(c: char, bold: bool) -> f64 {
    static KNOWN: OnceLock<[Vec<f64>; 2]> = OnceLock::new();
    let known = KNOWN.get_or_init(|| [false, true].map(|bold| (' '..'\u{2ff}').map(|c| measured(c, bold)).collect()));
    let at = (c as usize).checked_sub(' ' as usize);
    at.and_then(|at| known[usize::from(bold)].get(at).copied()).unwrap_or_else(|| measured(c, bold))
}

fn measured(c: char, bold: bool) -> f64 {
    let own = face(bold).and_then(|face| {
        let advance = face.glyph_hor_advance(face.glyph_index(c)?)?;
        Some(f64::from(advance) / f64::from(face.units_per_em()))
    });
    own.unwrap_or_else(|| match c.width().unwrap_or(0) {
        0 => 0.0,
        1 => 0.75,
        _ => 1.25,
    })
}
