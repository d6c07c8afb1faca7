//! What is wrong with a piece that isn't sound, in plain words.
//!
//! The grammar takes any text; where a line holds a piece that isn't sound, that piece alone is parsed again with the
//! strict rule, and what the grammar hoped for at the furthest place it reached is told in the reader's words.

use crate::grammar::{furthest_failure, Rule, DEEPEST_BRACKETS};
use crate::piece::Broken;
use crate::problem::{Problem, Replacement, MISSING_VALUE, TOO_DEEP, UNREADABLE};
use crate::span::Span;
use crate::vocabulary::block;
use crate::vocabulary::slips::{field_spelled, is_name};

/// A piece that isn't sound, and no known slip; `span` is its place.
pub(crate) fn unsound(rule: Rule, broken: &Broken, span: Span) -> Problem {
    let piece = broken.text;
    let strict = match rule {
        Rule::partial => Rule::only_field,
        _ if piece.starts_with("let ") => Rule::only_binding,
        _ if piece.starts_with("use ") => Rule::only_import,
        _ if piece.starts_with("finwright ") => Rule::only_version,
        _ => return statement_expected(broken, span),
    };
    let Some((at, hoped)) = furthest_failure(strict, piece) else {
        return statement_expected(broken, span);
    };
    let name = piece.split(':').next().unwrap_or("").trim();
    let rest = piece[at..].trim();
    if rule == Rule::partial && piece[piece.find(':').map_or(0, |i| i + 1)..].trim().is_empty() {
        let help = format!("write it behind the colon: `{name}: …`");
        return Problem::new(MISSING_VALUE, span, format!("`{name}` has no value yet"), help);
    }
    let from = span.start as usize + at;
    let word = rest.split_whitespace().next().unwrap_or("");
    let bad = Span::new(
        from + (piece[at..].len() - piece[at..].trim_start().len()),
        from + (piece[at..].len() - piece[at..].trim_start().len()) + word.len(),
    );
    let bad = if bad.is_empty() { Span::new(span.end as usize - last_char(piece), span.end as usize) } else { bad };
    let (message, help) = explain(piece, at, rest, &hoped);
    Problem::new(UNREADABLE, bad, message, help)
}

/// A value with a word behind it that nothing goes with: `12 mm 5`.
pub(crate) fn word_too_many(piece: &str, span: Span) -> Problem {
    let piece = piece.trim_end();
    let start = piece.char_indices().rev().find(|(_, c)| c.is_whitespace()).map_or(0, |(i, c)| i + c.len_utf8());
    let (message, help) = explain(piece, start, &piece[start..], &[]);
    let bad = Span::new(span.start as usize + start, span.start as usize + piece.len());
    Problem::new(UNREADABLE, bad, message, help)
}

/// A line whose brackets nest beyond what is ever needed.
pub(crate) fn too_many_brackets(span: Span) -> Problem {
    Problem::new(
        TOO_DEEP,
        span,
        format!("this line has brackets more than {DEEPEST_BRACKETS} deep"),
        "name a part of the value with `let` and use the name here",
    )
}

/// A file of more bytes than are read; told at its first line.
pub(crate) fn too_large(text: &str, line: Span) -> Problem {
    let line = Span { start: 0, end: line.of(text).char_indices().nth(40).map_or(line.end, |(at, _)| at as u32) };
    let message = format!("this file has {:.1} MB, and more than 1 MB isn't read", text.len() as f64 / 1e6);
    Problem::new(UNREADABLE, line, message, "a design has some hundred lines: split it, or take out what isn't one")
}

fn statement_expected(broken: &Broken, span: Span) -> Problem {
    let piece = broken.text;
    if broken.opens {
        let message = format!("can't read `{}` as a block's first line", shortened(piece));
        let help = match piece.split_whitespace().last() {
            Some("like") => "another part's name stands behind `like`, `lug front like rear {`; it's no name itself",
            _ => "a block starts with its word and one name: `tube body {`",
        };
        return Problem::new(UNREADABLE, span, message, help);
    }
    let words: Vec<&str> = piece.split_whitespace().collect();
    let is_block = words.first().is_some_and(|word| block(word).is_some());
    let help = match words.as_slice() {
        [one] => format!("a field is written `{one}: value`, a block `{one} {{ … }}`"),
        [first, ..] if is_block && field_spelled(first).is_none() => {
            return without_brace(piece, span, " { }");
        }
        [first, second] if is_name(first) && is_name(second) => {
            let block = format!("a block needs its brace on the same line: `{first} {second} {{`");
            format!("{block}; a field needs a colon: `{first}: {second}`")
        }
        [first, ..] if is_name(first) => format!("a field needs a colon: `{first}: …`"),
        _ => "a line is a field `name: value`, a block `word name {`, or a closing `}`".to_string(),
    };
    Problem::new(UNREADABLE, span, format!("can't read `{}`", shortened(piece)), help)
}

/// A block's first line that lacks its brace; `brace` is what to put behind it.
pub(crate) fn without_brace(written: &str, span: Span, brace: &'static str) -> Problem {
    let bare = written.trim_end_matches([':', ' ']);
    let header = shortened(bare);
    let help = format!("write `{header} {{`, what is in it, and `}}` at its end");
    let mut problem = Problem::new(UNREADABLE, span, format!("the block `{header}` has no `{{`"), help);
    let behind = Span { start: span.start + bare.len() as u32, end: span.end };
    let title = format!("put `{}` behind it", brace.trim());
    problem.replacement = Some(Replacement { title, span: behind, text: brace.to_string() });
    problem
}

/// A remark between other marks that goes over several lines; `meant` is how it's written.
pub(crate) fn remark_of_lines(span: Span, meant: String) -> Problem {
    let mut problem =
        Problem::new(UNREADABLE, span, "a comment starts with `#`, not with `/*`", "put a `#` before each line of it");
    problem.replacement = Some(Replacement { title: "write `#`".to_string(), span, text: meant });
    problem
}

/// A brace that stands below its block's first line; `gap` is what stands between them.
pub(crate) fn brace_below(header: (&str, Span), gap: &str, brace: Span) -> Problem {
    let (header, place) = (shortened(header.0), header.1);
    let message = format!("the `{{` of `{header}` stands on a line of its own");
    let mut problem =
        Problem::new(UNREADABLE, brace, message, format!("a block's brace stands behind it: `{header} {{`"));
    problem.label = Some((place, "the block's first line"));
    if gap.trim().is_empty() {
        let span = Span { start: brace.start - gap.len() as u32, end: brace.end };
        problem.replacement =
            Some(Replacement { title: "put it behind the block's word".to_string(), span, text: " {".to_string() });
    }
    problem
}

/// What to say where the strict rule stopped at `rest`, having hoped for one of these rules.
fn explain(piece: &str, at: usize, rest: &str, hoped: &[Rule]) -> (String, String) {
    let before = piece[..at].trim_end();
    let hopes = |rule: Rule| hoped.contains(&rule);
    if rest.starts_with('"') && rest.matches('"').count() == 1 {
        return ("this text has no closing quote".to_string(), "end it with `\"`".to_string());
    }
    if before.ends_with(['(', ',']) && rest.is_empty()
        || before.matches('(').count() > before.matches(')').count() && rest.is_empty()
    {
        return ("a bracket `(` isn't closed".to_string(), "close it with `)`".to_string());
    }
    if rest.starts_with(')') {
        return ("this `)` closes nothing".to_string(), "take it out, or open it with `(`".to_string());
    }
    if rest.is_empty() {
        let awaited = if before.ends_with(['+', '-', '*', '/', '±']) {
            "a value"
        } else if before.ends_with("from") {
            "`front`, `back`, `tip`, `tail` or a part's edge such as `body.back`"
        } else if before.ends_with("ahead") || before.ends_with("behind") || before.ends_with(" of") {
            "`balance`"
        } else if hopes(Rule::sum) || hopes(Rule::quantity) || hopes(Rule::measure) {
            "a value"
        } else {
            "something more"
        };
        return (
            format!("after `{}` there should be {awaited}", last_words(before)),
            "finish the line, or take its end out".to_string(),
        );
    }
    if rest.starts_with(':') {
        return ("a second colon on one field".to_string(), "separate two fields on one line with `;`".to_string());
    }
    let next = rest.split_whitespace().next().unwrap_or(rest);
    let looks_like_field = rest.contains(':') && is_name(next.trim_end_matches(':'));
    let help = if looks_like_field {
        "separate two fields on one line with `;`".to_string()
    } else {
        "a value is a quantity (`12 mm`), a name, a `\"text\"`, a list `[…]` or arithmetic on them".to_string()
    };
    (format!("can't read `{}` after `{}`", shortened(rest), last_words(before)), help)
}

fn last_char(text: &str) -> usize {
    text.chars().next_back().map_or(0, char::len_utf8)
}

pub(crate) fn shortened(text: &str) -> String {
    let text = text.trim();
    if text.chars().count() <= 32 {
        return text.to_string();
    }
    text.chars().take(30).collect::<String>() + "…"
}

fn last_words(before: &str) -> String {
    let tail: Vec<&str> = before.split_whitespace().rev().take(2).collect();
    shortened(&tail.into_iter().rev().collect::<Vec<_>>().join(" "))
}
