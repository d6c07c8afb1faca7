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

/// Words as a cell of a table that no program takes for a formula: one that would begin as a formula does begins with
/// an apostrophe, and what isn't a letter or a mark is a space.
#[cfg(feature = "pictures")]
pub fn cell(words: &str) -> String {
    let plain = words.replace(|c: char| c.is_control(), " ");
    let plain = plain.trim();
    match plain.chars().next() {
        // The wide ones are taken for the narrow ones by some programs.
        Some('=' | '+' | '-' | '@' | '|' | '%' | '＝' | '＋' | '－' | '＠') => format!("'{plain}"),
        _ => plain.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_somebody_wrote_is_a_mark() {
        assert_eq!(markdown("<b>*bold*</b> | `x` [a](b)"), "&lt;b&gt;\\*bold\\*&lt;/b&gt; \\| \\`x\\` \\[a\\]\\(b\\)");
        assert_eq!(markdown("a\nb\tc\u{1b}[2J"), "a b c \\[2J");
    }

    #[cfg(feature = "pictures")]
    #[test]
    fn no_cell_is_a_formula() {
        assert_eq!(cell("=1+1"), "'=1+1");
        assert_eq!(cell("\t=1+1"), "'=1+1");
        assert_eq!(cell("\u{1b}[2J\n@x"), "[2J @x");
        assert_eq!(cell("two words"), "two words");
    }

    #[test]
    fn what_is_no_mark_stays() {
        assert_eq!(markdown("13.4 m/s, 4 mm rod"), "13.4 m/s, 4 mm rod");
    }
}
