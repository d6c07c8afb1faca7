//! Remarks as other languages mark them.

use super::scan::signs;
use super::{edited, Slip};
use std::ops::Range;

/// A remark behind `//`, `--` or between `/*` and `*/`.
pub(super) fn of_another_language(line: &str) -> Option<Slip> {
    let (at, mark) = start(line)?;
    let rest = line.get(at..)?.trim_end();
    let end = at + rest.len();
    let message = format!("a comment starts with `#`, not with `{mark}`");
    let (words, range) = match mark {
        "/*" => match rest.find("*/") {
            // Behind the remark the line goes on.
            Some(close) if close + 2 < rest.len() => {
                let range = at..at + close + 2;
                return Some(
                    Slip::told(range.clone(), message, "put it behind `#`, at the end of a line")
                        .mended_by("take the comment out", vec![(range, String::new())])
                        .in_marks(),
                );
            }
            Some(close) => (rest.get(2..close)?.trim(), at..end),
            None => (rest.get(2..)?.trim(), at..end),
        },
        _ => (rest.get(mark.len()..)?.trim_start_matches(['/', '-', '!']).trim(), at..end),
    };
    let remark = format!("# {words}").trim_end().to_string();
    let slip = Slip::told(range.clone(), message, format!("write `{}`", crate::unsound::shortened(&remark)))
        .mended_by("write `#`", vec![(range, remark)])
        .in_marks();
    Some(Slip { is_remark: true, ..slip })
}

/// A remark behind two dashes, in what was taken for something else.
pub(super) fn dashes(text: &str) -> Option<Slip> {
    text.starts_with("--").then(|| of_another_language(text))?
}

/// Where such a remark starts, with its mark.
fn start(line: &str) -> Option<(usize, &'static str)> {
    // Most lines have none, and this is asked of every one that can't be read.
    if !["//", "/*", "--"].iter().any(|mark| line.contains(mark)) {
        return None;
    }
    let signs = signs(line);
    let remark = signs.iter().position(|(_, c, _)| *c == '#').unwrap_or(signs.len());
    signs.get(..remark)?.windows(2).find_map(|pair| {
        let [(at, first, _), (next, second, _)] = pair else { return None };
        let mark = match (first, second) {
            ('/', '/') => "//",
            ('/', '*') => "/*",
            // Two dashes are a sign of numbers too, unless a word follows.
            ('-', '-') => {
                let rest = line.get(next + 1..)?.trim_start_matches('-');
                let words = rest.starts_with(char::is_whitespace) && rest.trim_start().starts_with(char::is_alphabetic);
                Some("--").filter(|_| words || rest.trim().is_empty())?
            }
            _ => return None,
        };
        // In the middle of a number or a word it's a slip of arithmetic.
        let starts =
            line.get(..*at)?.chars().next_back().is_none_or(|c| c.is_whitespace() || matches!(c, ';' | '{' | '}'));
        (next - at == 1 && starts).then_some((*at, mark))
    })
}

/// A remark from `/*` on one line to `*/` on a later one: its place in a text of which the first line starts at `from`,
/// the message, and the text as it's meant.
pub(crate) fn block_remark(text: &str, line: Range<usize>) -> Option<(Range<usize>, String)> {
    let first = text.get(line.clone())?;
    let (at, _) =
        start(first).filter(|(at, mark)| *mark == "/*" && !first.get(*at..).is_some_and(|rest| rest.contains("*/")))?;
    let start = line.start + at;
    let end = start + text.get(start..)?.find("*/")? + 2;
    let inner = text.get(start + 2..end - 2)?;
    // Every line of it gets its own mark; stars that line the remark aren't part of it.
    let mut edits = vec![(0..2, "#".to_string())];
    let mut offset = 2;
    for part in inner.split_inclusive('\n') {
        if offset > 2 {
            let content = part.trim_start_matches([' ', '\t']);
            let stars = content.len() - content.trim_start_matches('*').len();
            let begins = offset + part.len() - content.len();
            if !content.trim().is_empty() {
                edits.push((begins..begins + stars, if stars > 0 { "#".to_string() } else { "# ".to_string() }));
            }
        }
        offset += part.len();
    }
    edits.push((end - start - 2..end - start, String::new()));
    Some((start..end, edited(text.get(start..end)?, &edits)))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic)]
mod tests {
    use super::*;

    #[test]
    fn remarks_start_outside_of_texts() {
        assert_eq!(start("length: 3 mm // long"), Some((13, "//")));
        assert_eq!(start("-- the tube"), Some((0, "--")));
        for line in ["note: \"http://x\"", "a: 3 mm # // no", "a: 3 mm --2 mm"] {
            assert_eq!(start(line), None, "{line}");
        }
    }

    #[test]
    fn a_remark_over_several_lines_gets_a_mark_on_each() {
        let text = "/* a\n * b\n\n  c\n */\nx";
        let (range, meant) = block_remark(text, 0..4).unwrap();
        assert_eq!((range, meant.as_str()), (0..18, "# a\n # b\n\n  # c\n "));
        assert_eq!(block_remark("/* a */\nb */", 0..7), None);
    }
}
