//! A page of HTML that needs nothing else and may load nothing.

use finwright_draw::svg::{escaped, style};

/// A whole page; `body` is HTML already.
pub fn page(title: &str, body: &str) -> String {
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n\
         <title>{}</title>\n<style>\n{}{}</style>\n</head>\n<body>\n<main>\n{body}</main>\n<footer><p>{}</p></footer>\n\
         </body>\n</html>\n",
        escaped(title),
        style(),
        include_str!("class.css"),
        crate::output::CAUTION,
    )
}

/// Our own prose, in paragraphs with words in backticks, as HTML.
pub fn prose(text: &str) -> String {
    let paragraphs = text.trim().split("\n\n").map(|lines| lines.split_whitespace().collect::<Vec<_>>().join(" "));
    paragraphs.map(|words| format!("<p>{}</p>\n", with_code(&words))).collect()
}

/// Words with what stands in backticks set as code.
pub fn with_code(words: &str) -> String {
    let mut out = String::new();
    for (number, piece) in words.split('`').enumerate() {
        match number % 2 {
            1 => out += &format!("<code>{}</code>", escaped(piece)),
            _ => out += &escaped(piece),
        }
    }
    out
}

/// A sentence of what somebody or a rule said, with its full stop.
pub fn sentence(words: &str) -> String {
    format!("{}.", with_code(words.trim().trim_end_matches('.')))
}

/// A list; nothing for no lines, which are HTML already.
pub fn list(lines: &[String]) -> String {
    if lines.is_empty() {
        return String::new();
    }
    format!("<ul>\n{}</ul>\n", lines.iter().map(|line| format!("<li>{line}</li>\n")).collect::<String>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_somebody_wrote_is_a_tag() {
        assert_eq!(with_code("a `<b>` & <i>"), "a <code>&lt;b&gt;</code> &amp; &lt;i&gt;");
        assert_eq!(prose("one\ntwo\n\nthree\n"), "<p>one two</p>\n<p>three</p>\n");
        assert!(page("<script>", "").contains("<title>&lt;script&gt;</title>"));
    }
}
