//! What somebody else wrote, made harmless where it's put into Markdown or into a table's cells.

/// Words as Markdown shows them: nothing in them is a mark, a tag, a link or a mention, and they stay on one line.
pub fn markdown(words: &str) -> String {
    let mut out = String::with_capacity(words.len() + 8);
    for c in words.chars() {
        match c {
            '\\' | '`' | '*' | '_' | '{' | '}' | '[' | ']' | '(' | ')' | '#' | '|' | '!' | '~' => {
                out.push('\\');
                out.push(c);
            }
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '&' => out += "&amp;",
            // Hosts turn a name behind it into a call for that person.
            '@' => out += "@\u{2060}",
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_somebody_wrote_is_a_mark() {
        assert_eq!(markdown("<b>*bold*</b> | `x` [a](b)"), "&lt;b&gt;\\*bold\\*&lt;/b&gt; \\| \\`x\\` \\[a\\]\\(b\\)");
        assert_eq!(markdown("a\nb\tc\u{1b}[2J"), "a b c \\[2J");
        assert_eq!(markdown("13.4 m/s, 4 mm rod"), "13.4 m/s, 4 mm rod");
    }
}
