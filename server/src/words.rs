//! Words for the client, in Markdown or without it.

use lsp_types::{Documentation, MarkupContent, MarkupKind};

/// A longer text, as the client can show it.
pub fn markup(markdown: bool, text: String) -> MarkupContent {
    match markdown {
        true => MarkupContent { kind: MarkupKind::Markdown, value: text },
        false => MarkupContent { kind: MarkupKind::PlainText, value: plain(&text) },
    }
}

/// What is said beside an offer.
pub fn documentation(markdown: bool, text: String) -> Documentation {
    Documentation::MarkupContent(markup(markdown, text))
}

/// Markdown without its marks: no stars, ticks and fences. A table keeps its bars, which a plain reader can follow.
fn plain(markdown: &str) -> String {
    let mut lines: Vec<String> = Vec::new();
    for line in markdown.lines() {
        let is_rule = !line.is_empty() && line.chars().all(|c| "|-: ".contains(c));
        if line.starts_with("```") || is_rule {
            continue;
        }
        let line = line.trim_start_matches('#').replace("**", "").replace('`', "");
        lines.push(line.trim_end().to_string());
    }
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_words_have_no_marks() {
        let text = "**lug** of `body`\n\n| a | b |\n|---|---|\n| 1 | 2 |\n\n```finwright\nlug { }\n```";
        assert_eq!(plain(text), "lug of body\n\n| a | b |\n| 1 | 2 |\n\nlug { }");
    }
}
