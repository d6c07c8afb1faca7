//! A statement in tokens, as far as it's typed.

use crate::cursor::is_word;

/// A token of a statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Token<'t> {
    /// A name or word.
    Word(&'t str),
    /// A number.
    Number(&'t str),
    /// A quoted text, perhaps without its end.
    Quoted(&'t str),
    /// Any other character; `+/-` is `±`.
    Mark(char),
}

/// The tokens of a text.
pub(crate) fn tokens(text: &str) -> Vec<Token<'_>> {
    let mut found = Vec::new();
    let mut rest = text.trim_start();
    while let Some(first) = rest.chars().next() {
        let (token, length) = match first {
            '"' => {
                let end = rest.get(1..).and_then(|inside| inside.find('"')).map_or(rest.len(), |at| at + 2);
                (Token::Quoted(&rest[..end]), end)
            }
            '#' => return found,
            '+' if rest.starts_with("+/-") => (Token::Mark('±'), 3),
            c if c.is_ascii_digit() || (c == '.' && rest[1..].starts_with(|c: char| c.is_ascii_digit())) => {
                let end = number_end(rest);
                (Token::Number(&rest[..end]), end)
            }
            c if is_word(c) || c == '°' => {
                let start = c.len_utf8();
                let end = rest[start..].find(|c: char| !is_word(c)).map_or(rest.len(), |at| start + at);
                (Token::Word(&rest[..end]), end)
            }
            c => (Token::Mark(c), c.len_utf8()),
        };
        found.push(token);
        rest = rest[length..].trim_start();
    }
    found
}

fn number_end(text: &str) -> usize {
    let digits = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(text.len());
    // `1e-3` is one number; `1 ear` is none.
    let exponent = text[digits..].strip_prefix(['e', 'E']).map(|rest| rest.trim_start_matches(['+', '-']));
    match exponent.filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit())) {
        Some(rest) => {
            let more = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
            text.len() - rest.len() + more
        }
        None => digits,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Token::*;

    #[test]
    fn of_a_placement() {
        let found = tokens("at: 1.2e-3 m +/- 3mm from body.back # there");
        let words =
            [Word("at"), Mark(':'), Number("1.2e-3"), Word("m"), Mark('±'), Number("3"), Word("mm"), Word("from")];
        assert_eq!(found[..8], words);
        assert_eq!(found[8..], [Word("body"), Mark('.'), Word("back")]);
    }

    #[test]
    fn of_an_unfinished_text() {
        assert_eq!(tokens("file \"d9.c"), [Word("file"), Quoted("\"d9.c")]);
    }
}
