//! A sound piece of a line in the one style.

use crate::grammar::Rule;
use pest::iterators::Pair;

/// The text of a piece; a header without its brace.
pub(super) fn spell(piece: Pair<'_, Rule>) -> String {
    let mut out = String::with_capacity(piece.as_str().len());
    put(piece, &mut out);
    out
}

fn put(pair: Pair<'_, Rule>, out: &mut String) {
    match pair.as_rule() {
        Rule::header => put_row(pair, " ", out),
        Rule::version => put_led("finwright ", pair, out),
        Rule::import => put_led("use ", pair, out),
        Rule::binding => {
            out.push_str("let ");
            put_row(pair, " = ", out);
        }
        Rule::like => put_led("like ", pair, out),
        Rule::field => put_row(pair, ": ", out),
        Rule::list | Rule::opened | Rule::rows => put_list(pair, out),
        Rule::measure | Rule::element => put_measure(pair, out),
        Rule::edge => {
            out.push_str("from ");
            put_row(pair, ".", out);
        }
        Rule::side | Rule::moment | Rule::event => put_words(pair.as_str(), out),
        Rule::height => put_led("at ", pair, out),
        Rule::sum | Rule::quantity => put_row(pair, " ", out),
        Rule::group => {
            out.push('(');
            put_row(pair, "", out);
            out.push(')');
        }
        Rule::arguments => {
            out.push('(');
            put_row(pair, ", ", out);
            out.push(')');
        }
        Rule::signed => put_row(pair, "", out),
        Rule::named => put_named(pair, out),
        Rule::number => put_words(pair.as_str(), out),
        // Names, units, signs, strings and brackets by themselves.
        _ => out.push_str(pair.as_str()),
    }
}

/// The parts with something between them.
fn put_row(pair: Pair<'_, Rule>, between: &str, out: &mut String) {
    for (number, part) in pair.into_inner().enumerate() {
        if number > 0 {
            out.push_str(between);
        }
        put(part, out);
    }
}

fn put_led(lead: &str, pair: Pair<'_, Rule>, out: &mut String) {
    out.push_str(lead);
    put_row(pair, " ", out);
}

/// Words with one space between them.
fn put_words(text: &str, out: &mut String) {
    for (number, word) in text.split_whitespace().enumerate() {
        if number > 0 {
            out.push(' ');
        }
        out.push_str(word);
    }
}

/// A path of names, perhaps with arguments right behind.
fn put_named(pair: Pair<'_, Rule>, out: &mut String) {
    for (number, part) in pair.into_inner().enumerate() {
        if number > 0 && part.as_rule() == Rule::name {
            out.push('.');
        }
        put(part, out);
    }
}

/// An amount and what qualifies it, or a pair. What stands between is a colon, `±` or `+/-`, as the author typed it.
fn put_measure(pair: Pair<'_, Rule>, out: &mut String) {
    let whole = pair.as_span();
    let mut end = None;
    for part in pair.into_inner() {
        let span = part.as_span();
        if let Some(end) = end {
            let between = whole.as_str().get(end - whole.start()..span.start() - whole.start()).unwrap_or("").trim();
            if !matches!(between, "" | ":") {
                out.push(' ');
            }
            out.push_str(between);
            out.push(' ');
        }
        end = Some(span.end());
        put(part, out);
    }
}

/// Elements and the brackets that are there. A comma behind the last element stays only where the list goes on below.
fn put_list(pair: Pair<'_, Rule>, out: &mut String) {
    let text = pair.as_str().trim_end();
    let closes = text.ends_with(']');
    let comma = !closes && text.ends_with(',');
    if text.starts_with('[') {
        out.push('[');
    }
    for (number, part) in pair.into_inner().filter(|part| part.as_rule() == Rule::element).enumerate() {
        if number > 0 {
            out.push_str(", ");
        }
        put(part, out);
    }
    if comma {
        out.push(',');
    }
    if closes {
        out.push(']');
    }
}
